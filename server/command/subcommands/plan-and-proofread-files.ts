import { nameCount } from '../../../engine/index.ts';
import type { ProofPages } from '../../../render/index.ts';
import { SOURCE_TYPES, type SourceKind } from '../../../render/pure.ts';
import { glissandoOptions } from '../../api/answers/glissandi.ts';
import type { ProofReport } from '../../api/answers/proof-report.ts';
import { type ProofChoice, planOptions, proofOptions } from '../../api/requests/options.ts';
import { anyProblemMessage, type Outcome } from '../../service-problem.ts';
import { computeGlissandi, computePlan, computeProof, type ProofExtra } from '../../threads/tasks/compute.ts';
import type { SourceFile } from '../../threads/tasks/source-file.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readChoice, readScoreFile } from '../arguments/choice.ts';
import type { GlissandiCommand, PlanCommand, ProofCommand } from '../arguments/commands.ts';
import { describeFinding, describePlan } from '../describe-plan.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { findOverwrite, listPages, outputKind, withoutExtension } from '../output-files.ts';
import { EVERY_ROOT, oneLine, tabulate } from '../summary.ts';
import { writeOutput } from '../write-output.ts';

type Print = (line: string) => void;

const printJson = (value: unknown, print: Print): void => print(JSON.stringify(value, null, 2));

const refused = (input: string, outcome: Extract<Outcome<never>, { ok: false }>): CommandResult =>
  resultOfProblem(input, outcome.problem);

/** Plans one file and prints the plan. */
export const planFile = async (command: PlanCommand, print: Print): Promise<CommandResult> => {
  const choice = await readChoice(planOptions, command.options);
  if (!choice.ok) return choice.ending;
  const read = await readScoreFile(command.input);
  if (!read.ok) return read.ending;
  const planned = await computePlan(read.value, choice.value, startStageClock(IGNORE_PROGRESS));
  if (!planned.ok) return refused(command.input, planned);
  if (command.json) printJson(planned.value, print);
  else for (const line of describePlan(planned.value)) print(line);
  return { code: EXIT.done };
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

/** Proofreads files; the worst of them decides how the command ends. */
export const proofFiles = async (command: ProofCommand, print: Print): Promise<CommandResult> => {
  const choice = await readChoice(proofOptions, command.options);
  if (!choice.ok) return choice.ending;
  const reports: unknown[] = [];
  const incorrect: ProofReport[] = [];
  let failed: CommandResult = { code: EXIT.done };
  for (const input of command.inputs) {
    const read = await readScoreFile(input);
    const proofed = read.ok
      ? await computeProof(
          read.value,
          choice.value,
          startStageClock(IGNORE_PROGRESS),
          extraOf(command, choice.value),
        )
      : null;
    const ending = !read.ok ? read.ending : !proofed!.ok ? refused(input, proofed!) : null;
    if (ending !== null && ending.code !== EXIT.done) {
      if (failed.code === EXIT.done) failed = ending;
      reports.push({ file: input, problem: ending.message });
      if (!command.json && command.inputs.length > 1) print(oneLine(ending.message));
      continue;
    }
    if (!proofed?.ok) continue;
    const { report, repaired, drawn } = proofed.value;
    reports.push({ file: input, ...report });
    if (!command.json) for (const line of describeProof(input, report)) print(oneLine(line));
    if (repaired !== null && command.output !== null) {
      const written = await writeRepaired(input, command.output, repaired);
      if (written.code !== EXIT.done) return written;
      if (!command.json) for (const line of describeRepair(command.output, report)) print(oneLine(line));
    }
    if (drawn !== null && command.output !== null) {
      const written = await writeDrawn(command.output, drawn);
      if (written.code !== EXIT.done) return written;
    }
    const isRight = repaired === null ? report.correct : report.repair.faultsLeft === 0;
    if (!isRight) incorrect.push(report);
  }
  if (command.json) printJson(reports, print);
  if (failed.code !== EXIT.done) return failed;
  return incorrect.length === 0
    ? { code: EXIT.done }
    : { code: EXIT.incorrect, message: sumUp(command.inputs.length, incorrect) };
};

/** The corrected file, or a report on pages, where one is to be written. */
const extraOf = ({ output }: ProofCommand, { repair }: ProofChoice): ProofExtra => {
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

const MOST_SHOWN = 12;

/** Prints settings for a glissando. */
export const findGlissando = async (command: GlissandiCommand, print: Print): Promise<CommandResult> => {
  const choice = await readChoice(glissandoOptions, command.options);
  if (!choice.ok) return choice.ending;
  const found = computeGlissandi(choice.value);
  if (!found.ok) return { code: EXIT.usage, message: anyProblemMessage(found.problem) };
  if (command.json) {
    printJson(found.value, print);
    return { code: EXIT.done };
  }
  const { sound, notes, exact, nearest } = found.value;
  const shown = exact.length > 0 ? exact : nearest;
  const onAnyRoot = notes.length === 0;
  print(`${oneLine(sound)}: ${onAnyRoot ? EVERY_ROOT : notes.join(' ')}`);
  print(
    exact.length > 0
      ? `Settings that give exactly this sound: ${exact.length}`
      : 'No setting gives exactly this sound. The closest are:',
  );
  const rows = shown
    .slice(0, MOST_SHOWN)
    .map(({ sound: onRoot, setting, moves, doubled, outOfOrder, missing, foreign }) => [
      onRoot,
      setting,
      choice.value.from === undefined ? '' : `${moves}`,
      doubled.map((pair) => pair.join('=')).join(' '),
      outOfOrder ? 'yes' : '',
      missing.join(' '),
      foreign.join(' '),
    ]);
  const heads = ['sound', 'setting', 'moves', 'same pitch', 'out of order', 'missing', 'foreign'];
  const first = onAnyRoot ? 0 : 1;
  const columns = exact.length > 0 ? 5 : heads.length;
  for (const line of tabulate(
    heads.slice(first, columns),
    rows.map((row) => row.slice(first, columns)),
  ))
    print(line);
  if (shown.length > MOST_SHOWN) print(`and ${shown.length - MOST_SHOWN} more (--json lists all)`);
  return { code: EXIT.done };
};
