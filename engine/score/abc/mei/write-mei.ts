import { group } from '../../../group.ts';
import { keyAlter, type Pitch } from '../../../music/pitch.ts';
import { type Rational, rational, toNumber } from '../../../music/rational.ts';
import type {
  NoteValue,
  Tune,
  TuneBar,
  TuneEvent,
  TuneGrace,
  TuneKey,
  TuneLayer,
  TuneMeter,
  TunePitch,
  TuneSpan,
} from '../tune.ts';
import { type Attributes, element, textElement } from '../write-xml.ts';
import { type EventGroup, groupEvents } from './event-groups.ts';
import { writeMarks, writeNoteSigns, writeSpan } from './write-mei-signs.ts';

/** What holds at a bar. */
interface Now {
  readonly fifths: number;
  readonly meter: TuneMeter | null;
}

/** Writes a tune as MEI 5. @param partName the name of the part, by which the harp is found */
export const writeMei = (tune: Tune, partName: string): string => {
  const [first] = tune.bars;
  const definition = element(
    'scoreDef',
    definitionOf(first?.key ?? null, first?.meter ?? null),
    writeStaves(tune, partName),
  );
  const score = element('score', {}, [definition, element('section', { 'xml:id': 'tune' }, writeBars(tune))]);
  const music = element('music', {}, element('body', {}, element('mdiv', {}, score)));
  const head = writeHead(tune);
  const root = element('mei', { xmlns: 'http://www.music-encoding.org/ns/mei', meiversion: '5.0' }, [
    head,
    music,
  ]);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root}\n`;
};

const writeHead = ({ titles, composer, fields }: Tune): string => {
  const names = titles.map((title, index) =>
    textElement('title', title, { type: index === 0 ? 'main' : 'subordinate' }),
  );
  const statement = element('titleStmt', {}, [
    ...(names.length === 0 ? ['<title/>'] : names),
    textElement('composer', composer),
  ]);
  const notes = fields.map(({ letter, text }) => textElement('annot', text, { label: letter }));
  const about = notes.join('') === '' ? '' : element('notesStmt', {}, notes);
  return element('meiHead', {}, element('fileDesc', {}, [statement, '<pubStmt/>', about]));
};

const fifthsText = (fifths: number): string =>
  fifths === 0 ? '0' : `${Math.abs(fifths)}${fifths > 0 ? 's' : 'f'}`;

const definitionOf = (key: TuneKey | null, meter: TuneMeter | null): Attributes => ({
  keysig: key === null ? null : fifthsText(key.printed),
  'key.mode': key?.mode ?? null,
  'meter.count': meter?.count ?? null,
  'meter.unit': meter?.unit ?? null,
  'meter.sym': meter?.symbol ?? null,
});

const clefAttributes = (
  { shape, line, octaves }: Tune['staves'][number]['clef'],
  prefix: string,
): Attributes => ({
  [`${prefix}shape`]: shape,
  [`${prefix}line`]: line,
  [`${prefix}dis`]: octaves === 0 ? null : 8,
  [`${prefix}dis.place`]: octaves === 0 ? null : octaves > 0 ? 'above' : 'below',
});

/** One or two staves are one player’s; of more each is a part, by its name. */
const writeStaves = ({ staves }: Tune, partName: string): string => {
  const ofOne = staves.length <= 2;
  const definitions = staves.map(({ name, clef }, index) =>
    element(
      'staffDef',
      { n: index + 1, lines: 5, ...clefAttributes(clef, 'clef.') },
      ofOne
        ? staves.length === 1
          ? textElement('label', partName)
          : ''
        : textElement('label', name || `Voice ${index + 1}`),
    ),
  );
  if (staves.length !== 2) return element('staffGrp', {}, definitions);
  return element(
    'staffGrp',
    {},
    element('staffGrp', { symbol: 'brace', 'bar.thru': 'true' }, [
      textElement('label', partName),
      ...definitions,
    ]),
  );
};

const writeBars = (tune: Tune): readonly string[] => {
  const written: string[] = [];
  const spans = group(tune.spans, ({ bar }) => bar);
  let now: Now = { fifths: 0, meter: null };
  for (const [index, bar] of tune.bars.entries()) {
    now = { fifths: bar.key?.printed ?? now.fifths, meter: bar.measured ? (bar.meter ?? now.meter) : null };
    const change =
      index === 0 || (bar.key === null && bar.meter === null)
        ? ''
        : element('scoreDef', definitionOf(bar.key, bar.meter));
    const line = index > 0 && bar.newLine ? '<sb/>' : '';
    const measure = `${line}${change}${writeMeasure(tune, bar, index, now, spans.get(index) ?? [])}`;
    const opens =
      bar.ending?.starts === true ? `<ending n="${bar.ending.numbers.replace(/[^\d,-]/gu, '') || '1'}">` : '';
    const closes = bar.ending?.ends === true ? '</ending>' : '';
    written.push(`${opens}${measure}${closes}\n`);
  }
  return written;
};

const RIGHT: Readonly<Record<TuneBar['right'], string>> = {
  single: 'single',
  double: 'dbl',
  end: 'end',
  repeat: 'rptend',
  dotted: 'dotted',
  invisible: 'invis',
};

const writeMeasure = (
  tune: Tune,
  bar: TuneBar,
  index: number,
  now: Now,
  spans: readonly TuneSpan[],
): string => {
  const staves = tune.staves.map((_, staff) => {
    const layers = bar.layers.filter((layer) => layer.staff === staff + 1);
    const clef = bar.clefs.find((each) => each.staff === staff + 1);
    const change = clef === undefined ? '' : element('clef', clefAttributes(clef.clef, ''));
    const content =
      layers.length === 0
        ? [element('layer', { n: 1 }, `${change}<mRest/>`)]
        : layers.map((layer, place) => writeLayer(layer, place === 0 ? change : '', now));
    return element('staff', { n: staff + 1 }, content);
  });
  const events = bar.layers.flatMap((layer) => layer.events.map((event) => ({ event, staff: layer.staff })));
  const beat = beatOf(now);
  return element(
    'measure',
    {
      'xml:id': `bar${index + 1}`,
      n: bar.number,
      metcon: bar.number === null || !bar.measured ? 'false' : null,
      left: bar.startsRepeat ? 'rptstart' : null,
      right: RIGHT[bar.right],
    },
    [
      ...staves,
      ...writeMarks(bar, beat),
      ...events.flatMap(({ event, staff }) => writeNoteSigns(event, staff)),
      ...spans.map(writeSpan),
    ],
  );
};

/** Time stamps count beats of the meter from 1. */
const beatOf =
  ({ meter }: Now) =>
  (onset: Rational): string => {
    const { num, den } = onset;
    return `${Number((1 + toNumber(rational(num * (meter?.unit ?? 4), den * 4))).toFixed(5))}`;
  };

const writeLayer = ({ voice, events }: TuneLayer, before: string, now: Now): string =>
  element('layer', { n: voice }, [before, ...groupEvents(events).map((each) => writeGroup(each, now))]);

const writeGroup = (each: EventGroup, now: Now): string => {
  if (each.kind === 'event') return writeEvent(each.event, now);
  const members = each.members.map((member) => writeGroup(member, now));
  if (each.kind === 'beam') return element('beam', {}, members);
  return element(
    'tuplet',
    {
      num: each.tuplet.count,
      numbase: each.tuplet.inTimeOf,
      'bracket.visible': hasBeamAlone(each.members) ? 'false' : null,
    },
    members,
  );
};

const hasBeamAlone = (members: readonly EventGroup[]): boolean =>
  members.length === 1 && members[0]!.kind === 'beam';

const durationOf = ({ unit, dots }: NoteValue): Attributes => ({
  dur: unit === 0.5 ? 'breve' : unit,
  dots: dots === 0 ? null : dots,
});

const ARTICULATIONS = {
  staccato: 'stacc',
  tenuto: 'ten',
  accent: 'acc',
  marcato: 'marc',
  staccatissimo: 'stacciss',
  'up-bow': 'upbow',
  'down-bow': 'dnbow',
} as const;

const writeEvent = (event: TuneEvent, now: Now): string => {
  const { id, kind, value, pitches } = event;
  const graces = writeGraces(event.graces, now);
  if (kind === 'bar-rest') return element('mRest', { 'xml:id': id });
  if (kind !== 'note' || pitches.length === 0)
    return graces + element(kind === 'rest' ? 'rest' : 'space', { 'xml:id': id, ...durationOf(value) });
  const names = event.signs.flatMap((sign) =>
    sign.kind === 'articulation' ? [ARTICULATIONS[sign.name]] : [],
  );
  const own = {
    'xml:id': id,
    ...durationOf(value),
    'head.shape': event.diamond ? 'diamond' : null,
    artic: names.length === 0 ? null : [...new Set(names)].join(' '),
  };
  const verses = writeLyrics(event);
  const [only] = pitches;
  if (pitches.length === 1)
    return (
      graces + element('note', { ...own, ...pitchAttributes(only!, now), ...tieAttribute(only!) }, verses)
    );
  const heads = pitches.map((each, index) =>
    element('note', { 'xml:id': `${id}p${index + 1}`, ...pitchAttributes(each, now), ...tieAttribute(each) }),
  );
  return graces + element('chord', own, [...heads, ...verses]);
};

const tieAttribute = ({ tieStarts, tieEnds }: TunePitch): Attributes => ({
  tie: tieStarts ? (tieEnds ? 'm' : 'i') : tieEnds ? 't' : null,
});

const ACCIDENTALS: ReadonlyMap<number, string> = new Map([
  [-2, 'ff'],
  [-1, 'f'],
  [-0.5, '1qf'],
  [0, 'n'],
  [0.5, '1qs'],
  [1, 's'],
  [2, 'x'],
]);

const pitchAttributes = (
  { pitch, accidental }: { pitch: Pitch; accidental: boolean },
  { fifths }: Now,
): Attributes => {
  const { letter, octave, alter } = pitch;
  const sign = ACCIDENTALS.get(alter) ?? null;
  const inKey = keyAlter(fifths, letter);
  const sounding = alter === 2 ? 'ss' : sign;
  return {
    pname: letter.toLowerCase(),
    oct: octave,
    accid: accidental ? sign : null,
    'accid.ges': !accidental && (alter !== 0 || inKey !== 0) ? sounding : null,
  };
};

const writeGraces = (graces: readonly TuneGrace[], now: Now): string => {
  const played = graces.filter(({ diamond }) => !diamond);
  const written = (grace: TuneGrace, own: Attributes): string =>
    element('note', {
      ...pitchAttributes(grace, now),
      ...durationOf(grace.value),
      grace: grace.slashed ? 'unacc' : 'acc',
      ...own,
    });
  const notes = played.map((grace) =>
    written(grace, { 'stem.mod': grace.slashed && played.length === 1 ? '1slash' : null }),
  );
  const diamonds = graces.filter(({ diamond }) => diamond).map((grace) => written(grace, DIAMOND));
  const group =
    notes.length < 2
      ? notes.join('')
      : element('graceGrp', { grace: played[0]!.slashed ? 'unacc' : 'acc' }, element('beam', {}, notes));
  return diamonds.join('') + group;
};

const DIAMOND: Attributes = { 'head.shape': 'diamond', 'head.fill': 'void', 'stem.visible': 'false' };

const writeLyrics = ({ lyrics }: TuneEvent): readonly string[] =>
  lyrics.map(({ text, goesOn }, verse) =>
    text === ''
      ? ''
      : element(
          'verse',
          { n: verse + 1 },
          textElement('syl', text, { con: goesOn === 'hyphen' ? 'd' : goesOn === 'line' ? 'u' : null }),
        ),
  );
