import { compare, type Rational, ZERO } from '../../../music/rational.ts';
import { childText, firstChild, type XmlElement } from '../../../xml/tree.ts';
import { assumedTempo } from '../../bars/clock.ts';
import type { Meter } from '../../model/bar.ts';
import type { TempoMark } from '../../model/tempo.ts';
import { tempoInWords } from '../../texts/metronome-words.ts';
import type { RemarkList } from '../remark-list.ts';
import { soundOf, typesOf, wordsIn } from './directions.ts';

/** A tempo as the file states it: quarter notes a minute, or a factor on the tempo before. */
export interface TempoSign {
  /** Whether the file says how fast it is played, which goes before what is printed. */
  readonly isPlayed: boolean;
  /** Whether a figure is printed with it. */
  readonly origin: 'sound' | 'metronome';
  readonly quartersPerMinute: number | null;
  readonly factor: number | null;
}

/** Slowest and fastest tempo that is believed, in quarter notes a minute. */
const SLOWEST = 5;
const FASTEST = 2000;

/** The tempo of a direction or of a lone `sound`: what is to sound goes before what is printed. */
export const readTempo = (element: XmlElement, bar: number, remarks: RemarkList): TempoSign | null => {
  const stated = soundOf(element)?.attributes.tempo;
  const metronome = typesOf(element).find((each) => each.name === 'metronome');
  if (stated !== undefined && isTempo(Number(stated))) {
    const isPrinted = metronome !== undefined || tempoInWords(wordsIn(element)) !== null;
    return {
      isPlayed: true,
      origin: isPrinted ? 'metronome' : 'sound',
      quartersPerMinute: Number(stated),
      factor: null,
    };
  }
  if (stated !== undefined) remarks.skip(`A tempo of “${stated.slice(0, 20)}” is ignored`, bar);
  return metronome === undefined ? null : readMetronome(metronome, bar, remarks);
};

const isTempo = (quartersPerMinute: number): boolean =>
  quartersPerMinute >= SLOWEST && quartersPerMinute <= FASTEST;

/** Quarter notes in a note value of MusicXML. */
const QUARTERS: ReadonlyMap<string, number> = new Map([
  ['long', 16],
  ['breve', 8],
  ['whole', 4],
  ['half', 2],
  ['quarter', 1],
  ['eighth', 1 / 2],
  ['16th', 1 / 4],
  ['32nd', 1 / 8],
  ['64th', 1 / 16],
]);

const readMetronome = (metronome: XmlElement, bar: number, remarks: RemarkList): TempoSign | null => {
  const units = unitsOf(metronome);
  const perMinute = childText(metronome, 'per-minute');
  const [first, second] = units;
  if (first !== undefined && perMinute !== undefined) {
    const rate = Number(/\d+(?:\.\d+)?/u.exec(perMinute)?.[0] ?? Number.NaN) * first;
    if (isTempo(rate)) return { isPlayed: false, origin: 'metronome', quartersPerMinute: rate, factor: null };
  } else if (first !== undefined && second !== undefined && units.length === 2) {
    return { isPlayed: false, origin: 'metronome', quartersPerMinute: null, factor: second / first };
  }
  remarks.skip('A metronome mark could not be read as a tempo', bar);
  return null;
};

/** The lengths in quarter notes that a metronome mark names, one on each side of an equals sign; NaN never occurs. */
const unitsOf = (metronome: XmlElement): readonly number[] => {
  const units: number[] = [];
  let value = 0;
  for (const each of metronome.children) {
    if (each.name === 'beat-unit') {
      value = QUARTERS.get(each.text.trim()) ?? 0;
      units.push(value);
    } else if (each.name === 'beat-unit-dot') {
      value /= 2;
      units.push(units.pop()! + value);
    } else if (each.name === 'beat-unit-tied') {
      units.push((units.pop() ?? 0) + (unitsOf(each)[0] ?? 0));
    } else if (each.name === 'metronome-note') {
      units.push(metronomeNoteLength(each));
    }
  }
  return units.some((unit) => unit <= 0) ? [] : units;
};

const metronomeNoteLength = (note: XmlElement): number => {
  const base = QUARTERS.get(childText(note, 'metronome-type') ?? '') ?? 0;
  const dots = note.children.filter((each) => each.name === 'metronome-dot').length;
  const isPlain =
    firstChild(note, 'metronome-tuplet') === undefined && firstChild(note, 'metronome-tied') === undefined;
  return isPlain ? base * (2 - 2 ** -dots) : 0;
};

/** A tempo sign at its score time. */
export interface PlacedTempo {
  readonly at: Rational;
  readonly sign: TempoSign;
}

/**
 * The tempo marks of a score in order, one at a time: what is to sound goes before what is printed, and the part that
 * comes first goes before later ones. The first mark is at 0, assumed if the score states none there.
 */
export const listTempo = (
  placed: readonly PlacedTempo[],
  meter: Meter | undefined,
  remarks: RemarkList,
): readonly TempoMark[] => {
  const assumed = assumedTempo(meter);
  const marks: TempoMark[] = [];
  const sorted = placed.toSorted((a, b) => compare(a.at, b.at) || rankOf(a.sign) - rankOf(b.sign));
  const atStart = sorted.some(({ at, sign }) => at.num <= 0 && sign.quartersPerMinute !== null);
  if (!atStart) {
    marks.push({ at: ZERO, quartersPerMinute: assumed.quartersPerMinute, origin: 'assumed' });
    remarks.add(
      'tempo-assumed',
      null,
      `The score gives no tempo at the start: ${assumed.inWords} are assumed`,
    );
  }
  for (const { at, sign } of sorted) {
    const last = marks.at(-1);
    if (last !== undefined && last.origin !== 'assumed' && compare(last.at, at) === 0) {
      if (sign.origin === 'metronome') marks[marks.length - 1] = { ...last, origin: 'metronome' };
      continue;
    }
    const rate =
      sign.quartersPerMinute ?? (last?.quartersPerMinute ?? assumed.quartersPerMinute) * (sign.factor ?? 1);
    if (isTempo(rate)) marks.push({ at, quartersPerMinute: rate, origin: sign.origin });
  }
  return marks;
};

const rankOf = ({ isPlayed }: TempoSign): number => (isPlayed ? 0 : 1);
