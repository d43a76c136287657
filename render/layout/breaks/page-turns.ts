import {
  add,
  buildClock,
  compare,
  type Note,
  pausesBefore,
  type Rational,
  type Score,
  ZERO,
} from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { createScoreMemory } from '../drawer/score-memory.ts';

/** Where a page must be turned, and how much time there is for it. */
export interface PageTurn {
  /** The page that is turned over, from 1. */
  readonly page: number;
  /** Index of the first bar of the next page. */
  readonly bar: number;
  /** Which hands are free for long enough. */
  readonly free: 'both-hands' | 'one-hand' | 'none';
  /** How long they are free, in seconds: of both hands, or else of the freer one. */
  readonly seconds: number;
}

/** Long enough to turn a page, and to do so at ease (common practice, no source). */
const TURN_SECONDS = 1.5;
export const EASE_SECONDS = 3;

export const isTurn = (isOdd: boolean, turns: EngravingOptions['pageTurns']): boolean =>
  turns === 'every-page' || (turns === 'right-hand-pages' && isOdd);

/** How a page end before a bar (by its index) is for who has to turn. */
export type RateTurn = (bar: number) => Omit<PageTurn, 'page'>;

const KNOWN = createScoreMemory<RateTurn>(1);

/** Rates page ends by the silence round the bar line: of both hands, or of the staff that rests longer. */
export const turnRater = (score: Score): RateTurn => {
  const known = KNOWN.find(score, '') ?? raterOf(score);
  KNOWN.keep(score, '', known);
  return known;
};

const raterOf = (score: Score): RateTurn => {
  const secondsAt = buildClock(score.tempo);
  const played = score.notes.filter((note) => note.role !== 'cue');
  const staves = [...new Set(played.map((note) => note.staff))].map((staff) =>
    silences(
      score,
      played.filter((note) => note.staff === staff),
      secondsAt,
    ),
  );
  const both = silences(score, played, secondsAt);
  return (bar) => {
    const together = both[bar]!;
    if (together >= TURN_SECONDS) return { bar, free: 'both-hands', seconds: together };
    const one = Math.max(together, ...staves.map((staff) => staff[bar]!));
    return { bar, free: one >= TURN_SECONDS ? 'one-hand' : 'none', seconds: one };
  };
};

/** Seconds of silence round the line at which each bar begins: 0 where a note is held over it. */
const silences = (
  score: Score,
  notes: readonly Note[],
  secondsAt: (at: Rational) => number,
): readonly number[] => {
  const { bars } = score;
  const pauses = pausesBefore(score);
  let next = 0;
  let soundsUntil = ZERO;
  return bars.map(({ index, onset: line }) => {
    for (; next < notes.length && compare(notes[next]!.onset, line) < 0; next += 1) {
      const end = add(notes[next]!.onset, notes[next]!.duration);
      if (compare(end, soundsUntil) > 0) soundsUntil = end;
    }
    const until = notes[next]?.onset;
    if (until === undefined || pauses.has(index)) return Number.POSITIVE_INFINITY;
    return compare(soundsUntil, line) > 0 ? 0 : secondsAt(until) - secondsAt(soundsUntil);
  });
};

/** What a page turn costs in the choice of breaks: nothing in a long rest, most while both hands are playing. */
export const turnCost = ({ free, seconds }: Pick<PageTurn, 'free' | 'seconds'>): number => {
  switch (free) {
    case 'both-hands':
      return HURRIED * Math.max(0, (EASE_SECONDS - seconds) / (EASE_SECONDS - TURN_SECONDS));
    case 'one-hand':
      return ONE_HAND;
    case 'none':
      return NO_HAND;
  }
};

const HURRIED = 0.15;
export const ONE_HAND = 0.4;
/** As much as three full pages: paper is cheaper than bars that nobody plays. */
const NO_HAND = 1.5;
