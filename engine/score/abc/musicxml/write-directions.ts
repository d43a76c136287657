import type { BarMark, TuneEvent } from '../tune.ts';
import { type Attributes, element, textElement } from '../write-xml.ts';
import type { NumberedSpan, SpansByEvent } from './numbered-spans.ts';
import { writeType } from './write-note.ts';

/** What a direction has besides its type: `offset` in divisions from where it is written. */
interface Placing {
  readonly placement: 'above' | 'below';
  readonly offset?: number;
  readonly staff: number | null;
  readonly sound?: Attributes;
}

const writeDirection = (
  types: readonly string[],
  { placement, offset = 0, staff, sound }: Placing,
): string => {
  const shown = types.filter((type) => type !== '');
  if (shown.length === 0) return '';
  return element('direction', { placement }, [
    ...shown.map((type) => element('direction-type', {}, type)),
    offset === 0 ? '' : textElement('offset', `${offset}`, { sound: 'yes' }),
    staff === null ? '' : textElement('staff', `${staff}`),
    sound === undefined ? '' : element('sound', sound),
  ]);
};

const words = (text: string): string => textElement('words', text);

const JUMPS: Readonly<
  Record<Extract<BarMark, { kind: 'jump' }>['jump'], readonly [sign: string | null, sound: Attributes]>
> = {
  segno: ['<segno/>', { segno: 'segno' }],
  coda: ['<coda/>', { coda: 'coda' }],
  'to-coda': [null, { tocoda: 'coda' }],
  fine: [null, { fine: 'yes' }],
  'da-capo': [null, { dacapo: 'yes' }],
  'dal-segno': [null, { dalsegno: 'segno' }],
};

/** What stands over the bar. */
export const writeMark = (mark: BarMark, offset: number, staff: number | null): string => {
  const place = { placement: 'above', offset, staff } as const;
  switch (mark.kind) {
    case 'part':
      return writeDirection([textElement('rehearsal', mark.text)], place);
    case 'text':
      return writeDirection([words(mark.text)], place);
    case 'jump': {
      const [sign, sound] = JUMPS[mark.jump];
      return writeDirection([sign ?? words(mark.text)], { ...place, sound });
    }
    case 'tempo': {
      if (mark.beat === null) return writeDirection([words(mark.text)], place);
      const { unit, dots } = mark.beat;
      const beatUnit = writeType({ unit, dots: 0 }).replace(/type>/gu, 'beat-unit>');
      const metronome = element('metronome', {}, [
        beatUnit,
        '<beat-unit-dot/>'.repeat(dots),
        textElement('per-minute', `${mark.perMinute}`),
      ]);
      const quarters = (4 / unit) * (2 - 1 / 2 ** dots);
      const sound = { tempo: Number((mark.perMinute * quarters).toFixed(4)) };
      return writeDirection([words(mark.text), metronome], { ...place, sound });
    }
  }
};

/** Chord kinds of MusicXML by what follows the root in a chord symbol. */
const KINDS: ReadonlyMap<string, string> = new Map([
  ['', 'major'],
  ['m', 'minor'],
  ['min', 'minor'],
  ['-', 'minor'],
  ['7', 'dominant'],
  ['maj7', 'major-seventh'],
  ['M7', 'major-seventh'],
  ['m7', 'minor-seventh'],
  ['min7', 'minor-seventh'],
  ['dim', 'diminished'],
  ['d', 'diminished'],
  ['o', 'diminished'],
  ['dim7', 'diminished-seventh'],
  ['m7b5', 'half-diminished'],
  ['aug', 'augmented'],
  ['+', 'augmented'],
  ['sus', 'suspended-fourth'],
  ['sus4', 'suspended-fourth'],
  ['sus2', 'suspended-second'],
  ['6', 'major-sixth'],
  ['m6', 'minor-sixth'],
  ['9', 'dominant-ninth'],
  ['m9', 'minor-ninth'],
  ['5', 'power'],
]);

const SYMBOL = /^([A-G])([#♯b♭]?)([^/\s]*)(?:\/([A-Ga-g])([#♯b♭]?))?$/u;

const alterOf = (sign: string): number => (sign === '' ? 0 : sign === '#' || sign === '♯' ? 1 : -1);

const writeStep = (name: 'root' | 'bass', step: string, sign: string): string =>
  element(name, {}, [
    textElement(`${name}-step`, step),
    sign === '' ? '' : textElement(`${name}-alter`, `${alterOf(sign)}`),
  ]);

/** A chord symbol; one whose root is not understood is written as words. */
const writeChord = (text: string, staff: number | null): string => {
  const found = SYMBOL.exec(text);
  if (found === null) return writeDirection([words(text)], { placement: 'above', staff });
  const [, step, sign, rest, bass, bassSign] = found;
  return element('harmony', { placement: 'above' }, [
    writeStep('root', step!, sign!),
    element('kind', { text: rest! === '' ? null : rest! }, KINDS.get(rest!) ?? 'other'),
    bass === undefined ? '' : writeStep('bass', bass.toUpperCase(), bassSign ?? ''),
    staff === null ? '' : textElement('staff', `${staff}`),
  ]);
};

const DYNAMICS = new Set(
  'p pp ppp pppp ppppp pppppp f ff fff ffff fffff ffffff mp mf sf sfp sfpp fp rf rfz sfz sffz fz n pf sfzp'.split(
    ' ',
  ),
);

const writeDynamic = (text: string): string =>
  DYNAMICS.has(text) ? element('dynamics', {}, `<${text}/>`) : words(text);

const writeWedge = ({ kind, number }: NumberedSpan, type: 'start' | 'stop', staff: number | null): string =>
  kind === 'slur' || kind === 'glissando'
    ? ''
    : writeDirection([element('wedge', { type: type === 'stop' ? 'stop' : kind, number })], {
        placement: 'below',
        staff,
      });

/** What stands before an event: chords, words, dynamics, and hairpins that begin. */
export const writeBefore = (event: TuneEvent, { starting }: SpansByEvent, staff: number | null): string => {
  const [first, ...others] = event.chordSymbols;
  return [
    first === undefined ? '' : writeChord(first, staff),
    ...others.map((chord) => writeDirection([words(`(${chord})`)], { placement: 'above', staff })),
    ...event.texts.map(({ text, below }) =>
      writeDirection([words(text)], { placement: below ? 'below' : 'above', staff }),
    ),
    ...event.signs.map((sign) =>
      sign.kind === 'dynamic' ? writeDirection([writeDynamic(sign.text)], { placement: 'below', staff }) : '',
    ),
    ...(starting.get(event.id) ?? []).map((span) => writeWedge(span, 'start', staff)),
  ].join('');
};

/** What stands after an event: hairpins that end. */
export const writeAfter = ({ id }: TuneEvent, { ending }: SpansByEvent, staff: number | null): string =>
  (ending.get(id) ?? []).map((span) => writeWedge(span, 'stop', staff)).join('');
