import {
  compare,
  type HarpPlan,
  isInPause,
  type LeverHarpProfile,
  leversAfterBars,
  leversOfTune,
  type Move,
  nameString,
  type OpenTuning,
  type Score,
  type Setting,
  stringsWithLevers,
} from '../../engine/index.ts';
import type { LeverChange } from '../levers/lever-change.ts';
import { leverStart } from '../levers/lever-markings.ts';

/** How the harp stands before the first note of a piece, and when its last has been played; plain data, to be sent. */
export type HarpStand =
  | { readonly kind: 'pedal'; readonly begins: Setting; readonly ends: Setting }
  | LeverStand;

/** The same of a lever harp. */
export interface LeverStand {
  readonly kind: 'lever';
  readonly profile: LeverHarpProfile;
  readonly tuning: OpenTuning;
  /** The levers that are up before the first note. */
  readonly begins: readonly LeverChange[];
  /** For each string that is played, by name, whether its lever is up at the start and at the end. */
  readonly first: readonly (readonly [string, boolean])[];
  readonly last: readonly (readonly [string, boolean])[];
}

/** A piece may end before its last bar, as after D.C. al Fine: what has been changed up to the bar it ends in holds. */
export const findStand = (score: Pick<Score, 'playOrder'>, harp: HarpPlan): HarpStand => {
  if (harp.kind === 'pedal') {
    const end = score.playOrder.at(-1) ?? 0;
    const { initial, moves } = harp.plan;
    const changed = moves.filter(({ bar }) => bar <= end).map(({ letter, to }) => [letter, to]);
    return { kind: 'pedal', begins: initial, ends: { ...initial, ...Object.fromEntries(changed) } };
  }
  const { plan, profile } = harp;
  const { first, last } = leversOfTune(score, plan);
  return {
    kind: 'lever',
    profile,
    tuning: plan.tuning,
    begins: leverStart({ plan, profile }).up,
    first: [...first],
    last: [...last],
  };
};

/** The same where a movement begins that is set for beforehand: with all that is changed up to the pause, and in it. */
export const findStandAt = (score: Score, harp: HarpPlan, bar: number): HarpStand => {
  const { onset } = score.bars[bar]!;
  const isMade = (move: Pick<Move, 'at' | 'bar' | 'graceNote'>): boolean =>
    compare(move.at, onset) < 0 || (move.bar === bar && isInPause(score, move));
  if (harp.kind === 'pedal') {
    const { initial, moves } = harp.plan;
    const changed = moves.filter(isMade).map(({ letter, to }) => [letter, to]);
    return findStand(score, {
      ...harp,
      plan: { ...harp.plan, initial: { ...initial, ...Object.fromEntries(changed) } },
    });
  }
  const { plan } = harp;
  const before = score.playOrder.slice(0, Math.max(0, score.playOrder.indexOf(bar)));
  const inPause = plan.moves.filter((move) => move.bar === bar && isMade(move));
  const up = leversAfterBars([...before, bar], {
    initial: plan.initial,
    moves: [...plan.moves.filter((move) => move.bar !== bar), ...inPause],
  });
  const begun = stringsWithLevers(harp.profile).filter((string) => up.has(nameString(string)));
  return findStand(score, { ...harp, plan: { ...harp.plan, initial: begun } });
};
