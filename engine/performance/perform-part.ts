import { bisector } from 'd3-array';
import { group } from '../group.ts';
import type { HarpString } from '../harp/profile.ts';
import type { Foot, Setting } from '../harp/setting.ts';
import type { Side } from '../harp/side.ts';
import { type Letter, midiOf } from '../music/pitch.ts';
import { toNumber } from '../music/rational.ts';
import type { Plan } from '../pedals/model.ts';
import type { BarDamp, Playback, Pluck, SoundingNotehead } from './playback.ts';
import { type LeftOut, lengthSeconds, type PlayedBar, playBars, secondsInBar } from './played-bars.ts';

/** A part as it is played from beginning to end: repeats and jumps followed, times in seconds at the written tempo. */
export interface Performance {
  readonly seconds: number;
  readonly bars: readonly PlayedBar[];
  /** What a string gives at a time, in semitones above the natural of its letter. */
  readonly alterAt: (string: HarpString, seconds: number) => number;
  /** When a foot moves a pedal or a hand sets a lever, in order of time. */
  readonly actions: readonly { readonly at: number; readonly side: Side }[];
}

/** The same on a pedal harp. */
export interface PartPerformance extends Performance {
  /** In order of time; only what moves a pedal on its pass. */
  readonly moves: readonly PlayedMove[];
  readonly initial: Setting;
}

/** A move as it comes in a performance. */
export interface PlayedMove {
  /** Index into the plan's moves. */
  readonly move: number;
  readonly at: number;
  readonly letter: Letter;
  readonly foot: Foot;
  /** Seconds since the same foot moved before; infinite for its first move. */
  readonly sinceFootMoved: number;
  readonly before: Setting;
  readonly after: Setting;
}

/** Where the music is at one time. */
export interface PlaybackPosition {
  /** Index into the performance's bars. */
  readonly played: number;
  /** Printed score time, in quarter notes. */
  readonly quarters: number;
}

/** Times that are equal but for rounding. */
const SAME_SECONDS = 1e-6;

/** Plays a part by a plan; time in proportion to the bars played, their notes and the moves made. */
export const performPart = (
  hearing: Playback,
  plan: Pick<Plan, 'initial' | 'moves'>,
  omitted: LeftOut = new Set(),
): PartPerformance => {
  const bars = playBars(hearing, omitted);
  const course = { moves: playMoves(bars, plan), initial: plan.initial };
  return {
    seconds: lengthSeconds(bars),
    bars,
    ...course,
    actions: course.moves.map(({ at, foot }) => ({ at, side: foot })),
    alterAt: ({ letter }, seconds) => settingAt(course, seconds)[letter],
  };
};

/** A move that a jump makes needless, since the pedal is there already, is passed over. */
const playMoves = (
  bars: readonly PlayedBar[],
  { initial, moves }: Pick<Plan, 'initial' | 'moves'>,
): readonly PlayedMove[] => {
  const byBar = group(moves.keys(), (move) => moves[move]!.bar);
  const lastOf = new Map<Foot, number>();
  let setting = initial;
  let latest = 0;
  return bars.flatMap(({ bar, at: start, sound }) =>
    (byBar.get(bar) ?? []).flatMap((move): PlayedMove[] => {
      const { letter, foot, to, at: printed, graceNote } = moves[move]!;
      if (setting[letter] === to) return [];
      const grace = graceNote === null ? undefined : sound.plucks.find(({ note }) => note === graceNote);
      const wanted = start + (grace?.at ?? secondsInBar(sound, toNumber(printed)));
      // Before the grace notes of a bar there may be moves of the bar before: they keep their order.
      const at = Math.max(wanted, latest);
      latest = at;
      const before = setting;
      setting = { ...setting, [letter]: to };
      const sinceFootMoved = at - (lastOf.get(foot) ?? Number.NEGATIVE_INFINITY);
      lastOf.set(foot, at);
      return [{ move, at, letter, foot, sinceFootMoved, before, after: setting }];
    }),
  );
};

/** Index of the last of a list in order of time that is not after `seconds`; -1 if none is. */
export const lastNotAfter = (list: readonly { readonly at: number }[], seconds: number): number =>
  byTime.right(list, seconds + SAME_SECONDS) - 1;

