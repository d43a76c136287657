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
    readonly isForbidden: (moment: number) => boolean;
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
  const isAlike = compareMoments(then, now);
  const { moments } = now.context.graph;
  let first = 0;
  while (first < moments && isAlike(first)) first += 1;
  let last = moments - 1;
  while (last > first && isAlike(last)) last -= 1;
  // Whether anything can happen at a moment goes by the choices at the one before it too.
  return { trace, first, last: last + 1 };
};

const isSamePiece = ({ context: a }: FootStage, { context: b }: FootStage): boolean =>
  a.moments === b.moments &&
  a.graph === b.graph &&
  a.together === b.together &&
  areEqualWeights(a.weights, b.weights);

/** Whether two stages have the same choices at a moment, at the same prices. */
const compareMoments = (then: FootStage, now: FootStage): ((moment: number) => boolean) => {
  const startsAlike = then.wantedFirst.every((position, pedal) => position === now.wantedFirst[pedal]);
  const lists = then.choices.flatMap((_, pedal) => {
    const [a, b] = [listsOf(then, pedal), listsOf(now, pedal)];
    return a.flatMap((list, i) => (list === b[i] ? [] : [[list, b[i]!] as const]));
  });
  return (moment) =>
    (moment > 0 || startsAlike) &&
    then.context.isForbidden(moment) === now.context.isForbidden(moment) &&
    lists.every(([a, b]) => a[moment] === b[moment]);
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
