import {
  cellsOfTune,
  chooseTunes,
  MOST_TUNES_IN_SET,
  nameCount,
  TUNE_COLUMNS,
} from '../../../engine/index.ts';
import { type CompareChoice, compareOptions } from '../../api/answers/comparison.ts';
import {
  type RatedTune,
  reportTunes,
  tellSet,
  tellTogether,
  writeTunesCsv,
} from '../../reports/tune-table.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { drawTunes } from '../../threads/tasks/tunes/draw-tunes.ts';
import { type RatingWish, rateBook } from '../../threads/tasks/tunes/rate-book.ts';
import { readChoice, readInput } from '../arguments/choice.ts';
import type { TunesCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { openBooks } from '../open-books.ts';
import { listPages } from '../output-files.ts';
import { oneLine, tabulate } from '../summary.ts';
import { writeOutput } from '../write-output.ts';

interface Rated {
  readonly tunes: readonly RatedTune[];
  readonly failures: readonly string[];
}

/** Rates every tune of the files; what cannot be read is told, and the others go on. */
const rateFiles = async (
  files: readonly string[],
  choice: CompareChoice,
  wish: RatingWish,
): Promise<Rated> => {
  const tunes: RatedTune[] = [];
  const failures: string[] = [];
  for (const file of files) {
    const read = await readInput(file);
    if (!read.ok) {
      failures.push(read.ending.message);
      continue;
    }
    for (const { name, file: book } of openBooks(read.value, file)) {
      if (!book.ok) {
        failures.push(`${name}: ${anyProblemMessage(book.problem)}`);
        continue;
      }
      const rated = await rateBook(book.value, choice, wish);
      if (!rated.ok) {
        failures.push(`${book.value.fileName}: ${anyProblemMessage(rated.problem)}`);
        continue;
      }
      tunes.push(...rated.value.tunes);
      failures.push(...rated.value.failures);
    }
  }
  return { tunes, failures };
};

/** The order of a set, and what is set before each tune. All tunes have to be in one tuning. */
const describeSet = (tunes: readonly RatedTune[]): readonly string[] => {
  const { lines, total } = tellSet(tunes);
  return [
    ...lines.map(
      ({ tune: { number, title }, before, trouble }, place) =>
        `${place + 1}. ${number} ${title} (${before}${trouble === '' ? '' : `; ${trouble}`})`,
    ),
    total,
  ];
};

const setProblem = (tunes: readonly RatedTune[]): string | null => {
  if (tunes.length > MOST_TUNES_IN_SET)
    return `a set has at most ${MOST_TUNES_IN_SET} tunes, but there are ${tunes.length}: choose some with --only`;
  const tunings = new Set(tunes.map(({ tuning }) => tuning));
  return tunings.size > 1
    ? `the tunes are in different tunings (${[...tunings].join('; ')}): name one for all with --tuning`
    : null;
};

/** Prints the table of a tune book, or the order of a set. */
export const rateTunes = async (
  command: TunesCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const choice = await readChoice(compareOptions, command.options);
  if (!choice.ok) return choice.ending;
  const { tunes: all, failures } = await rateFiles(command.inputs, choice.value, {
    only: command.only,
    inOneTuning: command.set,
  });
  const { only, playable, mostChanges, asTuned, sort } = command;
  const tunes = chooseTunes(all, { only, playable, mostChanges, asTuned }, sort);
  const missing = (command.only ?? []).filter((number) => !all.some((each) => each.number === number));
  if (missing.length > 0) return { code: EXIT.usage, message: `there is no tune ${missing.join(', ')}` };
  const problem = command.set ? setProblem(tunes) : null;
  if (problem !== null) return { code: EXIT.usage, message: problem };
  if (command.output === null) for (const line of writeTunes(command, tunes)) print(line);
  else {
    const written = await writeTuneSheet(command.output, command, tunes, print);
    if (written.code !== EXIT.done) return written;
  }
  return failures.length === 0
    ? { code: EXIT.done }
    : { code: EXIT.refused, message: failures.map(oneLine).join(' ') };
};

/** Writes the table, or a set, as sheets to print. */
const writeTuneSheet = async (
  output: string,
  { set, music }: Pick<TunesCommand, 'set' | 'music'>,
  tunes: readonly RatedTune[],
  print: (line: string) => void,
): Promise<CommandResult> => {
  const drawn = await drawTunes(set, tunes, music);
  if (!drawn.ok) return { code: EXIT.usage, message: anyProblemMessage(drawn.problem) };
  const { pages, pdf } = drawn.value;
  const isPdf = /\.pdf$/iu.test(output);
  const files = isPdf ? [{ path: output, content: pdf }] : listPages(pages, output);
  const ending = await writeOutput(files, output);
  if (ending !== null) return ending;
  print(`${nameCount(pages.length, 'page')}: ${files.map(({ path }) => path).join(', ')}`);
  return { code: EXIT.done };
};

const writeTunes = ({ form, set }: TunesCommand, tunes: readonly RatedTune[]): readonly string[] => {
  if (form === 'json') {
    const { failures: _, ...report } = reportTunes(tunes, [], set);
    return [JSON.stringify(report, null, 2)];
  }
  if (set) return describeSet(tunes).map(oneLine);
  if (form === 'csv') return writeTunesCsv(tunes);
  return [
    ...tabulate(
      TUNE_COLUMNS.map(({ name }) => name),
      tunes.map(cellsOfTune),
    ),
    ...tellTogether(tunes).map(oneLine),
  ];
};
