import type { Position } from '../../harp/setting.ts';
import type { NeedTiming } from '../../sounding/need-timing.ts';
import type { PartTimeline } from '../../time/part-timeline.ts';
import { areEqualWeights, type Weights } from '../weights.ts';
import type { PedalInSettings } from './new-settings.ts';
import type { EarlierSearch, SearchTrace } from './search-trace.ts';

/** All that the course of a foot goes by, its pedals in order. */
export interface FootStage {
  readonly context: Pick<PartTimeline, 'moments' | 'graph'> & {
    readonly weights: Weights;
    readonly together: boolean;
    readonly forbidden: ReadonlySet<number>;
  };
  readonly choices: readonly (readonly (readonly Position[])[])[];
  readonly around: readonly NeedTiming[];
  readonly inSettings: readonly PedalInSettings[];
  /** The first position that is needed. */
  readonly wantedFirst: readonly Position[];
}

/** A foot's stage, and the search for its course. */
export interface TracedTask {
  readonly stage: FootStage;
  readonly trace: SearchTrace;
}

/** An earlier search, with the moments in which the foot's stage is other than it was then; null for another piece. */
export const sinceThen = ({ stage: then, trace }: TracedTask, now: FootStage): EarlierSearch | null => {
  if (!isSamePiece(then, now)) return null;
  const apart = differingMoments(then, now);
  let [first, last] = [now.context.graph.moments, 0];
  for (const moment of apart) {
    first = Math.min(first, moment);
    last = Math.max(last, moment);
  }
  // Whether anything can happen at a moment goes by the choices at the one before it too.
  return { trace, first, last: last + 1 };
};

const isSamePiece = ({ context: a }: FootStage, { context: b }: FootStage): boolean =>
  a.moments === b.moments &&
  a.graph === b.graph &&
  a.together === b.together &&
  areEqualWeights(a.weights, b.weights);

/** Of the moments at which two stages differ in choices or prices the first and the last, for each of their lists. */
const differingMoments = (then: FootStage, now: FootStage): readonly number[] => {
  const startsAlike = then.wantedFirst.every((position, pedal) => position === now.wantedFirst[pedal]);
  const [a, b] = [then.context.forbidden, now.context.forbidden];
  return [
    ...(startsAlike ? [] : [0]),
    ...[...a].filter((moment) => !b.has(moment)),
    ...[...b].filter((moment) => !a.has(moment)),
    ...then.choices.flatMap((_, pedal) => {
      const lists = listsOf(now, pedal);
      return listsOf(then, pedal).flatMap((list, i) => endsOfDifference(list, lists[i]!));
    }),
  ];
};

const endsOfDifference = (a: ArrayLike<unknown>, b: ArrayLike<unknown>): readonly number[] => {
  if (a === b) return [];
  let first = 0;
  while (first < a.length && a[first] === b[first]) first += 1;
  if (first === a.length) return [];
  let last = a.length - 1;
  while (a[last] === b[last]) last -= 1;
  return [first, last];
};

/** By moment, what a pedal may choose from and all that its prices go by. Equal lists of choices are one and the same. */
const listsOf = (
  { choices, around, inSettings }: FootStage,
  pedal: number,
): readonly ArrayLike<unknown>[] => [
  choices[pedal]!,
  ...Object.values(around[pedal]!),
  ...Object.values(inSettings[pedal]!),
];
