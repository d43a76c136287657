import type { Position } from '../../harp/setting.ts';
import { perObject } from '../../memoize.ts';
import { keyAlter, LETTERS, type Letter } from '../../music/pitch.ts';
import { firstNeedFrom, type NeedsByLetter } from '../../sounding/placed-needs.ts';
import type { Moment } from '../../time/moments.ts';
import type { PartTimeline } from '../../time/part-timeline.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import type { Weights } from '../weights.ts';

/** A rest in which a player may set the pedals anew for what follows, up to the next such rest. */
export interface SettingRest {
  /** The first moment of the rest, and that with which the music goes on. */
  readonly rest: number;
  readonly entry: number;
  /** The first moment of the next such rest, or the number of moments. */
  readonly until: number;
  readonly keyFifths: number;
  /** Whether the key signature is another than before the rest. */
  readonly isNewKey: boolean;
}

/** The pedals that are set anew in a rest. */
export interface NewSetting extends Pick<SettingRest, 'rest' | 'entry'> {
  /** Where they are set to, and the first moment that needs them there. */
  readonly pedals: ReadonlyMap<Letter, { readonly position: Position; readonly firstNeeded: number }>;
}

/**
 * The rests after which the music goes on in another key, and those so long that what stood before is forgotten: where
 * the player reads on to what follows (common practice, no source).
 */
export const findSettingRests = (
  all: readonly Moment[],
  graph: PlayGraph,
  { rememberedSeconds }: Pick<Weights, 'rememberedSeconds'>,
): readonly SettingRest[] => {
  const found: Omit<SettingRest, 'until'>[] = [];
  let rest: number | null = null;
  for (let moment = 1; moment < all.length; moment += 1) {
    const { handsBusy, keyFifths, seconds } = all[moment]!;
    if (!readsOn(graph, moment)) rest = null;
    else if (!handsBusy && all[moment - 1]!.handsBusy) rest = moment;
    if (!handsBusy || rest === null) continue;
    const isNewKey = keyFifths !== all[rest - 1]!.keyFifths;
    const isLong = seconds - all[rest]!.seconds >= rememberedSeconds;
    if (isNewKey || isLong) found.push({ rest, entry: moment, keyFifths, isNewKey });
    rest = null;
  }
  return found.map((each, i) => ({ ...each, until: found[i + 1]?.rest ?? all.length }));
};

const readsOn = (graph: PlayGraph, moment: number): boolean =>
  graph.into[moment]!.some((edge) => edge.from === moment - 1);

/** Fewer pedals are told one by one, unless the key is another (common practice, no source). */
const FEWEST_PEDALS = 3;

/** The settings that the needs ask for in these rests. */
export const findNewSettings = (
  rests: readonly SettingRest[],
  needs: NeedsByLetter,
  all: readonly Moment[],
  weights: Pick<Weights, 'rememberedSeconds' | 'farthestAheadSeconds'>,
): readonly NewSetting[] =>
  rests.flatMap((where) => {
    const pedals = pedalsSetAnew(where, needs, all, weights);
    const { rest, entry, isNewKey } = where;
    return isNewKey || pedals.size >= FEWEST_PEDALS ? [{ rest, entry, pedals }] : [];
  });

/**
 * The pedals that are needed elsewhere after the rest than before: soon, or in the position of the key, which a player
 * need not remember.
 */
const pedalsSetAnew = (
  { rest, entry, until, keyFifths, isNewKey }: SettingRest,
  needs: NeedsByLetter,
  all: readonly Moment[],
  { rememberedSeconds, farthestAheadSeconds }: Pick<Weights, 'rememberedSeconds' | 'farthestAheadSeconds'>,
): NewSetting['pedals'] => {
  const pedals = new Map<Letter, { position: Position; firstNeeded: number }>();
  for (const letter of LETTERS) {
    const placed = needs.get(letter)!;
    const next = firstNeedFrom(placed, entry);
    const [last, first] = [placed[next - 1], placed[next]];
    if (last === undefined || first === undefined || first.moment >= until) continue;
    const { position } = first.need;
    if (position === last.need.position || last.moment >= rest) continue;
    const isOfKey = position === keyAlter(keyFifths, letter);
    const longest = isOfKey
      ? isNewKey
        ? Number.POSITIVE_INFINITY
        : farthestAheadSeconds
      : rememberedSeconds;
    if (all[first.moment]!.seconds - all[entry]!.seconds > longest) continue;
    pedals.set(letter, { position, firstNeeded: first.moment });
  }
  return pedals;
};

/** By moment, what one pedal has to do with a new setting. */
export interface PedalInSettings {
  /** Its position there, from the rest until the first note that needs it; `NOT_SET` elsewhere. */
  readonly position: Int8Array;
  /** Seconds until the music goes on, and 0 once it has. */
  readonly untilEntry: Float64Array;
}

const NOT_SET = 3;

const nothingSet = perObject(
  ({ moments }: PlayGraph): PedalInSettings => ({
    position: new Int8Array(moments).fill(NOT_SET),
    untilEntry: new Float64Array(moments),
  }),
);

export const pedalInSettings = (
  letter: Letter,
  settings: readonly NewSetting[],
  { moments, graph }: Pick<PartTimeline, 'moments' | 'graph'>,
): PedalInSettings => {
  if (settings.every(({ pedals }) => !pedals.has(letter))) return nothingSet(graph);
  const position = new Int8Array(graph.moments).fill(NOT_SET);
  const untilEntry = new Float64Array(graph.moments);
  for (const { rest, entry, pedals } of settings) {
    const set = pedals.get(letter);
    if (set === undefined) continue;
    for (let moment = rest; moment <= set.firstNeeded; moment += 1) {
      if (moment > entry && !readsOn(graph, moment)) break;
      position[moment] = set.position;
      untilEntry[moment] = Math.max(0, moments.all[entry]!.seconds - moments.all[moment]!.seconds);
    }
  }
  return { position, untilEntry };
};
