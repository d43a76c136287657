import { basename } from 'node:path';
import { GRADE_WORDS, listTunes, nameCount, pickTunes, type TuneSummary } from '../../../engine/index.ts';
import {
  bindClassSet,
  type ClassPiece,
  EngraverError,
  prepareAnnotator,
  type RefusedPiece,
} from '../../../render/index.ts';
import { checkClassSet, readTuneList } from '../../api/requests/class-set.ts';
import type { AnnotateChoice } from '../../api/requests/options.ts';
import { refusalOf } from '../../refusal-of.ts';
import { anyProblemMessage, fail, type Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../../threads/job.ts';
import { drawPiece } from '../../threads/tasks/draw-piece.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readChoice, readInput } from '../arguments/choice.ts';
import { packChoice } from '../arguments/command-flags.ts';
import type { PackCommand } from '../arguments/commands.ts';
import { compileLayoutLater } from '../compile-later.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { type NamedFile, openBooks } from '../open-books.ts';
import { oneLine } from '../summary.ts';
import { writeOutput } from '../write-output.ts';

/** A piece to be drawn: of a tune book each tune is one. */
interface WantedPiece extends NamedFile {
  readonly tune?: string;
}

const nameWanted = ({ number, title }: TuneSummary): string => `${number} ${title}`;

/**
 * The tunes of a book, or those of it that are chosen; a file with one piece is itself.
 *
 * @param found is told what of the choice the book has
 */
const tunesOf = (
  { name, file }: NamedFile,
  chosen: readonly string[] | null,
  found: Set<string>,
): readonly WantedPiece[] => {
  const listed = file.ok ? listTunes(file.value.bytes) : null;
  if (listed === null || !listed.ok || listed.value === null || listed.value.length < 2)
    return [{ name, file }];
  const picked = chosen === null ? null : pickTunes(listed.value, chosen);
  for (const known of chosen ?? []) if (!picked!.unknown.includes(known)) found.add(known);
  const tunes = picked === null ? listed.value : picked.chosen;
  return tunes.map((tune) => ({ name: `${name} ${nameWanted(tune)}`, file, tune: tune.number }));
};

/** A piece that is not in the set, and the sentence for whoever asked for it. */
interface Refused extends RefusedPiece {
  readonly reason: string;
}

/** What the inputs hold, in their order; an input that cannot be read is told by its name. */
const listPieces = async (
  inputs: readonly string[],
  chosen: readonly string[] | null,
): Promise<readonly (WantedPiece | Refused)[]> => {
  const listed: (WantedPiece | Refused)[] = [];
  const found = new Set<string>();
  for (const input of inputs) {
    const read = await readInput(input);
    if (read.ok)
      listed.push(...openBooks(read.value, basename(input)).flatMap((file) => tunesOf(file, chosen, found)));
    else listed.push({ name: basename(input), refusal: 'unreadable', reason: read.ending.message });
  }
  const unknown = (chosen ?? []).filter((name) => !found.has(name));
  return [
    ...listed,
    ...unknown.map(
      (name): Refused => ({ name: `tune ${name}`, refusal: 'noSuchTune', reason: noSuchTune(name) }),
    ),
  ];
};

/** Commas part numbers and titles only where a book has each of them. */
const noSuchTune = (name: string): string =>
  `no tune book here has a tune with this number or title${name.includes(',') ? ', or with each of those between its commas; a semicolon always parts two of them' : ''}`;

type Drawer = ReturnType<typeof prepareAnnotator>;

const drawWanted = async (
  { file, tune }: WantedPiece,
  choice: AnnotateChoice,
  annotator: Drawer,
): Promise<Outcome<ClassPiece>> => {
  if (!file.ok) return file;
  const chosen = tune === undefined ? choice : { ...choice, tune };
  const clock = startStageClock(IGNORE_PROGRESS);
  const score: ScoreFile = file.value;
  return drawPiece(score, chosen, annotator, clock).catch((error: unknown) => {
    if (error instanceof EngraverError) return fail({ code: 'layout-failed' });
    throw error;
  });
};

/** Writes several pieces as one class set; what is refused is told by name, and the rest is done. */
export const packFiles = async (
  { inputs, output, options }: PackCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const read = await readChoice(packChoice, options);
  if (!read.ok) return read.ending;
  const { only, setTitle, ...choice } = read.value;
  const fits = checkClassSet(choice);
  if (!fits.ok) return { code: EXIT.usage, message: anyProblemMessage(fits.problem) };
  compileLayoutLater();
  const annotator = prepareAnnotator();
  const pieces: ClassPiece[] = [];
  const refused: Refused[] = [];
  for (const wanted of await listPieces(inputs, only === undefined ? null : readTuneList(only))) {
    if ('reason' in wanted) refused.push(wanted);
    else {
      const drawn = await drawWanted(wanted, choice, annotator);
      if (drawn.ok) pieces.push(drawn.value);
      else {
        const { problem } = drawn;
        refused.push({ name: wanted.name, refusal: refusalOf(problem), reason: anyProblemMessage(problem) });
      }
    }
  }
  for (const { name, reason } of refused) print(oneLine(`refused: ${name}: ${reason}`));
  if (pieces.length === 0) return { code: EXIT.refused, message: 'nothing to bind: every piece was refused' };
  const bound = bindClassSet(pieces, refused, {
    ...choice,
    ...(setTitle === undefined ? {} : { title: setTitle }),
  });
  if (!bound.ok) return resultOfProblem(output, bound.problem);
  const ending = await writeOutput([{ path: output, content: bound.value.pdf }], output);
  if (ending !== null) return ending;
  for (const { facts } of pieces)
    print(
      oneLine(
        `${facts.name}: ${GRADE_WORDS[facts.grade]}, ${facts.playable ? '' : 'not playable as printed, '}${nameCount(facts.bars, 'bar')}`,
      ),
    );
  print(`${nameCount(pieces.length, 'piece')}, ${nameCount(bound.value.pageCount, 'page')}: ${output}`);
  return refused.length === 0
    ? { code: EXIT.done }
    : {
        code: EXIT.refused,
        message: `${nameCount(refused.length, 'piece')} of ${pieces.length + refused.length} refused`,
      };
};
