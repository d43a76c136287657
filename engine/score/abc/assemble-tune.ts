import { add, compare, type Rational, ZERO } from '../../music/rational.ts';
import type { ParsedBarLine } from './parsed-tune.ts';
import type { BarLine, Clef, Tune, TuneBar, TuneLayer, TuneMeter } from './tune.ts';
import type { ReadBar, ReadVoice } from './voice/read-voice.ts';

const TREBLE: Clef = { shape: 'G', line: 2, octaves: 0 };

/** Puts the voices of a tune together, bar by bar; bar lines and changes of all voices hold for the whole bar. */
export const assembleTune = (
  voices: readonly ReadVoice[],
  names: readonly string[],
): Pick<Tune, 'staves' | 'bars' | 'spans'> => {
  const count = Math.max(0, ...voices.map(({ bars }) => bars.length));
  const assembler = new Assembler();
  const bars = Array.from({ length: count }, (_, index) => assembler.next(voices, index));
  const staves = Math.max(0, ...voices.map(({ staff }) => staff));
  return {
    staves: Array.from({ length: staves }, (_, index) => ({
      name: names[index] ?? '',
      clef: voices.find(({ staff }) => staff === index + 1)?.bars[0]?.clef ?? TREBLE,
    })),
    bars: bars.map((bar, index) => (index === 0 ? { ...bar, clefs: [] } : bar)),
    spans: voices.flatMap(({ spans }) => spans),
  };
};

/** What goes on from bar to bar: the meter, the count of bars, an ending. */
class Assembler {
  #meter: TuneMeter | null = null;
  #number = 0;
  #ending: string | null = null;
  #before: { readonly length: Rational; readonly counted: boolean; readonly closed: boolean } | null = null;

  next(voices: readonly ReadVoice[], index: number): TuneBar {
    const here = voices.flatMap(({ staff, voice, bars }) => {
      const bar = bars[index];
      return bar === undefined ? [] : [{ staff, voice, bar }];
    });
    const before = voices.flatMap(({ bars }) => bars[index - 1]?.closing ?? []);
    const opening = [...here.flatMap(({ bar }) => bar.opening), ...before];
    const closing = here.flatMap(({ bar }) => bar.closing);
    const following = voices.flatMap(({ bars }) => bars[index + 1] ?? []);
    const meter = here.find(({ bar }) => bar.meter !== null)?.bar.meter ?? null;
    if (meter !== null) this.#meter = meter === 'none' ? null : meter;
    const length = here.reduce((most, { bar }) => (compare(bar.length, most) > 0 ? bar.length : most), ZERO);
    const right = lineOf(closing);
    return {
      number: this.#count(length, right !== 'single'),
      key: here.find(({ bar }) => bar.key !== null)?.bar.key ?? null,
      meter: meter === 'none' ? null : meter,
      measured: this.#meter !== null,
      clefs: here.flatMap(({ staff, bar }) => (bar.clef === null ? [] : [{ staff, clef: bar.clef }])),
      startsRepeat: opening.some(({ type }) => STARTS.has(type)),
      right,
      ending: this.#endingOf(opening, closing, following.length === 0),
      newLine: here.some(({ bar }) => bar.newLine),
      length,
      marks: uniqueMarks(here.flatMap(({ bar }) => bar.marks)),
      layers: here
        .filter(hasMusic)
        .map(({ staff, voice, bar }): TuneLayer => ({ staff, voice, events: bar.events })),
    };
  }

  /** A bar that is too short leads to the first, or finishes a short one across a double bar or repeat sign. */
  #count(length: Rational, closed: boolean): number | null {
    const full = this.#meter?.length;
    const isShort = full !== undefined && compare(length, full) < 0;
    const before = this.#before;
    const finishes =
      before?.counted === true &&
      before.closed &&
      full !== undefined &&
      compare(add(before.length, length), full) <= 0;
    const counted = !(isShort && (before === null || finishes));
    this.#before = { length, counted, closed };
    if (!counted) return null;
    this.#number += 1;
    return this.#number;
  }

  #endingOf(
    opening: readonly ParsedBarLine[],
    closing: readonly ParsedBarLine[],
    isLast: boolean,
  ): TuneBar['ending'] {
    const started = opening.find(({ startEnding }) => startEnding !== undefined)?.startEnding;
    if (started !== undefined) this.#ending = started;
    const numbers = this.#ending;
    if (numbers === null) return null;
    const ends =
      isLast || closing.some(({ endEnding, startEnding }) => endEnding === true || startEnding !== undefined);
    if (ends) this.#ending = null;
    return { numbers, starts: started !== undefined, ends };
  }
}

const STARTS: ReadonlySet<string> = new Set(['bar_left_repeat', 'bar_dbl_repeat']);
const ENDS: ReadonlySet<string> = new Set(['bar_right_repeat', 'bar_dbl_repeat']);

/** The line at the end of a bar: of several at one place the one that says most. */
const lineOf = (closing: readonly ParsedBarLine[]): BarLine => {
  const types = closing.map(({ type }) => type);
  if (types.some((type) => ENDS.has(type))) return 'repeat';
  if (types.includes('bar_thin_thick')) return 'end';
  if (types.includes('bar_thin_thin') || types.includes('bar_thick_thin')) return 'double';
  if (closing.some(({ decoration }) => decoration?.includes('staccato') === true)) return 'dotted';
  return types.length === 0 || types.every((type) => type === 'bar_invisible') ? 'invisible' : 'single';
};

/** A layer that only waits is none, but for the first of a staff. */
const hasMusic = ({ voice, bar }: { readonly voice: number; readonly bar: ReadBar }): boolean =>
  voice === 1 || bar.events.some(({ kind }) => kind !== 'space');

/** What several voices say at one time is said once. */
const uniqueMarks = (marks: TuneBar['marks']): TuneBar['marks'] => {
  const seen = new Set<string>();
  return marks.filter((mark) => {
    const said = JSON.stringify(mark);
    if (seen.has(said)) return false;
    seen.add(said);
    return true;
  });
};
