import { basename } from 'node:path';
import { GRADE_WORDS, listTunes, nameCount } from '../../../engine/index.ts';
import {
  bindClassSet,
  type ClassPiece,
  EngraverError,
  prepareAnnotator,
  type RefusedPiece,
} from '../../../render/index.ts';
import { checkClassSet } from '../../api/requests/class-set.ts';
import type { AnnotateChoice } from '../../api/requests/options.ts';
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

const tunesOf = ({ name, file }: NamedFile): readonly WantedPiece[] => {
  const tunes = file.ok ? listTunes(file.value.bytes) : null;
  if (tunes === null || !tunes.ok || tunes.value === null || tunes.value.length < 2) return [{ name, file }];
  return tunes.value.map(({ number, title }) => ({ name: `${name} ${number} ${title}`, file, tune: number }));
};

/** A message of the command without the file's name, which stands beside it. */
const reasonOf = (ending: CommandResult): string => (ending.code === EXIT.done ? '' : ending.message);

/** What the inputs hold, in their order; an input that cannot be read is told by its name. */
const listPieces = async (inputs: readonly string[]): Promise<readonly (WantedPiece | RefusedPiece)[]> => {
  const listed: (WantedPiece | RefusedPiece)[] = [];
  for (const input of inputs) {
    const read = await readInput(input);
    if (read.ok) listed.push(...openBooks(read.value, basename(input)).flatMap(tunesOf));
    else listed.push({ name: basename(input), reason: reasonOf(read.ending) });
  }
  return listed;
};

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
  const choice: AnnotateChoice = read.value;
  const fits = checkClassSet(choice);
  if (!fits.ok) return { code: EXIT.usage, message: anyProblemMessage(fits.problem) };
  compileLayoutLater();
  const annotator = prepareAnnotator();
  const pieces: ClassPiece[] = [];
  const refused: RefusedPiece[] = [];
  for (const wanted of await listPieces(inputs)) {
    if ('reason' in wanted) refused.push(wanted);
    else {
      const drawn = await drawWanted(wanted, choice, annotator);
      if (drawn.ok) pieces.push(drawn.value);
      else refused.push({ name: wanted.name, reason: anyProblemMessage(drawn.problem) });
    }
  }
  for (const { name, reason } of refused) print(oneLine(`refused: ${name}: ${reason}`));
  if (pieces.length === 0) return { code: EXIT.refused, message: 'nothing to bind: every piece was refused' };
  const bound = bindClassSet(pieces, refused, choice);
  if (!bound.ok) return resultOfProblem(output, bound.problem);
  const ending = await writeOutput([{ path: output, content: bound.value.pdf }], output);
  if (ending !== null) return ending;
  for (const { facts } of pieces)
    print(
      oneLine(
        `${facts.title}: ${GRADE_WORDS[facts.grade]}, ${facts.playable ? '' : 'not playable as printed, '}${nameCount(facts.bars, 'bar')}`,
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
