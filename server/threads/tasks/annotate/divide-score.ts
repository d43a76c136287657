import {
  completeChoice,
  type DividedPart,
  type DivisionAim,
  decidedOptionsFor,
  delayNotes,
  describeDivision,
  describeLeast,
  dividePart,
  nameBarIn,
  type Score,
  type SecondShare,
  SHARING_CATALOGUE,
  slowDown,
  type TuneFormat,
  takeShares,
} from '../../../../engine/index.ts';
import type { DivisionReport } from '../../../api/answers/division.ts';
import { decisionsFor } from '../../../api/requests/decisions.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import { reportPlannedScore } from '../../../reports/report.ts';
import { reportRemark } from '../../../reports/report-notes.ts';
import { reportScore } from '../../../reports/report-score.ts';
import { fail, type Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import { harpFor, noFasterWords, type PlannedScore, planShare, readWhole } from '../plan-score.ts';
import type { StageClock } from '../stage-clock.ts';

/** A part divided between two players, and what each has. */
export interface DividedScore {
  readonly whole: Score;
  readonly aim: DivisionAim;
  readonly divided: DividedPart;
  /** Whatever the aim. */
  readonly least: SecondShare;
  readonly players: readonly [PlannedScore, PlannedScore];
}

/**
 * Divides a part and plans both players.
 *
 * @param tuneFormat what a tune in ABC is written out as
 * @returns `unsupported` for a lever harp, and the problems of planning
 */
export const divideScore = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  clock: StageClock,
  tuneFormat: TuneFormat = 'mei',
): Promise<Outcome<DividedScore>> => {
  const read = await readWhole(file, choice, clock, tuneFormat);
  if (!read.ok) return read;
  const { profile } = harpFor(choice, read.value);
  if (profile.kind === 'lever') {
    return fail({
      code: 'unsupported',
      feature: `Dividing a part for the ${profile.name}`,
      advice: 'Choose a pedal harp with the option instrument, or divide the part by hand.',
    });
  }
  clock.begin('plan', read.value.bars.length);
  const decisions = decisionsFor(choice, read.value);
  if (!decisions.ok) return decisions;
  const { placed } = decisions.value;
  const whole = slowDown(read.value, placed.tempos, noFasterWords(choice));
  const { divide } = completeChoice(SHARING_CATALOGUE, choice, 'pedal');
  const aim = divide === 'no' ? 'balanced' : divide;
  const options = decidedOptionsFor(choice, profile, placed);
  const played = delayNotes(whole, placed.delays);
  const divided = dividePart(played, aim, options);
  const smallest = aim === 'least' ? divided : dividePart(played, 'least', options);
  const [first, second] = takeShares(whole, divided).map((share) => planShare(share, choice, clock, whole));
  if (!first!.ok) return first!;
  if (!second!.ok) return second!;
  const least = describeLeast(whole, smallest);
  return { ok: true, value: { whole, aim, divided, least, players: [first!.value, second!.value] } };
};

/** How a part is divided between two players, and the plan of each. */
export const computeDivision = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  clock: StageClock,
): Promise<Outcome<DivisionReport>> => {
  const done = await divideScore(file, choice, clock);
  if (!done.ok) return done;
  const { whole, aim, divided, least, players } = done.value;
  return {
    ok: true,
    value: {
      ...reportScore(whole),
      least: {
        notes: least.notes,
        bars: least.bars.map((bar) => whole.bars[bar]!.number),
        barNames: least.bars.map(nameBarIn(whole)),
        barIndices: least.bars,
        sentence: least.sentence,
      },
      aim,
      sentence: describeDivision(divided),
      proved: divided.proved,
      players: players.map(({ score, plan }) => ({
        notes: score.notes.filter(({ role }) => role !== 'cue').map(({ id }) => id),
        plan: reportPlannedScore(score, plan),
      })),
      remarks: whole.remarks.map(reportRemark),
    },
  };
};
