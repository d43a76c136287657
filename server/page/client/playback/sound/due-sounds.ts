import { type Performance, placeAt, pulseOf, soundsOf } from '../../../../../engine/index.ts';
import type { Sound } from './sound.ts';

/** What of a performance is heard: the strings, the pedals or levers as they are set, the beats. */
export const HEARD_KINDS = ['strings', 'actions', 'beats'] as const;

export type HeardKind = (typeof HEARD_KINDS)[number];

/** A sound of the performance; `at` in seconds from its beginning. */
export interface DueSound {
  readonly kind: HeardKind;
  readonly at: number;
  /** Gives it to a sound at a time of that sound's clock. */
  readonly play: (sound: Sound, clock: number) => void;
}

/** Grace notes are played before their bar, by no more. */
const LONGEST_GRACES_SECONDS = 3;

const NONE: readonly DueSound[] = [];

/** What one time through a bar sounds. */
const soundsOfBar = (performance: Performance, played: number): DueSound[] => {
  const { plucks, damps } = soundsOf(performance, played);
  const { bars, actions } = performance;
  const from = played === 0 ? Number.NEGATIVE_INFINITY : bars[played]!.at;
  const until = bars[played + 1]?.at ?? Number.POSITIVE_INFINITY;
  return [
    ...damps.map(
      ({ at, staff }): DueSound => ({
        ...{ kind: 'strings', at },
        play: (sound, clock) => sound.damp(staff, clock),
      }),
    ),
    ...plucks.map(
      (pluck): DueSound => ({
        ...{ kind: 'strings', at: pluck.at },
        play: (sound, clock) => sound.pluck(pluck, clock),
      }),
    ),
    ...actions
      .filter(({ at }) => at >= from && at < until)
      .map(
        ({ at, side }): DueSound => ({
          ...{ kind: 'actions', at },
          play: (sound, clock) => sound.knock(side, clock),
        }),
      ),
    ...pulseOf(performance, played).map(
      ({ at, isFirst }): DueSound => ({
        ...{ kind: 'beats', at },
        play: (sound, clock) => sound.click(isFirst, clock),
      }),
    ),
  ];
};

/** Gives out the sounds of a performance in order of time, each once, bar by bar as they are needed. */
export interface DueSounds {
  /** Those before `until` that were not given out yet. */
  readonly take: (until: number) => readonly DueSound[];
}

/** From a time on: what began before it is passed over. */
export const listDue = (performance: Performance, from: number): DueSounds => {
  const { bars } = performance;
  if (bars.length === 0) return { take: () => NONE };
  const { played } = placeAt(performance, from);
  let waiting = soundsOfBar(performance, played).filter(({ at }) => at >= from - 1e-6);
  let nextBar = played + 1;
  return {
    take: (until) => {
      for (; nextBar < bars.length && bars[nextBar]!.at - LONGEST_GRACES_SECONDS <= until; nextBar += 1) {
        waiting.push(...soundsOfBar(performance, nextBar));
      }
      waiting.sort((a, b) => a.at - b.at);
      const due = waiting.filter(({ at }) => at < until);
      waiting = waiting.slice(due.length);
      return due;
    },
  };
};
