import type { Rational } from '../../../music/rational.ts';
import { escapeText } from '../../../xml/entities.ts';
import type { BarMark, Jump, NoteValue, OrnamentName, Sign, TuneBar, TuneEvent, TuneSpan } from '../tune.ts';
import { element, textElement } from '../write-xml.ts';

/** Small notes of SMuFL for metronome marks (SMuFL 1.4, metronome marks). */
const METRONOME_NOTES: Readonly<Record<number, string>> = {
  1: '\uECA2',
  2: '\uECA3',
  4: '\uECA5',
  8: '\uECA7',
  16: '\uECA9',
};

const METRONOME_DOT = '\uECB7';

const FUNCTIONS: Readonly<Record<Jump, string>> = {
  segno: 'segno',
  coda: 'coda',
  'to-coda': 'coda',
  fine: 'fine',
  'da-capo': 'daCapo',
  'dal-segno': 'dalSegno',
};

/** What stands over the bar. @param beat the time stamp of a time in the bar */
export const writeMarks = ({ marks }: TuneBar, beat: (onset: Rational) => string): readonly string[] =>
  marks.map((mark) => writeMark(mark, { staff: 1, tstamp: beat(mark.at), place: 'above' }));

const writeMark = (mark: BarMark, place: { staff: number; tstamp: string; place: string }): string => {
  switch (mark.kind) {
    case 'part':
      return textElement('reh', mark.text, place);
    case 'text':
      return textElement('dir', mark.text, place);
    case 'jump':
      return element('repeatMark', { ...place, func: FUNCTIONS[mark.jump] }, escapeText(mark.text));
    case 'tempo':
      return element('tempo', { ...place, ...metronome(mark) }, tempoWords(mark));
  }
};

type Tempo = Extract<BarMark, { kind: 'tempo' }>;

const metronome = ({ beat, perMinute }: Tempo) =>
  beat === null ? {} : { mm: perMinute, 'mm.unit': beat.unit, 'mm.dots': beat.dots === 0 ? null : beat.dots };

const tempoWords = ({ text, beat, perMinute }: Tempo): string => {
  const note = beat === null ? undefined : METRONOME_NOTES[beat.unit];
  if (note === undefined) return escapeText(text);
  const dots = METRONOME_DOT.repeat((beat as NoteValue).dots);
  const sign = element('rend', { 'glyph.auth': 'smufl', fontfam: 'smufl' }, `${note}${dots}`);
  return `${text === '' ? '' : `${escapeText(text)} `}${sign} = ${perMinute}`;
};

const ORNAMENTS: Readonly<Record<OrnamentName, readonly [name: string, form: string | null]>> = {
  trill: ['trill', null],
  mordent: ['mordent', 'lower'],
  'inverted-mordent': ['mordent', 'upper'],
  turn: ['turn', 'upper'],
  'inverted-turn': ['turn', 'lower'],
};

/** The signs and words that hang on an event. */
export const writeNoteSigns = (event: TuneEvent, staff: number): readonly string[] => {
  const at = { startid: `#${event.id}`, staff };
  return [
    textElement('harm', nameChords(event.chordSymbols), { ...at, place: 'above' }),
    ...event.texts.map(({ text, below }) =>
      textElement('dir', text, { ...at, place: below ? 'below' : 'above' }),
    ),
    ...event.signs.map((sign) => writeSign(sign, event, staff)),
  ];
};

/** Chords to choose from at one note, the second and more in round brackets: they would print over each other. */
const nameChords = ([first = '', ...others]: readonly string[]): string =>
  [first, ...others.map((chord) => `(${chord})`)].join(' ');

const writeSign = (sign: Sign, { id, pitches }: TuneEvent, staff: number): string => {
  const at = { startid: `#${id}`, staff };
  switch (sign.kind) {
    case 'articulation':
      return '';
    case 'ornament': {
      const [name, form] = ORNAMENTS[sign.name];
      return element(name, { ...at, form, place: 'above' });
    }
    case 'fermata':
      return element('fermata', { ...at, place: 'above' });
    case 'arpeggio':
      return pitches.length < 2 ? '' : element('arpeg', at);
    case 'dynamic':
      return textElement('dynam', sign.text, { ...at, place: 'below' });
    case 'finger':
      return textElement('fing', sign.text, { ...at, place: 'above' });
  }
};

const HAIRPINS = { crescendo: 'cres', diminuendo: 'dim' } as const;

/** What goes from one note to another, written in the bar where it begins. */
export const writeSpan = ({ kind, from, to }: TuneSpan): string => {
  const ends = { startid: `#${from}`, endid: `#${to}` };
  if (kind === 'slur') return element('slur', ends);
  return kind === 'glissando'
    ? element('gliss', ends)
    : element('hairpin', { ...ends, form: HAIRPINS[kind] });
};
