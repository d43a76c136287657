import { openAlter } from '../harp/open-tuning.ts';
import { nameString } from '../harp/scordatura.ts';
import type { LeverPlan } from '../levers/model.ts';
import { leversAfterBars } from '../levers/play-changes.ts';
import type { Score } from '../score/model/score.ts';

/**
 * What a tune asks of the levers: for each string that it plays, by name (`F4`), whether the lever is up at the start
 * and at the end. Strings that it leaves alone may stay as they are.
 */
export interface TuneLevers {
  readonly first: ReadonlyMap<string, boolean>;
  readonly last: ReadonlyMap<string, boolean>;
  /** What each of these strings gives with its lever down, in semitones above the natural of its letter. */
  readonly open: ReadonlyMap<string, number>;
}

/** The levers of a tune as it is played: it may end before its last bar, as after D.C. al Fine. */
export const leversOfTune = (
  { playOrder }: Pick<Score, 'playOrder'>,
  plan: Pick<LeverPlan, 'tuning' | 'initial' | 'played' | 'moves'>,
): TuneLevers => {
  const { tuning, initial, played } = plan;
  const [before, after] = [new Set(initial.map(nameString)), leversAfterBars(playOrder, plan)];
  const names = played.map(nameString);
  return {
    first: new Map(names.map((name) => [name, before.has(name)])),
    last: new Map(names.map((name) => [name, after.has(name)])),
    open: new Map(played.map((string) => [nameString(string), openAlter(tuning, string)])),
  };
};

/**
 * Whether each lever is up before the first of some tunes that are played one after the other: as the first that plays
 * its string needs it, so that it need not be set between them.
 */
export const leversBefore = (tunes: readonly Pick<TuneLevers, 'first'>[]): ReadonlyMap<string, boolean> =>
  new Map(tunes.toReversed().flatMap(({ first }) => [...first]));

/**
 * The levers to set before a tune, by the names of their strings: none of a string that the tune leaves alone.
 *
 * @param standing whether the levers are up as they stand; one that is not among them may have been set as it is needed
 */
export const leversToSet = (
  standing: ReadonlyMap<string, boolean>,
  { first }: Pick<TuneLevers, 'first'>,
): ReadonlyMap<string, boolean> =>
  new Map([...first].filter(([string, up]) => (standing.get(string) ?? up) !== up));
