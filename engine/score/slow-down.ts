import { add, compare, equals, type Rational, rationalKey } from '../music/rational.ts';
import { tempoUnitFinder } from './bars/counts.ts';
import type { Score } from './model/score.ts';
import type { TempoMark, TempoNotice, TempoUnit } from './model/tempo.ts';
import { describeMetronome } from './texts/metronome.ts';

/** A passage that a user wants played no faster than a tempo. */
export interface SlowPassage {
  readonly from: Rational;
  /** Not included; null for the end of the piece. */
  readonly until: Rational | null;
  readonly quartersPerMinute: number;
}

/** The tempos that a user may set, in quarter notes a minute. */
export const TEMPO_LIMITS = { slowest: 5, fastest: 2000 } as const;

/** Slower than so much of the written tempo a piece is another piece. */
export const SLOWEST_SHARE = 0.25;

/** A stretch of steady tempo. */
interface Stretch {
  readonly mark: TempoMark;
  /** Whether the score's own tempo is faster. */
  readonly isSlowed: boolean;
}

/**
 * The score with passages slowed to tempos that a user set: what is slower already stays as it is. What the player must
 * be told of it is in `slowed`, and in `texts` for the pages: the tempo where it begins to hold and wherever the score
 * prints a faster one within it, and the score's own where it holds again.
 *
 * To slow a score twice by the same is to slow it once. Proportional to marks times passages.
 *
 * @param words what stands before a tempo that a user set, in the language of the pages
 */
export const slowDown = (
  score: Score,
  passages: readonly SlowPassage[],
  words: string = NO_FASTER,
): Score => {
  if (passages.length === 0) return score;
  const stretches = timesOfChange(score, passages).map((at) => stretchFrom(score, passages, at));
  const notices = listNotices(score, stretches, words);
  return {
    ...score,
    tempo: stretches.map(({ mark }) => mark).filter(isChange(score)),
    slowed: [...score.slowed, ...notices],
    texts: [...score.texts, ...notices.map(textOf)].sort((a, b) => compare(a.at, b.at)),
  };
};

/** Where the tempo may change, within the score, each time once. */
const timesOfChange = ({ tempo, bars }: Score, passages: readonly SlowPassage[]): readonly Rational[] => {
  const last = bars.at(-1);
  const edges = passages
    .flatMap(({ from, until }) => (until === null ? [from] : [from, until]))
    .filter((at) => last !== undefined && compare(at, add(last.onset, last.duration)) < 0);
  const times = new Map([...tempo.map(({ at }) => at), ...edges].map((at) => [rationalKey(at), at]));
  return [...times.values()].sort(compare);
};

const stretchFrom = ({ tempo }: Score, passages: readonly SlowPassage[], at: Rational): Stretch => {
  const own = tempoAt(tempo, at);
  const most = passages
    .filter(({ from, until }) => compare(from, at) <= 0 && (until === null || compare(at, until) < 0))
    .reduce((least, { quartersPerMinute }) => Math.min(least, quartersPerMinute), Number.POSITIVE_INFINITY);
  return {
    mark: { ...own, at, quartersPerMinute: Math.min(most, own.quartersPerMinute) },
    isSlowed: most < own.quartersPerMinute,
  };
};

/** The mark by which the music goes at a time; the first counts from the start. */
export const tempoAt = (tempo: readonly TempoMark[], at: Rational): TempoMark =>
  tempo.findLast((mark) => compare(mark.at, at) <= 0) ?? tempo[0]!;

/** Keeps the score's own marks, and of others those that change the tempo. */
const isChange =
  ({ tempo }: Score) =>
  (mark: TempoMark, i: number, marks: readonly TempoMark[]): boolean =>
    tempo.some(({ at }) => equals(at, mark.at)) || marks[i - 1]?.quartersPerMinute !== mark.quartersPerMinute;

const listNotices = (
  { texts, bars }: Score,
  stretches: readonly Stretch[],
  words: string,
): readonly TempoNotice[] => {
  const unitIn = tempoUnitFinder({ texts });
  const printed = new Set(texts.filter(({ kind }) => kind === 'tempo').map(({ at }) => rationalKey(at)));
  return stretches.flatMap(({ mark: { at, quartersPerMinute }, isSlowed }, i): TempoNotice[] => {
    const before = stretches[i - 1];
    const isPrinted = printed.has(rationalKey(at));
    const goesOn = before?.isSlowed === true && before.mark.quartersPerMinute === quartersPerMinute;
    const isTold = isSlowed ? !goesOn || isPrinted : before?.isSlowed === true && !isPrinted;
    if (!isTold) return [];
    const bar = bars.findLastIndex(({ onset }) => compare(onset, at) <= 0);
    const told = { at, bar, quartersPerMinute, unit: unitIn(bars[bar]!) };
    return [isSlowed ? { ...told, kind: 'no-faster', words } : { ...told, kind: 'as-before', words: '' }];
  });
};

/** Words before the tempo that a user set: it stands beside the faster one of the score. */
export const NO_FASTER = 'no faster than';

/** How many of a note go into a minute, as people write it, to two places. */
export const tempoFigure = (quartersPerMinute: number, { quarters }: Pick<TempoUnit, 'quarters'>): string =>
  `${Math.round((quartersPerMinute / quarters) * 100) / 100}`;

const textOf = ({ at, bar, quartersPerMinute, unit, words }: TempoNotice): Score['texts'][number] => {
  const figure = describeMetronome([
    `note ${unit.value}`,
    ...(unit.dots === 1 ? ['dot'] : []),
    `= ${tempoFigure(quartersPerMinute, unit)}`,
  ]);
  return { at, bar, kind: 'tempo', text: words === '' ? figure : `${words} ${figure}`, bold: false };
};
