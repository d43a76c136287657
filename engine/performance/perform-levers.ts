import { group } from '../group.ts';
import type { LeverPosition } from '../harp/lever-pin.ts';
import { type OpenTuning, openAlter } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import { nameString } from '../harp/scordatura.ts';
import { isMadeAt, type OneTime } from '../score/bars/one-time.ts';
import { lastNotAfter, type Performance } from './perform-part.ts';
import type { Playback } from './playback.ts';
import { type LeftOut, lengthSeconds, type PlayedBar, playBars, secondsInBar } from './played-bars.ts';

/** What is set before the first note and during a piece, as a performance needs it. */
export interface LeverCourse {
  readonly tuning: OpenTuning;
  /** The levers that are up at the start. */
  readonly initial: readonly HarpString[];
  readonly moves: readonly {
    readonly string: HarpString;
    readonly to: LeverPosition;
    readonly hand: 'left' | 'right';
    /** Index into the printed bars. */
    readonly bar: number;
    /** Printed score time. */
    readonly quarters: number;
    /** Id of the grace note before which it is made; null where it is made at an onset or a beat. */
    readonly graceNote: string | null;
    /** The one time of playing at which it is made; null where it is each time. */
    readonly onlyAt: OneTime | null;
  }[];
}

/** A part for the lever harp as it is played. */
export interface LeverPerformance extends Performance {
  /** In order of time; only what sets a lever on its pass. */
  readonly changes: readonly PlayedChange[];
  /** Names of the strings whose levers are up at the start. */
  readonly up: ReadonlySet<string>;
}

/** A lever change as it comes in a performance. */
export interface PlayedChange {
  /** Index into the moves of the course. */
  readonly move: number;
  readonly at: number;
  readonly string: string;
  readonly to: LeverPosition;
  readonly hand: 'left' | 'right';
  /** Seconds since the same hand set a lever before; infinite for its first. */
  readonly sinceHandSet: number;
  /** Names of the strings whose levers are up once it is made. */
  readonly up: ReadonlySet<string>;
}

/** Plays a part by a lever plan; time in proportion to the bars played, their notes and the changes made. */
export const performLevers = (
  hearing: Playback,
  course: LeverCourse,
  omitted: LeftOut = new Set(),
): LeverPerformance => {
  const bars = playBars(hearing, omitted);
  const up = new Set(course.initial.map(nameString));
  const changes = playChanges(bars, course, up);
  const own = { changes, up };
  return {
    seconds: lengthSeconds(bars),
    bars,
    ...own,
    actions: changes.map(({ at, hand }) => ({ at, side: hand })),
    alterAt: (string, seconds) =>
      openAlter(course.tuning, string) + Number(leversUpAt(own, seconds).has(nameString(string))),
  };
};

/** A change that is for another time of playing, or that a jump makes needless, since the lever is there already, is passed over. */
const playChanges = (
  bars: readonly PlayedBar[],
  { moves }: LeverCourse,
  initial: ReadonlySet<string>,
): readonly PlayedChange[] => {
  const byBar = group(moves.keys(), (move) => moves[move]!.bar);
  const lastOf = new Map<string, number>();
  let up = initial;
  let latest = 0;
  return bars.flatMap(({ bar, pass, at: start, sound }) =>
    (byBar.get(bar) ?? []).flatMap((move): PlayedChange[] => {
      const { string, to, hand, quarters, graceNote, onlyAt } = moves[move]!;
      const name = nameString(string);
      if (!isMadeAt(onlyAt, pass) || up.has(name) === (to === 'up')) return [];
      const grace = graceNote === null ? undefined : sound.plucks.find(({ note }) => note === graceNote);
      const at = Math.max(start + (grace?.at ?? secondsInBar(sound, quarters)), latest);
      latest = at;
      up = new Set([...up].filter((each) => each !== name).concat(to === 'up' ? [name] : []));
      const sinceHandSet = at - (lastOf.get(hand) ?? Number.NEGATIVE_INFINITY);
      lastOf.set(hand, at);
      return [{ move, at, string: name, to, hand, sinceHandSet, up }];
    }),
  );
};

/** Index of the last change made at that time; -1 before the first. */
export const lastPlayedChange = ({ changes }: Pick<LeverPerformance, 'changes'>, seconds: number): number =>
  lastNotAfter(changes, seconds);

/** Names of the strings whose levers are up at that time, a change of the same time made. */
export const leversUpAt = (
  { changes, up }: Pick<LeverPerformance, 'changes' | 'up'>,
  seconds: number,
): ReadonlySet<string> => changes[lastPlayedChange({ changes }, seconds)]?.up ?? up;
