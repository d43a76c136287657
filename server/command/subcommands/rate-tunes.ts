import {
  GRADE_WORDS,
  groupBySetting,
  LEVER_HARP,
  type LeverOptions,
  leverOptionsFor,
  listTunes,
  MOST_TUNES_IN_SET,
  nameCount,
  nameKeySignature,
  nameLeversUp,
  orderSet,
  problemMessage,
  rateTune,
  type Score,
  type TuneRating,
} from '../../../engine/index.ts';
import type { CompareChoice } from '../../api/answers/comparison.ts';
import { compareOptions } from '../../api/answers/comparison.ts';
import { harpFor, openFile } from '../../threads/tasks/plan-score.ts';
import type { TUNE_SORTS, TunesCommand } from '../arguments/arguments.ts';
import { readChoice, readInput } from '../arguments/choice.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { oneLine, tabulate } from '../summary.ts';

/** One tune of the table, with where it stands. */
interface RatedTune {
  readonly file: string;
  readonly number: string;
  readonly rating: TuneRating;
}

interface Rated {
  readonly tunes: readonly RatedTune[];
  readonly failures: readonly string[];
}

/** Rates every tune of the files; what cannot be read is told, and the others go on. */
const rateFiles = async (
  files: readonly string[],
  choice: CompareChoice,
  inOneTuning: boolean,
): Promise<Rated> => {
  const tunes: RatedTune[] = [];
  const failures: string[] = [];
  for (const file of files) {
    const read = await readInput(file);
    if (!read.ok) {
      failures.push(read.ending.code === EXIT.done ? file : read.ending.message);
      continue;
    }
    const listed = listTunes(read.value);
    const numbers =
      listed.ok && choice.tune === undefined ? (listed.value ?? []).map(({ number }) => number) : [];
    for (const number of numbers.length === 0 ? [choice.tune] : numbers) {
      const chosen = number === undefined ? choice : { ...choice, tune: number };
      const score = await openFile({ bytes: read.value, fileName: file }, chosen);
      if (!score.ok) {
        failures.push(`${file}: ${problemMessage(score.problem)}`);
        continue;
      }
      const options = optionsFor(choice, score.value, inOneTuning);
      tunes.push({
        file,
        number: number ?? '',
        rating: rateTune(score.value, options, choice.maxSemitones ?? 0),
      });
    }
  }
  return { tunes, failures };
};

/** The tunes of a set are in one tuning: the harp's own unless another is named. */
const optionsFor = (choice: CompareChoice, score: Score, inOneTuning: boolean): LeverOptions => {
  const harp = harpFor(choice, score).profile;
  const profile = harp.kind === 'lever' ? harp : LEVER_HARP;
  const options = { ...leverOptionsFor(choice), profile };
  return inOneTuning && choice.tuning === undefined ? { ...options, tuning: profile.tuning } : options;
};

const HEADINGS = [
  'no.',
  'title',
  'key signature',
  'tuning',
  'strings to retune',
  'levers up',
  'changes',
  'not playable',
  'difficulty',
  'better keys',
];

const cellsOf = ({ number, rating }: RatedTune): readonly string[] => [
  number,
  rating.title,
  nameKeySignature(rating.keyFifths),
  rating.tuning,
  rating.retuned.join(' '),
  rating.leversUp.join(' '),
  `${rating.changes}`,
  `${rating.stops}`,
  GRADE_WORDS[rating.grade],
  rating.betterKeys
    .map(
      ({ semitones, keyFifths }) =>
        `${semitones > 0 ? '+' : '−'}${Math.abs(semitones)}: ${nameKeySignature(keyFifths)}`,
    )
    .join(', '),
];

/** A cell of CSV (RFC 4180); one that a spreadsheet would take for a formula is kept from it. */
const csvCell = (text: string): string => {
  const plain = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
};

