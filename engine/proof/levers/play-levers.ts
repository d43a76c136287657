import type { OpenTuning } from '../../harp/open-tuning.ts';
import { type LeverContext, prepareLevers } from '../../levers/context.ts';
import type { LeverOptions } from '../../levers/options.ts';
import { planLevers } from '../../levers/plan.ts';
import { buildLeverProblem } from '../../levers/problem.ts';
import { chooseStrings, type LeverNeed, leverFor } from '../../levers/strings/strings.ts';
import { stepOf } from '../../music/pitch.ts';
import { compare, type Rational } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import { writtenString } from '../../sounding/needs.ts';
import { startLeverTrials } from './lever-trials.ts';
import type { LeverRepairInput } from './repair-levers.ts';
import { readStatedLevers, type StatedLevers } from './stated-levers.ts';
import { listStringParts, needsByString } from './string-parts.ts';

/** Plays a part by the lever markings in its file alone, every string by itself. */
export const playLevers = (score: Score, options: LeverOptions): LeverRepairInput => {
  const tuning = tuningOfFile(score, options);
  const context = prepareLevers(score, { ...options, tuning, pins: [] });
  const needs = buildLeverProblem(context, tuning).chosen.needs;
  const planned = readStatedLevers(score, options.profile, tuning, needsByString(needs));
  const needsOf = needsByString(onWrittenStrings(needs, planned, context));
  const stated = readStatedLevers(score, options.profile, tuning, needsOf);
  const parts = listStringParts(context, stated, needsOf);
  return { context, tuning, stated, parts, trials: startLeverTrials(parts, context) };
};

/**
 * The tuning of the open strings as the option says, else as the file does, else by the harp's custom where that gives
 * every note, else as the plan has them.
 */
export const tuningOfFile = (score: Score, options: LeverOptions): OpenTuning => {
  if (typeof options.tuning === 'object') return options.tuning;
  const told = score.leverWords.find(({ says }) => says !== null && says.tuning !== null)?.says?.tuning;
  if (told != null) return told;
  const { profile } = options;
  const { pitchNeeds } = prepareLevers(score, options);
  const { notInTuning, respellings } = chooseStrings(pitchNeeds, profile.tuning, profile);
  return notInTuning.length + respellings.length === 0 ? profile.tuning : planLevers(score, options).tuning;
};

/**
 * Notes that the plan would play on a neighbour to spare changes stay on their own string where the last marking that
 * names it before them sets its lever for them, or where its lever stands so anyway and the neighbour's does not: the
 * file then says how they are played.
 */
const onWrittenStrings = (
  needs: readonly LeverNeed[],
  { said, atStart }: StatedLevers,
  { score, options: { profile, tuning } }: LeverContext,
): readonly LeverNeed[] => {
  const lastOf = (step: number, onset: Rational) =>
    said.findLast((own, i) => own.has(step) && compare(score.leverWords[i]!.at, onset) <= 0)?.get(step);
  const standsAt = (step: number, onset: Rational) => lastOf(step, onset)?.place ?? atStart.get(step);
  return needs.map((need) => {
    const written = writtenString(need.note);
    const isOwn = written.letter === need.letter && written.octave === need.octave;
    const position =
      isOwn || need.kind !== 'plucked' ? null : leverFor(written, tuning as OpenTuning, profile);
    if (position === null) return need;
    const step = stepOf(written);
    const last = lastOf(step, need.onset);
    const isSet = last?.name != null && last.place === position;
    const isLeft =
      standsAt(step, need.onset) === position && standsAt(stepOf(need), need.onset) !== need.position;
    if (!isSet && !isLeft) return need;
    const { letter, octave, alter } = written;
    return { ...need, letter, octave, alter, position };
  });
};
