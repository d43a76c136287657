import { openAlter } from '../harp/open-tuning.ts';
import { type Pitch, pitchName } from '../music/pitch.ts';
import { tell } from '../plan/telling.ts';
import type { LeverFinding } from './model.ts';
import type { LeverProblem } from './problem.ts';
import type { LeverSolution, MadeChange } from './solve.ts';
import type { LeverStage } from './stage.ts';

export interface ChangeFacts {
  readonly stage: LeverStage;
  readonly problem: LeverProblem;
  readonly solution: LeverSolution;
}

/** What the user should know about one change: whether a hand has time for it, what sounds, what it is for. */
export const changeFindings = (
  { stage, problem, solution }: ChangeFacts,
  change: MadeChange,
): LeverFinding[] => {
  const { string, needs } = problem.strings[change.string]!;
  const { bar, at } = stage.moments.all[change.moment]!;
  const before = needs.find(({ moment }) => moment >= change.moment)?.need.note;
  const after = needs.findLast(({ moment }) => moment < change.moment)?.need.note;
  const pitch = { ...string, alter: openAlter(problem.tuning, string) + change.to };
  const terms = solution.prices.termsAt(change.string, change.moment).map(({ name }) => name);
  const told = [
    ...mannerFindings(change, pitchName(pitch), terms, stage),
    ...(terms.includes('stringSounding') ? [soundingFinding(pitch)] : []),
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
          suggestions: ['Take more time here, or leave out a note of the changed strings.'],
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

const soundingFinding = (pitch: Pitch): ToldOfChange => ({
  code: 'ringing-string-moved',
  severity: 'warn',
  sentence: `The lever of ${pitchName(pitch)} must be set while its string still sounds.`,
  suggestions: [`Damp or shorten the ${pitch.letter}${pitch.octave} before the change.`],
});

const restoringFinding = (pitch: Pitch): ToldOfChange => ({
  code: 'lever-restored',
  severity: 'note',
  sentence: `${pitchName(pitch)} is set again for the music that comes back to this bar with the lever elsewhere.`,
  suggestions: [],
});