const compareBy: Readonly<Record<(typeof TUNE_SORTS)[number], (a: TuneRating, b: TuneRating) => number>> = {
  file: () => 0,
  title: (a, b) => a.title.localeCompare(b.title, 'en'),
  changes: (a, b) => a.stops - b.stops || a.changes - b.changes,
  retune: (a, b) => a.retuned.length - b.retuned.length,
  difficulty: (a, b) => GRADE_ORDER.indexOf(a.grade) - GRADE_ORDER.indexOf(b.grade),
};

const GRADE_ORDER = Object.keys(GRADE_WORDS) as (keyof typeof GRADE_WORDS)[];

const nameLever = ({ string, up }: { readonly string: string; readonly up: boolean }): string =>
  `${string} ${up ? 'up' : 'down'}`;

/** The order of a set, and what is set before each tune. All tunes have to be in one tuning. */
const describeSet = (tunes: readonly RatedTune[]): readonly string[] => {
  const { order, breaks, changes } = orderSet(tunes.map(({ rating }) => rating.levers));
  const lines = order.map((index, place) => {
    const setting = breaks[place]!.map(nameLever).join(', ');
    const before =
      place === 0 ? nameLeversUp(breaks[0]!.map(({ string }) => string)) : `set ${setting || 'nothing'}`;
    const { number, rating } = tunes[index]!;
    const stops =
      rating.stops === 0 ? '' : `; ${nameCount(rating.stops, 'place')} not playable in ${rating.tuning}`;
    return `${place + 1}. ${number} ${rating.title} (${before}${stops})`;
  });
  return [...lines, `${nameCount(changes, 'lever change')} between the tunes: no order needs fewer.`];
};

const describeGroups = (tunes: readonly RatedTune[]): readonly string[] =>
  groupBySetting(tunes.map(({ rating }) => rating.levers))
    .filter((group) => group.length > 1)
    .map((group) => `In one setting: ${group.map((index) => tunes[index]!.rating.title).join('; ')}`);

const setProblem = (tunes: readonly RatedTune[]): string | null => {
  if (tunes.length > MOST_TUNES_IN_SET)
    return `a set has at most ${MOST_TUNES_IN_SET} tunes, but there are ${tunes.length}: choose some with --only`;
  const tunings = new Set(tunes.map(({ rating }) => rating.tuning));
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
  const { tunes: all, failures } = await rateFiles(command.inputs, choice.value, command.set);
  const chosen = command.only === null ? all : all.filter(({ number }) => command.only!.includes(number));
  const missing = (command.only ?? []).filter((number) => !all.some((each) => each.number === number));
  if (missing.length > 0) return { code: EXIT.usage, message: `there is no tune ${missing.join(', ')}` };
  const problem = command.set ? setProblem(chosen) : null;
  if (problem !== null) return { code: EXIT.usage, message: problem };
  const tunes = chosen.toSorted((a, b) => compareBy[command.sort](a.rating, b.rating));
  for (const line of writeTunes(command, tunes)) print(line);
  return failures.length === 0
    ? { code: EXIT.done }
    : { code: EXIT.refused, message: failures.map(oneLine).join(' ') };
};

const writeTunes = ({ form, set }: TunesCommand, tunes: readonly RatedTune[]): readonly string[] => {
  if (form === 'json') {
    const rows = tunes.map(({ file, number, rating: { levers: _, ...rating } }) => ({
      file,
      number,
      ...rating,
    }));
    const order = set ? { set: orderSet(tunes.map(({ rating }) => rating.levers)) } : {};
    return [JSON.stringify({ tunes: rows, ...order }, null, 2)];
  }
  if (set) return describeSet(tunes).map(oneLine);
  if (form === 'csv')
    return [['file', ...HEADINGS], ...tunes.map((tune) => [tune.file, ...cellsOf(tune)])].map((row) =>
      row.map(csvCell).join(','),
    );
  return [...tabulate(HEADINGS, tunes.map(cellsOf)), ...describeGroups(tunes).map(oneLine)];
};
