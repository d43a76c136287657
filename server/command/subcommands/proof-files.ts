import { nameCount } from '../../../engine/index.ts';
import type { ProofPages } from '../../../render/index.ts';
import { SOURCE_TYPES, type SourceKind } from '../../../render/pure.ts';
import type { ProofReport } from '../../api/answers/proof-report.ts';
import { type ProofChoice, proofOptions } from '../../api/requests/options.ts';
import { computeProof, type ProofExtra } from '../../threads/tasks/compute.ts';
import type { SourceFile } from '../../threads/tasks/source-file.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readChoice, readScoreFile } from '../arguments/choice.ts';
import type { ProofCommand } from '../arguments/commands.ts';
import { describeFinding } from '../describe-plan.ts';
import { type CommandResult, EXIT, type Failed, resultOfProblem } from '../exit.ts';
import { findOverwrite, listPages, outputKind, withoutExtension } from '../output-files.ts';
import { oneLine } from '../summary.ts';
import { writeOutput } from '../write-output.ts';

type Print = (line: string) => void;

/** What became of one file. */
type Proofed =
  | { readonly kind: 'refused'; readonly ending: Failed }
  | {
      readonly kind: 'read';
      readonly report: ProofReport;
      readonly isRight: boolean;
      readonly written: CommandResult;
    };

/** Proofreads files; the worst of them decides how the command ends. */
export const proofFiles = async (command: ProofCommand, print: Print): Promise<CommandResult> => {
  const choice = await readChoice(proofOptions, command.options);
  if (!choice.ok) return choice.ending;
  const told: Print = (line) => {
    if (!command.json) print(oneLine(line));
  };
  const reports: unknown[] = [];
  const incorrect: ProofReport[] = [];
  let failed: CommandResult = { code: EXIT.done };
  for (const input of command.inputs) {
    const proofed = await proofFile(input, command, choice.value, told);
    if (proofed.kind === 'refused') {
      if (failed.code === EXIT.done) failed = proofed.ending;
      reports.push({ file: input, problem: proofed.ending.message });
      if (command.inputs.length > 1) told(proofed.ending.message);
      continue;
    }
    if (proofed.written.code !== EXIT.done) return proofed.written;
    reports.push({ file: input, ...proofed.report });
    if (!proofed.isRight) incorrect.push(proofed.report);
  }
  if (command.json) print(JSON.stringify(reports, null, 2));
  if (failed.code !== EXIT.done) return failed;
  return incorrect.length === 0
    ? { code: EXIT.done }
    : { code: EXIT.incorrect, message: sumUp(command.inputs.length, incorrect) };
};

/** Proofreads one file, tells its findings, and writes the file or the pages that are asked for. */
const proofFile = async (
  input: string,
  { output }: Pick<ProofCommand, 'output'>,
  choice: ProofChoice,
  told: Print,
): Promise<Proofed> => {
  const read = await readScoreFile(input);
  if (!read.ok) return { kind: 'refused', ending: read.ending };
  const clock = startStageClock(IGNORE_PROGRESS);
  const proofed = await computeProof(read.value, choice, clock, extraOf(output, choice));
  if (!proofed.ok) return { kind: 'refused', ending: resultOfProblem(input, proofed.problem) };
  const { report, repaired, drawn } = proofed.value;
  for (const line of describeProof(input, report)) told(line);
  const isRight = repaired === null ? report.correct : report.repair.faultsLeft === 0;
  const base = { kind: 'read', report, isRight } as const;
  if (output === null) return { ...base, written: { code: EXIT.done } };
  if (drawn !== null) return { ...base, written: await writeDrawn(output, drawn) };
  if (repaired === null) return { ...base, written: { code: EXIT.done } };
  const written = await writeRepaired(input, output, repaired);
  if (written.code === EXIT.done) for (const line of describeRepair(output, report)) told(line);
  return { ...base, written };
};

/** Nobody should look for a fault in markings that are as good as they can be, where the music is at fault. */
const judgeMarkings = ({ correct, repair }: ProofReport): string => {
  if (correct) return 'the markings are right';
  return repair.edits.length > 0 ? 'the markings need fixing' : 'no change of a marking was found that helps';
};

const verdict = (report: ProofReport): string =>
  report.markings === 0
    ? `no ${report.harp} markings`
    : `${nameCount(report.markings, 'marking')}, ${nameCount(report.findings.length, 'finding')}: ${judgeMarkings(report)}`;

const describeProof = (input: string, report: ProofReport): readonly string[] => [
  ...report.findings.flatMap((finding) => describeFinding(finding).map((line) => `${input}: ${line}`)),
  `${input}: ${verdict(report)}`,
];

/** The harp of which the files without markings are, where it is one. */
const nameHarps = (incorrect: readonly ProofReport[]): string => {
  const harps = new Set(incorrect.filter(({ markings }) => markings === 0).map(({ harp }) => harp));
  return harps.size === 1 ? `${[...harps][0]} ` : '';
};

/** How many of the files need work, and which: fixing, or markings in the first place. */
const sumUp = (files: number, incorrect: readonly ProofReport[]): string => {
  const unmarked = incorrect.filter(({ markings }) => markings === 0).length;
  const faulty = incorrect.length - unmarked;
  return [
    ...(faulty > 0
      ? [`${faulty} of ${nameCount(files, 'file')} ${faulty === 1 ? 'needs' : 'need'} fixing`]
      : []),
    ...(unmarked > 0
      ? [
          `${unmarked} of ${nameCount(files, 'file')} ${unmarked === 1 ? 'has' : 'have'} no ${nameHarps(incorrect)}markings`,
        ]
      : []),
  ].join(', ');
};

/** What was changed, and what no edit could put right. */
const describeRepair = (output: string, { repair }: ProofReport): readonly string[] => [
  ...repair.edits.map(({ sentence }) => `${output}: ${sentence}`),
  `${output}: ${nameCount(repair.edits.length, 'edit')}${repair.proven ? ', proven to be the fewest' : ''}${repair.faultsLeft > 0 ? `; ${nameCount(repair.faultsLeft, 'fault')} left` : ''}`,
];

const writeRepaired = async (
  input: string,
  output: string,
  { kind, bytes }: SourceFile,
): Promise<CommandResult> => {
  if (outputKind(output) !== kind)
    return {
      code: EXIT.usage,
      message: `${input} is corrected in a file of its own kind. Use -o ${withoutExtension(output)}.${kind}.`,
    };
  if ((await findOverwrite([output], input)) !== null)
    return {
      code: EXIT.usage,
      message: `${output} is the input file, which tringle never overwrites. Choose another name with -o.`,
    };
  const ending = await writeOutput([{ path: output, content: bytes }], output);
  if (ending !== null) return ending;
  return { code: EXIT.done };
};

/** The corrected file, or a report on pages, where one is to be written. */
const extraOf = (output: string | null, { repair }: ProofChoice): ProofExtra => {
  if (repair === true) return { kind: 'source', kinds: Object.keys(SOURCE_TYPES) as SourceKind[] };
  const kind = output === null ? null : outputKind(output);
  return kind === 'pdf' || kind === 'svg' ? { kind } : { kind: 'report' };
};

const writeDrawn = async (output: string, { pages, pdf }: ProofPages): Promise<CommandResult> => {
  const ending = await writeOutput(
    pdf === null ? listPages(pages, output) : [{ path: output, content: pdf }],
    output,
  );
  if (ending !== null) return ending;
  return { code: EXIT.done };
};
