import { GRADES } from '../../engine/difficulty/model.ts';
import { GRADE_WORDS } from '../../engine/difficulty/words.ts';
import type { Plan } from '../../engine/pedals/model.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { openScoreFile } from '../../engine/score/open-file.ts';
import { HARP_SCORES, readScoreFile } from './harp-scores.ts';

interface GradedScore {
  readonly file: string;
  readonly role: 'harp' | 'proxy' | 'tune';
  readonly part?: string;
  readonly tune?: string;
}

/** Parts for keyboards, and tunes as the pedal harp plays them, without moves and with many. */
const OTHERS: readonly GradedScore[] = [
  { file: 'mx/Bombe.xml', role: 'proxy', part: 'Piano' },
  { file: 'mx/freezing.xml', role: 'proxy', part: 'Celesta RH' },
  { file: "openscore-orchestra/D'un_matin_de_printemps.mxl", role: 'proxy', part: 'Celesta' },
  { file: 'libmusicxml/OrganExample2.xml', role: 'proxy', part: 'Pipe Organ' },
  { file: 'tunes/waltzes.abc', role: 'tune', tune: '19' },
  { file: 'tunes/waltzes.abc', role: 'tune', tune: '20' },
  { file: 'tunes/waltzes.abc', role: 'tune', tune: '35' },
  { file: 'tunes/waltzes.abc', role: 'tune', tune: '39' },
  { file: 'tunes/ashover.abc', role: 'tune', tune: '7' },
  { file: 'tunes/ashover.abc', role: 'tune', tune: '9' },
  { file: 'tunes/ashover.abc', role: 'tune', tune: '10' },
  { file: 'tunes/ashover.abc', role: 'tune', tune: '42' },
  { file: 'tunes/slip.abc', role: 'tune', tune: '6' },
];

const GRADED: readonly GradedScore[] = [...HARP_SCORES, ...OTHERS];

/** A real part and how hard the engine says it is. */
export interface GradedRow {
  readonly name: string;
  readonly role: GradedScore['role'];
  readonly plan: Plan;
}

/** Grades every piece; the easiest first, of one grade those with fewer moves a minute. */
export const gradeAll = async (): Promise<readonly GradedRow[]> => {
  const rows: GradedRow[] = [];
  for (const graded of GRADED) rows.push(await gradeOne(graded));
  return rows.toSorted(
    ({ plan: { summary: a } }, { plan: { summary: b } }) =>
      GRADES.indexOf(a.difficulty.grade) - GRADES.indexOf(b.difficulty.grade) ||
      a.difficulty.measures.changesPerMinute - b.difficulty.measures.changesPerMinute,
  );
};

const gradeOne = async ({ file, role, part, tune }: GradedScore): Promise<GradedRow> => {
  const opened = await openScoreFile(readScoreFile(file), {
    ...(part === undefined ? {} : { part }),
    ...(tune === undefined ? {} : { tune }),
  });
  if (!opened.ok) throw new Error(`${file}: ${opened.problem.code}`);
  const score = opened.value;
  const name = `${file}, ${tune === undefined ? score.harp.name.replace(/\s+/g, ' ') : `${tune} ${score.titles.title}`}`;
  return { name, role, plan: planPedals(score) };
};

const seconds = (gap: number | null): string => (gap === null ? '–' : gap.toFixed(2));

/** Places with a note that no pedal serves, or a move for which the foot has no time. */
const countUnplayable = ({ findings }: Plan): number =>
  findings.filter(({ severity }) => severity === 'stop').reduce((sum, { places }) => sum + places.length, 0);

const rowOf = ({ name, role, plan }: GradedRow): string => {
  const { difficulty, moves } = plan.summary;
  const { grade, measures, passages, reasons } = difficulty;
  const ofGrade = GRADES.map((each) => passages.filter((passage) => passage.grade === each).length);
  return `| ${[
    name,
    role,
    GRADE_WORDS[grade],
    ofGrade.join(' '),
    moves,
    measures.changesPerMinute.toFixed(1),
    `${seconds(measures.shortestSpacing.left)} / ${seconds(measures.shortestSpacing.right)}`,
    countUnplayable(plan),
    reasons.join(' '),
  ].join(' | ')} |`;
};

const HEADINGS =
  'file, part or tune | role | grade | passages of each grade, the easy first | moves | a minute | shortest spacing in s, left / right | places that cannot be played | why';

/** The table as Markdown. */
export const writeDifficultyTable = (rows: readonly GradedRow[]): string =>
  [
    '# How hard real pieces are',
    '',
    'Written by `npx tsx test/corpus/write-difficulty-table.ts`, the easiest first, of one grade those with fewer moves a',
    'minute; as written, for the pedal harp. No scale of difficulty for pedals is published: grades and limits are our own.',
    '',
    `| ${HEADINGS} |`,
    `|${' --- |'.repeat(HEADINGS.split(' | ').length)}`,
    ...rows.map(rowOf),
    '',
  ].join('\n');