const byTime = bisector(({ at }: { readonly at: number }) => at);

/** Where the music is after so many seconds; at the end the end of the last bar. */
export const placeAt = ({ bars }: Pick<Performance, 'bars'>, seconds: number): PlaybackPosition => {
  const played = Math.max(0, lastNotAfter(bars, seconds));
  const bar = bars[played];
  if (bar === undefined) return { played: 0, quarters: 0 };
  const { onsetQuarters, durationQuarters, tempi } = bar.sound;
  const within = Math.max(0, seconds - bar.at);
  const { fromQuarters, at, secondsPerQuarter } = tempi[Math.max(0, lastNotAfter(tempi, within))]!;
  const quarters = fromQuarters + (within - at) / secondsPerQuarter;
  return { played, quarters: Math.min(onsetQuarters + durationQuarters, Math.max(onsetQuarters, quarters)) };
};

/** The time of a place: the other way round. */
export const secondsAtPosition = (
  { bars }: Pick<Performance, 'bars'>,
  { played, quarters }: PlaybackPosition,
): number => {
  const bar = bars[played];
  return bar === undefined ? 0 : bar.at + secondsInBar(bar.sound, quarters);
};

/** Beats from the beginning. */
export const beatsAt = (performance: Performance, seconds: number): number => {
  const { played, quarters } = placeAt(performance, seconds);
  const bar = performance.bars[played];
  return bar === undefined
    ? 0
    : bar.beatsBefore + (quarters - bar.sound.onsetQuarters) / bar.sound.beatQuarters;
};

/** The time at which so many beats have been played. */
export const secondsAtBeat = (performance: Performance, beats: number): number => {
  const { bars } = performance;
  const played = Math.max(
    0,
    bars.findLastIndex(({ beatsBefore }) => beatsBefore <= beats),
  );
  const bar = bars[played];
  if (bar === undefined) return 0;
  const { onsetQuarters, beatQuarters } = bar.sound;
  return secondsAtPosition(performance, {
    played,
    quarters: onsetQuarters + (beats - bar.beatsBefore) * beatQuarters,
  });
};

/** Index of the last move made at that time; -1 before the first. */
export const lastMoveAt = ({ moves }: Pick<PartPerformance, 'moves'>, seconds: number): number =>
  lastNotAfter(moves, seconds);

/** How the pedals stand at that time, a move of the same time done. */
export const settingAt = (
  performance: Pick<PartPerformance, 'moves' | 'initial'>,
  seconds: number,
): Setting => performance.moves[lastMoveAt(performance, seconds)]?.after ?? performance.initial;

/** A pluck in the performance: `midi` is known of all of them. */
export type PlayedPluck = Omit<Pluck, 'midi'> & { readonly midi: number };

/** What one time through a bar sounds, in seconds from the beginning. */
export const soundsOf = (
  performance: Performance,
  played: number,
): { readonly plucks: readonly PlayedPluck[]; readonly damps: readonly BarDamp[] } => {
  const { at: start, sound } = performance.bars[played]!;
  const midiNow = ({ letter, octave }: Pluck['string'], at: number): number =>
    midiOf({ letter, octave, alter: performance.alterAt({ letter, octave }, at) });
  return {
    plucks: sound.plucks.map((pluck) => {
      const at = start + pluck.at;
      return { ...pluck, at, midi: pluck.midi ?? midiNow(pluck.string, at) };
    }),
    damps: sound.damps.map((damp) => ({ ...damp, at: start + damp.at })),
  };
};

/** Bars before that may still hold a note that sounds. */
const BARS_BACK = 2;

/** Ids of the noteheads that sound at that time, in order of their onset. */
export const noteheadsSoundingAt = (
  { bars }: Pick<Performance, 'bars'>,
  { played }: PlaybackPosition,
  seconds: number,
): readonly string[] =>
  bars
    .slice(Math.max(0, played - BARS_BACK), played + 2)
    .flatMap(({ at: start, sound }) =>
      sound.heads.filter((head) => isSounding(head, seconds - start)).map(({ note }) => note),
    );

const isSounding = ({ at, until }: SoundingNotehead, seconds: number): boolean =>
  at <= seconds + SAME_SECONDS && seconds < until - SAME_SECONDS;
