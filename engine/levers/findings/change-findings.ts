import { tell } from '../../findings/describe-finding.ts';
import { openAlter } from '../../harp/open-tuning.ts';
import { type Pitch, pitchName } from '../../music/pitch.ts';
import type { LeverSolution, MadeChange } from '../course/solve.ts';
import type { LeverFinding, TuningCost } from '../model.ts';
import type { LeverProblem } from '../problem.ts';
import type { LeverStage } from '../stage.ts';

export interface ChangeFacts {
  readonly stage: LeverStage;
  readonly problem: LeverProblem;
  readonly solution: LeverSolution;
  /** A tuning that leaves no change without time, where the one that the user chose does. */
  readonly unhindered: OtherTuning | null;
}

/** A tuning that is solved too. */
export interface OtherTuning {
  readonly cost: Pick<TuningCost, 'name'>;
  readonly solution: Pick<LeverSolution, 'changes'>;
}

/** What the user should know about one change: whether a hand has time for it, what sounds, what it is for. */
export const changeFindings = (
  { stage, problem, solution, unhindered }: ChangeFacts,
  change: MadeChange,
): LeverFinding[] => {
  const { string, needs } = problem.strings[change.string]!;
  const { bar, at } = stage.moments.all[change.moment]!;
  const before = needs.find(({ moment }) => moment >= change.moment)?.need.note;
  const after = needs.findLast(({ moment }) => moment < change.moment)?.need.note;
  const open = openAlter(problem.tuning, string);
  const pitch = { ...string, alter: open + change.to };
  const ringing = { ...string, alter: open + 1 - change.to };
  const terms = solution.prices.termsAt(change.string, change.moment).map(({ name }) => name);
  const told = [
    ...mannerFindings(change, pitchName(pitch), terms, stage, adviseTuning(unhindered)),
    ...(terms.includes('stringSounding') ? [soundingFinding(pitch, ringing)] : []),
    ...(change.restores ? [restoringFinding(pitch)] : []),
  ];
  return told.map((each) => {
    const about = each.code === 'ringing-string-moved' ? [after, before] : [before];
    const notes = about.filter((note) => note !== undefined);
    return tell(stage.score, { ...each, notes, place: { bar, at } });
  });
};

type ToldOfChange = Pick<LeverFinding, 'code' | 'severity' | 'sentence' | 'suggestions'>;

const mannerFindings = (
  { manner, hand }: MadeChange,
  name: string,
  terms: readonly string[],
  { options }: LeverStage,
  otherTuning: readonly string[],
): ToldOfChange[] => {
  switch (manner) {
    case 'alone':
      return [];
    case 'too-soon':
      return [
        {
          code: 'hand-too-busy',
          severity: 'stop',
          sentence: `There is no time for the lever of ${name}: another lever is set too shortly before.`,
          suggestions: [...otherTuning, 'Take more time here, or leave out a note of the changed strings.'],
        },
      ];
    case 'no-free-hand':
      return [
        {
          code: 'no-free-hand',
          severity: 'stop',
          sentence: terms.includes('noFreeHand')
            ? `No hand is free for the lever of ${name}.`
            : `There is no time for the lever of ${name} before its string is plucked.`,
          suggestions: [
            ...otherTuning,
            `Rest one hand for ${options.moveSeconds} s before the note, or play the note in another octave.`,
          ],
        },
      ];
    case 'lent':
      return [
        {
          code: 'other-hand-taken',
          severity: 'warn',
          sentence: `The ${hand} hand sets the lever of ${name}, since the other has no time.`,
          suggestions: [`Rest the ${hand === 'right' ? 'left' : 'right'} hand here.`],
        },
      ];
  }
};

const adviseTuning = (other: OtherTuning | null): readonly string[] => {
  if (other === null) return [];
  const { length } = other.solution.changes;
  const then = length === 0 ? 'no lever changes' : `a hand has time for every change, ${length} in all`;
  return [`Tune in ${other.cost.name}: then ${then}.`];
};

/** @param ringing what the string sounds until then */
const soundingFinding = (pitch: Pitch, ringing: Pitch): ToldOfChange => ({
  code: 'ringing-string-moved',
  severity: 'warn',
  sentence: `The lever of ${pitchName(pitch)} must be set while its string still sounds.`,
  suggestions: [`Damp or shorten the ${pitchName(ringing)} before the change.`],
});

const restoringFinding = (pitch: Pitch): ToldOfChange => ({
  code: 'lever-restored',
  severity: 'note',
  sentence: `${pitchName(pitch)} is set again for the music that comes back to this bar with the lever elsewhere.`,
  suggestions: [],
});
