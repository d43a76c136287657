import {
  BOTH_HARPS_HEADING,
  describePlayable,
  GRADE_WORDS,
  NO_BETTER_KEY,
  nameKeyTried,
  PEDAL_KEYS_HEADING,
  PEDAL_KEYS_ORDER,
} from '../../../engine/index.ts';
import { type CompareReport, compareOptions } from '../../api/answers/comparison.ts';
import { compareScore } from '../../threads/tasks/compare-score.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readRequest } from '../arguments/choice.ts';
import type { CompareCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { describeRemarks, tabulate } from '../summary.ts';

type Verdicts = Pick<CompareReport, 'pedal' | 'lever'>;

const rowsOf = (key: string, { pedal, lever }: Verdicts): readonly (readonly string[])[] => [
  [key, pedal.harp, describePlayable(pedal.stops), GRADE_WORDS[pedal.grade], `${pedal.changes}`, '', ''],
  [
    key,
    lever.harp,
    describePlayable(lever.stops),
    GRADE_WORDS[lever.grade],
    `${lever.changes}`,
    lever.tuning,
    `${lever.retuned}`,
  ],
];

const describeComparison = (report: CompareReport): readonly string[] => [
  BOTH_HARPS_HEADING,
  ...tabulate(
    ['key', 'harp', 'result', 'difficulty', 'changes', 'tuning', 'strings to retune'],
    [
      ...rowsOf(nameKeyTried(0, report.keyName), report),
      ...report.transpositions.flatMap((each) =>
        rowsOf(nameKeyTried(each.semitones, each.keyName, each.otherWay), each),
      ),
    ],
  ),
  ...(report.transpositions.length === 0 ? [NO_BETTER_KEY] : []),
  '',
  PEDAL_KEYS_HEADING,
  PEDAL_KEYS_ORDER,
  ...tabulate(
    ['key', 'result', 'difficulty', 'moves'],
    report.pedalKeys.map(({ semitones, keyName, otherWay, pedal }) => [
      nameKeyTried(semitones, keyName, otherWay),
      describePlayable(pedal.stops),
      GRADE_WORDS[pedal.grade],
      `${pedal.changes}`,
    ]),
  ),
  ...describeRemarks(report.remarks),
];

/** Compares the harps for one file and prints the verdicts. */
export const compareFile = async (
  command: CompareCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const asked = await readRequest(compareOptions, command);
  if (!asked.ok) return asked.ending;
  const { choice, file } = asked.value;
  const compared = await compareScore(file, choice, startStageClock(IGNORE_PROGRESS));
  if (!compared.ok) return resultOfProblem(command.input, compared.problem);
  if (command.json) print(JSON.stringify(compared.value, null, 2));
  else for (const line of describeComparison(compared.value)) print(line);
  return { code: EXIT.done };
};
