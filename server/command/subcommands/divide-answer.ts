import { describeDivision, GRADE_WORDS } from '../../../engine/index.ts';
import { divideOptions } from '../../api/answers/division.ts';
import { divideScore } from '../../threads/tasks/annotate/divide-score.ts';
import { forTwo } from '../../threads/tasks/annotate/for-two.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readRequest } from '../arguments/choice.ts';
import type { DivideCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { describeRemarks, oneLine } from '../summary.ts';

const PLAYERS = ['First player', 'Second player'] as const;

/** Tells the least that a second harp must play, and how the divided part goes, and writes nothing. */
export const tellDivision = async (
  { input, options }: Pick<DivideCommand, 'input' | 'options'>,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const asked = await readRequest(divideOptions, { input, options });
  if (!asked.ok) return asked.ending;
  const { choice, file } = asked.value;
  const done = await divideScore(file, forTwo(choice), startStageClock(IGNORE_PROGRESS));
  if (!done.ok) return resultOfProblem(input, done.problem);
  const { whole, divided, least, players } = done.value;
  const lines = [
    ...describeRemarks(whole.remarks),
    least.sentence,
    describeDivision(divided),
    ...players.map(
      ({ plan: { plan } }, i) => `${PLAYERS[i]}: ${GRADE_WORDS[plan.summary.difficulty.grade]}.`,
    ),
    'With --out-dir DIR you get a part for each player and a score of both.',
  ];
  for (const line of lines) print(oneLine(line));
  return { code: EXIT.done };
};
