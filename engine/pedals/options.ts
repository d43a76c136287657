import type { Pin } from '../harp/pin.ts';
import type { PedalHarpProfile } from '../harp/profile.ts';
import { CONCERT_HARP } from '../harp/profiles/concert-harp.ts';
import type { Scordatura } from '../harp/scordatura.ts';
import type { Pitch } from '../music/pitch.ts';
import { completeChoice, readChosen } from '../options/choose.ts';
import type { Choice, Values } from '../options/describe-option.ts';
import { PEDAL_CATALOGUE } from './catalogue.ts';
import type { Weights } from './weights.ts';

type PedalValues = Values<typeof PEDAL_CATALOGUE>;

/** What a user chose of the options in the catalogue, as requests hold it. */
export type PedalChoice = Choice<typeof PEDAL_CATALOGUE>;

export type Spelling = PedalValues['spelling'];

/** What the catalogue holds as the planner takes it. */
type Chosen = Omit<PedalValues, 'footRestSeconds' | 'scordatura' | 'weights'> & {
  /** Strings tuned away from their pitch before the piece. */
  readonly scordatura: Scordatura;
  readonly weights: Weights;
};

/** What a user may choose about a plan: the options of the catalogue, the harp, and what was decided note by note. */
export interface PlanOptions extends Chosen {
  readonly profile: PedalHarpProfile;
  readonly pins: readonly Pin[];
  /** Strings that the user chose for notes instead of those written, by note id; kept by every spelling. */
  readonly respelled: ReadonlyMap<string, Pitch>;
  /** Ids of notes that the player leaves out: they ask for nothing. */
  readonly omitted: ReadonlySet<string>;
}

/**
 * The planner's options for what a user chose, whoever asks: the page plans by the same as the service.
 *
 * @param choice checked; what is left out is as the catalogue has it
 */
export const pedalOptionsFor = (choice: PedalChoice): PlanOptions => {
  const { footRestSeconds, scordatura, weights, ...plain } = completeChoice(PEDAL_CATALOGUE, choice, 'pedal');
  return {
    ...plain,
    scordatura: readChosen(PEDAL_CATALOGUE.scordatura, scordatura),
    weights: { ...weights, footRestSeconds: footRestSeconds },
    profile: CONCERT_HARP,
    pins: [],
    respelled: new Map(),
    omitted: new Set(),
  };
};

/**
 * The same with what was decided about a part, on the harp that it is planned for.
 *
 * @param decided may hold other decisions as well, by which pedals do not go
 */
export const decidedOptionsFor = (
  choice: PedalChoice,
  profile: PlanOptions['profile'],
  { pins, respelled, omitted }: Pick<PlanOptions, 'pins' | 'respelled' | 'omitted'>,
): PlanOptions => ({ ...pedalOptionsFor(choice), profile, pins, respelled, omitted });

/** How pedals are planned where nothing is chosen: the catalogue’s defaults, for a concert harp. */
export const DEFAULT_PLAN_OPTIONS: PlanOptions = pedalOptionsFor({});
