import type { Pin } from '../harp/pin.ts';
import { isPosition, type Position } from '../harp/setting.ts';
import { areAlike, memoize } from '../memoize.ts';
import { keyAlter, type Letter } from '../music/pitch.ts';
import type { Score } from '../score/model.ts';
import { type ChosenSpelling, listNeeds, type Needs } from '../sounding/needs.ts';
import { clearNeighbours } from '../sounding/neighbour-strings.ts';
import type { NeedsByLetter } from '../sounding/placed-needs.ts';
import { placeNeeds } from '../sounding/placed-needs.ts';
import { findSweepSettings, type SweepSetting } from '../sounding/sweep-setting.ts';
import { type PartInTime, setInTime } from '../time/timeline.ts';
import type { Stage } from './course/foot.ts';
import type { PlanOptions } from './options.ts';
import { type PinConflict, pinsFromMarkings, placePins } from './pins.ts';

/** What does not change with the spelling: worked out once for a plan, its suggestions and its mends. */
export interface PreparedScore extends PartInTime {
  readonly options: PlanOptions;
  readonly pins: readonly Pin[];
  readonly sweeps: readonly SweepSetting[];
}

export const prepareScore = (
  score: Score,
  options: PlanOptions,
  inTime: PartInTime = setInTime(score),
): PreparedScore => {
  const pins = [...options.pins, ...(options.keepMarkings ? pinsFromMarkings(score.markings) : [])];
  return { ...inTime, options, pins, sweeps: findSweepSettings(score, pins, options.leftOut) };
};

/** A problem ready for the feet: what is asked, and on which stage. */
export interface FeetProblem {
  readonly listed: Needs;
  readonly needs: NeedsByLetter;
  readonly stage: Stage;
  readonly pinConflicts: readonly PinConflict[];
}

/** What one spelling asks of the feet. */
export type Asked = Pick<FeetProblem, 'listed' | 'needs'>;

/** The needs of one spelling on the prepared score's stage; strings that the user chose stand in any spelling. */
export const poseProblem = (
  prepared: PreparedScore,
  spelling: ChosenSpelling,
  ask: typeof askNeeds = askNeeds,
): FeetProblem => {
  const asked = ask(prepared, new Map([...spelling, ...prepared.options.respelled]));
  return { ...asked, ...stageFor(prepared, asked.needs) };
};

/** @param strings on which notes are played instead of those written, by note id */
export const askNeeds = (
  { score, options, moments, sweeps }: PreparedScore,
  strings: ChosenSpelling,
): Asked => {
  const { profile, leftOut, scordatura } = options;
  const asked = listNeeds(score, profile, sweeps, strings, leftOut, scordatura);
  const listed = clearNeighbours(asked, moments, profile, scordatura);
  return { listed, needs: placeNeeds(listed.needs, moments) };
};

/** The same for one score, answered from memory where it was asked the same before. */
export const memoizeNeeds = (): typeof askNeeds =>
  memoize(
    askNeeds,
    ([a, stringsOfA], [b, stringsOfB]) =>
      areAlike(askingPart(a.options), askingPart(b.options)) &&
      areAlike(a.sweeps, b.sweeps) &&
      areAlike(stringsOfA, stringsOfB),
  );

/** The options that what is asked of the feet goes by: all but those of how it is served. */
const askingPart = ({
  pins: _pins,
  weights: _weights,
  spelling: _spelling,
  keepMarkings: _markings,
  pedalsTogether: _together,
  crossFeet: _crossed,
  ...asking
}: PlanOptions): Partial<PlanOptions> => asking;

/** The stage for needs of the prepared score: pins give way to notes. */
export const stageFor = (
  { score, options, moments, graph, secondsAt, dampedAt, pins }: PreparedScore,
  needs: NeedsByLetter,
): Pick<FeetProblem, 'stage' | 'pinConflicts'> => {
  const idle = (letter: Letter): Position => {
    const alter = keyAlter(score.bars[0]?.keyFifths ?? 0, letter);
    return isPosition(alter) ? alter : 0;
  };
  const chosen = new Set<Pin>(options.pins);
  // What a file marks first may stand there from the start: after rests, say.
  const placed = placePins(pins, needs, moments, (pin) => (chosen.has(pin) ? idle(pin.letter) : null));
  return {
    stage: {
      moments,
      graph,
      secondsAt,
      dampedAt,
      weights: options.weights,
      together: options.pedalsTogether,
      idle,
      pinned: (letter) => placed.positions.get(letter)!,
      isForbidden: placed.isForbidden,
    },
    pinConflicts: placed.conflicts,
  };
};
