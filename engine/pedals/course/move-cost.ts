import type { Position } from '../../harp/setting.ts';
import { perObject } from '../../memoize.ts';
import type { NeedTiming } from '../../sounding/need-timing.ts';
import { LEAST_SOUNDING_SECONDS } from '../../sounding/string-times.ts';
import type { Moment } from '../../time/moments.ts';
import type { CostTerm } from '../../time/window.ts';
import {
  BETWEEN_DIVISIONS,
  FORGETTING_SECONDS,
  MOST_INSIDE_RUN,
  MOST_PLUCKED_COUNTED,
  type WeightName,
  type Weights,
} from '../weights.ts';
import type { PedalInSettings } from './new-settings.ts';
import { exactPrice } from './spacing.ts';

/** A move of one pedal at a moment, and all that its price goes by. */
export interface PossibleMove {
  readonly index: number;
  readonly moment: Moment;
  /** Seconds between the notes of the run that the moment lies in; infinite outside runs. */
  readonly runStep: number;
  readonly from: Position;
  readonly to: Position;
  /** The moment of a pause that is the pedal's own. */
  readonly placeInPause: number;
  readonly around: NeedTiming;
  readonly inSettings: PedalInSettings;
  readonly weights: Weights;
  /** The user forbade moves at this moment. */
  readonly forbidden: boolean;
}

/** What speaks against a move at a moment, term by term: only those that apply. The sum is what the plan minimises. */
export const costTerms = (move: PossibleMove): CostTerm[] => {
  const terms: CostTerm[] = [];
  chargeMove(move, (name, amount) => terms.push({ name, amount }));
  return terms;
};

/** The sum of a move's cost terms. */
export const priceOfMove = (move: PossibleMove): number => {
  let price = 0;
  chargeMove(move, (_name, amount) => {
    price += amount;
  });
  return price;
};

/** Notes that follow each other faster than this are a run (common practice, no source). */
const RUN_STEP_SECONDS = 0.35;

/**
 * By moment, the seconds between the notes of the run that it lies in, infinite outside runs: for a note the longer of
 * the time before and after it, for a moment between two of its notes and off the beat the time between these. A beat on
 * which none is plucked gives the foot its own time.
 */
export const runStepsOf = perObject((all: readonly Moment[]): Float64Array => {
  const plucked = all.flatMap(({ notesPlucked }, index) => (notesPlucked > 0 ? [index] : []));
  const gaps = plucked.slice(1).map((index, i) => all[index]!.seconds - all[plucked[i]!]!.seconds);
  const steps = new Float64Array(all.length).fill(Number.POSITIVE_INFINITY);
  plucked.forEach((index, i) => {
    const step = Math.max(gaps[i - 1] ?? Number.POSITIVE_INFINITY, gaps[i] ?? Number.POSITIVE_INFINITY);
    if (step < RUN_STEP_SECONDS) steps[index] = step;
  });
  const isInRun = (index: number): boolean => steps[index]! < RUN_STEP_SECONDS;
  gaps.forEach((gap, i) => {
    const [from, to] = [plucked[i]!, plucked[i + 1]!];
    if (gap >= RUN_STEP_SECONDS || !(isInRun(from) || isInRun(to))) return;
    for (let between = from + 1; between < to; between += 1) {
      if (all[between]!.handsBusy && !all[between]!.onBeat) steps[between] = gap;
    }
  });
  return steps;
});

/** On a beat the run has a note to hold on to; between beats the worse, the less time the foot has between its notes. */
const shareOfRun = (runStep: number, { onBeat }: Moment): number =>
  runStep < RUN_STEP_SECONDS ? (onBeat ? 1 : MOST_INSIDE_RUN - runStep / RUN_STEP_SECONDS) : 0;

/** So many notes at once keep the hands busy, whatever ends or begins there (common practice, no source). */
const CHORD_NOTES = 3;

/**
 * Whether the hands can wait for a foot while they play: at the end of a phrase, but neither inside a run, whose groups
 * are slurred too, nor on a chord, nor where a marking has neither beat nor note to stand at.
 */
