/**
 * Writes `plans.md`: what the planner makes of each real score of harp writing or harp-like piano writing.
 * Run: npx tsx test/corpus/write-plan-table.ts
 */
import { writeFileSync } from 'node:fs';
import type { Plan } from '../../engine/pedals/model.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { openScore } from '../../engine/score/open.ts';
import { HARP_SCORES, type HarpScore, hasScores, readScoreFile } from './harp-scores.ts';

const HEADINGS =
  'file | role | part | bars | notes | moves | least as written | stop | warn | note | reading ms | planning ms';

const count = (plan: Plan, severity: string): number =>
  plan.findings
    .filter((finding) => finding.severity === severity)
    .reduce((sum, { places }) => sum + places.length, 0);

/** In milliseconds: other programs on the machine hardly touch it. */
const processorTime = (): number => process.cpuUsage().user / 1000;

const rowOf = ({ file, role, part }: HarpScore): string => {
  const bytes = readScoreFile(file);
  const start = processorTime();
  const opened = openScore(bytes, part === undefined ? {} : { part });
  const read = processorTime();
  if (!opened.ok) return `${file} | ${role} | ${opened.problem.code}`;
  const score = opened.value;
  const plan = planPedals(score);
  const planned = processorTime();
  return [
    file,
    role,
    score.harp.name.replace(/\s+/g, ' '),
    score.bars.length,
    score.notes.length,
    plan.summary.moves,
    plan.summary.minMoves,
    count(plan, 'stop'),
    count(plan, 'warn'),
    count(plan, 'note'),
    Math.round(read - start),
    Math.round(planned - read),
  ].join(' | ');
};

const writeTable = (): void => {
  const rows = HARP_SCORES.map((score) => `| ${rowOf(score)} |`);
  const rule = `|${' --- |'.repeat(HEADINGS.split('|').length)}`;
  const text = [
    '# Plans of real scores',
    '',
    'Written by `npx tsx test/corpus/write-plan-table.ts`. Stop, warn and note count places: a passage in which the feet have to hurry counts each of its moves. Times are processor time of one cold run on one machine.',
    '',
    `| ${HEADINGS} |`,
    rule,
    ...rows,
    '',
  ].join('\n');
  writeFileSync(new URL('./plans.md', import.meta.url), text);
  console.log(text);
};

if (hasScores) writeTable();
else console.log('../shared/scores is absent: nothing to tabulate');
