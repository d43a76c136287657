import type { Pin } from '../harp/pin.ts';
import { isPosition, type Position } from '../harp/setting.ts';
import { areDeepEqual, memoize, perObject } from '../memoize.ts';
import { keyAlter, type Letter } from '../music/pitch.ts';
import type { Score } from '../score/model/score.ts';
import { respellClashingOrnaments } from '../sounding/clashing-ornaments.ts';
import { findSweepSettings, type SweepSetting } from '../sounding/glissando-settings.ts';
import { type ChosenSpelling, listNeeds, type NeedList } from '../sounding/needs.ts';
import type { NeedsByLetter } from '../sounding/placed-needs.ts';
import { placeNeeds } from '../sounding/placed-needs.ts';
import type { Moment } from '../time/moments.ts';
import { buildTimeline, type TimedPart } from '../time/part-timeline.ts';
import type { PedalContext } from './course/foot.ts';
import { findNewSettings, findSettingRests, type SettingRest } from './course/new-settings.ts';
import type { PlanOptions } from './options.ts';
import { type PinConflict, pinsFromMarkings, placePins } from './pins.ts';
import type { Weights } from './weights.ts';

/** What does not change with the spelling: worked out once for a plan, its suggestions and its fixes. */
export interface PreparedScore extends TimedPart {
  readonly options: PlanOptions;
  readonly pins: readonly Pin[];
  readonly sweeps: readonly SweepSetting[];
  readonly settingRests: readonly SettingRest[];
}

/** Works out what does not change with the spelling: times, moments, pins and glissandi. */
export const prepareScore = (
  score: Score,
  options: PlanOptions,
  timeline: TimedPart = buildTimeline(score),
): PreparedScore => {
  const pins = [...options.pins, ...(options.followMarkings ? pinsFromMarkings(score.markings) : [])];
  return {
    ...timeline,
    options,
    pins,
    sweeps: findSweepSettings(score, pins, options.omitted),
    settingRests: settingRestsOf(timeline)(options.weights.rememberedSeconds),
  };
};

const settingRestsOf = perObject(({ moments, graph }: TimedPart) =>
  memoize(
    (rememberedSeconds: number) => findSettingRests(moments.all, graph, { rememberedSeconds }),
    ([a], [b]) => a === b,
  ),
);

/** A problem ready for the feet: what is asked, and on which stage. */
export interface PedalProblem {
  readonly listed: NeedList;
  readonly needs: NeedsByLetter;
  readonly context: PedalContext;
  readonly pinConflicts: readonly PinConflict[];
}

/** What one spelling asks of the feet. */
export type SpellingNeeds = Pick<PedalProblem, 'listed' | 'needs'>;

/** The needs of one spelling on the prepared score's stage; strings that the user chose stand in any spelling. */
export const buildPedalProblem = (
  prepared: PreparedScore,
  spelling: ChosenSpelling,
  ask: typeof needsOfSpelling = needsOfSpelling,
): PedalProblem => {
  const asked = ask(prepared, new Map([...spelling, ...prepared.options.respelled]));
  return { ...asked, ...pedalContextFor(prepared, asked.needs) };
};

/** @param strings on which notes are played instead of those written, by note id */
export const needsOfSpelling = (
  { score, options, moments, sweeps }: PreparedScore,
  strings: ChosenSpelling,
): SpellingNeeds => {
  const { profile, omitted, scordatura } = options;
  const asked = listNeeds(score, profile, sweeps, strings, omitted, scordatura);
  const listed = respellClashingOrnaments(asked, moments, profile, scordatura);
  return { listed, needs: placeNeeds(listed.needs, moments) };
};

/** The same for one score, answered from memory where it was asked the same before. */
export const memoizeNeeds = (): typeof needsOfSpelling =>
  memoize(
    needsOfSpelling,
    ([a, stringsOfA], [b, stringsOfB]) =>
      areDeepEqual(askingPart(a.options), askingPart(b.options)) &&
      areDeepEqual(a.sweeps, b.sweeps) &&
      areDeepEqual(stringsOfA, stringsOfB),
  );

/** The options that what is asked of the feet goes by: all but those of how it is served. */
const askingPart = ({
  pins: _pins,
  weights: _weights,
  spelling: _spelling,
  followMarkings: _markings,
  pedalsTogether: _together,
  crossFeet: _crossed,
  ...asking
}: PlanOptions): Partial<PlanOptions> => asking;

/** What is set anew in rests, the latest for some times that are remembered. */
const newSettingsOf = perObject((needs: NeedsByLetter) =>
  memoize(
    (...[rests, all, weights]: readonly [readonly SettingRest[], readonly Moment[], Weights]) =>
      findNewSettings(rests, needs, all, weights),
    ([restsA, allA, a], [restsB, allB, b]) =>
      restsA === restsB &&
      allA === allB &&
      a.rememberedSeconds === b.rememberedSeconds &&
      a.farthestAheadSeconds === b.farthestAheadSeconds,
  ),
);

/** The stage for needs of the prepared score: pins give way to notes. */
export const pedalContextFor = (
  { score, options, moments, graph, secondsAt, dampedAt, pins, settingRests }: PreparedScore,
  needs: NeedsByLetter,
): Pick<PedalProblem, 'context' | 'pinConflicts'> => {
  const idle = (letter: Letter): Position => {
    const alter = keyAlter(score.bars[0]?.keyFifths ?? 0, letter);
    return isPosition(alter) ? alter : 0;
  };
  const chosen = new Set<Pin>(options.pins);
  // What a file marks first may stand there from the start: after rests, say.
  const placed = placePins(pins, needs, moments, (pin) => (chosen.has(pin) ? idle(pin.letter) : null));
  return {
    context: {
      moments,
      graph,
      secondsAt,
      dampedAt,
      weights: options.weights,
      together: options.pedalsTogether,
      idle,
      pinned: (letter) => placed.positions.get(letter)!,
      forbidden: placed.forbidden,
      newSettings: newSettingsOf(needs)(settingRests, moments.all, options.weights),
    },
    pinConflicts: placed.conflicts,
  };
};