const canWait = ({ endsPhrase, onBeat, notesPlucked }: Moment, runShare: number): boolean =>
  endsPhrase && runShare === 0 && notesPlucked < CHORD_NOTES && (onBeat || notesPlucked > 0);

/** A marking off the beat has a note or a rest to stand at, or none. */
const priceOffBeat = ({ notesPlucked, atRest, isUncounted, handsBusy }: Moment): WeightName => {
  if (notesPlucked > 0 || atRest) return 'offBeat';
  if (isUncounted) return 'betweenTupletNotes';
  return handsBusy ? 'betweenBeats' : 'betweenBeatsOfRest';
};

const chargeOffBeat = (moment: Moment, charge: Charge): void => {
  const name = priceOffBeat(moment);
  charge(name, moment.isDivision || name === 'betweenTupletNotes' ? 1 : BETWEEN_DIVISIONS);
};

/** A string whose short note is over sounds on, less and less, until a hand could have stilled it. */
const shareOfFresh = (freshLeft: number): number => (freshLeft / LEAST_SOUNDING_SECONDS) ** 2;

/** From this share of its price on a string that was just plucked is heard to bend: for an eighth of a second. */
const HEARD_SHARE = 0.25;

/** What is left then of the time in which no hand can still a string, in seconds. */
export const HEARD_FRESH_SECONDS = LEAST_SOUNDING_SECONDS * Math.sqrt(HEARD_SHARE);

/** Whether a move that cost so much is heard as a bend of a string. */
export const bendsString = (cost: readonly CostTerm[], weights: Weights): boolean =>
  cost.some(
    ({ name, amount }) =>
      name === 'stringSounding' || (name === 'justPlucked' && amount >= HEARD_SHARE * weights.justPlucked),
  );

const chargeMove = (move: PossibleMove, add: (name: WeightName, amount: number) => void): void => {
  const charge: Charge = (name, share) => {
    if (share > 0) add(name, exactPrice(move.weights[name] * share));
  };
  if (!isSetInPause(move)) chargeMoment(move, charge);
  if (move.forbidden) charge('forbidden', 1);
};

type Charge = (name: WeightName, share: number) => void;

/** Between two movements all pedals are set for the second, as at the beginning for the first: nothing speaks against that. */
const isSetInPause = ({ index, moment: { pause }, placeInPause, around }: PossibleMove): boolean =>
  pause?.place === placeInPause && around.untilNeed[index]! <= pause.reach;

const chargeMoment = (
  { index, moment, runStep, from, to, around, inSettings, weights }: PossibleMove,
  charge: Charge,
): void => {
  const runShare = shareOfRun(runStep, moment);
  const sounding = around.notatedLeft[index]!;
  const lead = around.untilNeed[index]!;
  if (sounding > 1e-6) charge('stringSounding', 1 + Math.min(1, sounding / 4));
  else {
    charge('justPlucked', shareOfFresh(around.freshLeft[index]!));
    charge('stringRinging', Math.min(1, around.audibleLeft[index]!));
  }
  if (lead === 0) charge('noLead', 1);
  else charge('shortLead', 1 - lead / weights.comfortableLeadSeconds);
  if (!moment.onBeat) chargeOffBeat(moment, charge);
  if (moment.handsBusy && !canWait(moment, runShare)) {
    charge(moment.notesPlucked > 0 ? 'handsBusy' : 'handsHolding', 1);
  }
  charge('perNotePlucked', Math.min(moment.notesPlucked, MOST_PLUCKED_COUNTED));
  charge('insideRun', runShare);
  const untilEntry = inSettings.position[index] === to ? inSettings.untilEntry[index]! : null;
  const ahead = Math.min(lead, untilEntry || weights.farthestAheadSeconds);
  charge('perSecondAhead', ahead);
  charge('perSecondForgotten', Math.min(ahead - weights.rememberedSeconds, FORGETTING_SECONDS));
  if (untilEntry === 0) charge('missedRest', 1);
  if (Math.abs(to - from) === 2) charge('twoNotchesInHaste', 1 - lead);
};
