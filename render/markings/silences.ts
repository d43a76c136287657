import { bisector } from 'd3-array';
import {
  add,
  type Bar,
  compare,
  equals,
  pausesBefore,
  type Rational,
  type Score,
  ZERO,
} from '../../engine/index.ts';

/** A stretch in which the harp is silent: from where the last note ends to where the next begins, or to a jump. */
export interface Silence {
  readonly from: Rational;
  /** The next onset or the jump; null after the last note. */
  readonly until: Rational | null;
  /** Bars that lie wholly in it, parted where the page must part them; empty for a silence within a bar or two. */
  readonly rests: readonly RestRun[];
}

/** Bars of rest in a row that one sign can stand for: no key, meter, tempo or rehearsal mark inside, no repeat. */
export interface RestRun {
  /** Indices into the score's bars, both included. */
  readonly first: number;
  readonly last: number;
}

/**
 * The silences of a part in printed order. None reaches across a place where the music jumps, since what is set before a
 * jump is not set for who comes from elsewhere, nor from one movement into the next. Linear in notes and bars.
 */
export const findSilences = (score: Score): Silence[] => {
  const cuts = [...jumpTimes(score), ...pauseTimes(score)].sort(compare);
  return gapsBetweenNotes(score).flatMap((gap) =>
    cutAt(gap, cuts).map((part) => ({ ...part, rests: restRuns(score, part) })),
  );
};

interface Gap {
  readonly from: Rational;
  readonly until: Rational | null;
}

/** Cue notes are played by others. Tied notes go on sounding through their own written length. */
const gapsBetweenNotes = (score: Score): Gap[] => {
  const gaps: Gap[] = [];
  let soundsUntil = ZERO;
  for (const note of score.notes) {
    if (note.role === 'cue') continue;
    if (compare(note.onset, soundsUntil) > 0) gaps.push({ from: soundsUntil, until: note.onset });
    const end = add(note.onset, note.duration);
    if (compare(end, soundsUntil) > 0) soundsUntil = end;
  }
  gaps.push({ from: soundsUntil, until: null });
  return gaps;
};

/** Bar lines at which some pass through the music goes on elsewhere, in order. */
export const jumpTimes = (score: Score): Rational[] => {
  const starts = new Set<number>();
  score.playOrder.forEach((bar, i) => {
    const next = score.playOrder[i + 1];
    if (next === undefined || next === bar + 1) return;
    starts.add(bar + 1);
    starts.add(next);
  });
  return [...starts]
    .filter((bar) => bar < score.bars.length)
    .sort((a, b) => a - b)
    .map((bar) => score.bars[bar]!.onset);
};

/** Bar lines behind which a player pauses before the next movement. */
export const pauseTimes = (score: Score): Rational[] =>
  [...pausesBefore(score)].map((bar) => score.bars[bar]!.onset);

const cutAt = (gap: Gap, times: readonly Rational[]): Gap[] => {
  const inside = times.filter(
    (time) => compare(time, gap.from) > 0 && (gap.until === null || compare(time, gap.until) < 0),
  );
  const edges = [gap.from, ...inside, gap.until];
  return edges.slice(1).map((until, i) => ({ from: edges[i]!, until }));
};

const restRuns = (score: Score, { from, until }: Gap): RestRun[] => {
  const runs: { first: number; last: number }[] = [];
  const marked = barsShownAlone(score);
  for (let i = firstBarFrom(score.bars, from); i < score.bars.length; i += 1) {
    const bar = score.bars[i]!;
    if (until !== null && compare(add(bar.onset, bar.duration), until) > 0) break;
    const before = runs.at(-1);
    if (before !== undefined && before.last === i - 1 && !startsAnew(score, bar, marked)) before.last = i;
    else runs.push({ first: i, last: i });
  }
  return runs;
};

/** Bars that no joined rest can hide: those of texts, and in a part for several players those in which others play. */
const barsShownAlone = (score: Score): ReadonlySet<number> => {
  const { share, notes } = score;
  const ofOthers = share === null ? [] : notes.filter(({ id }) => share.others.has(id)).map(({ bar }) => bar);
  return new Set([...barsOfTexts(score), ...ofOthers.flatMap((bar) => [bar, bar + 1])]);
};

/** Bars over which a text stands, and bars behind one within which it stands: a joined rest has no room inside. */
const barsOfTexts = ({ texts, movements, bars }: Score): ReadonlySet<number> =>
  new Set([
    ...texts.flatMap(({ at, bar }) => (equals(at, bars[bar]!.onset) ? [bar] : [bar, bar + 1])),
    ...movements,
  ]);

const firstBarFrom: (bars: readonly Bar[], time: Rational) => number = bisector((bar: Bar, time: Rational) =>
  compare(bar.onset, time),
).left;

/** Whether the page shows something at the bar's start that a joined rest would hide. */
const startsAnew = (score: Score, bar: Bar, marked: ReadonlySet<number>): boolean => {
  const before = score.bars[bar.index - 1];
  return (
    before === undefined ||
    marked.has(bar.index) ||
    before.meter.beats !== bar.meter.beats ||
    before.meter.beatUnit !== bar.meter.beatUnit ||
    before.keyFifths !== bar.keyFifths ||
    bar.repeat.start ||
    before.repeat.endTimes > 0 ||
    before.repeat.jumps.length > 0 ||
    bar.repeat.jumps.length > 0 ||
    `${before.repeat.endings}` !== `${bar.repeat.endings}`
  );
};
