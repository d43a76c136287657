import { problemMessage, type Remark, remarkOnAll, type Score } from '../../../../engine/index.ts';
import type { Annotation, Annotator } from '../../../../render/index.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import { fail, type Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import { type PlannedScore, planScore } from '../plan-score.ts';
import type { StageClock } from '../stage-clock.ts';
import { type Annotated, engravingFor, withoutDecisions } from './annotated.ts';
import { checkAllDrawable } from './engrave-parts.ts';

/** Each movement is read out of the whole file. */
const MOST_MOVEMENTS = 50;

/** How many movements the file of a score has. */
export const countMovements = ({ source }: Score): number => (source.movement?.others.length ?? 0) + 1;

/**
 * Prints every movement of a file, one after the other: each is planned by itself, with its own opening setting. A movement in
 * which the part has nothing is left out, with a remark.
 *
 * @param first the first movement, planned; decisions of the request are about it
 * @returns the first movement with the PDF of all
 */
export const annotateMovements = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  first: PlannedScore,
  annotator: Pick<Annotator, 'engraveMovements'>,
  clock: StageClock,
): Promise<Outcome<Annotated>> => {
  const found = countMovements(first.score);
  if (found > MOST_MOVEMENTS)
    return fail({ code: 'limit-exceeded', what: 'movements', limit: MOST_MOVEMENTS, found });
  const planned: PlannedScore[] = [ofAll(first)];
  const left: Remark[] = [];
  for (let number = 2; number <= found; number += 1) {
    const each = await planScore(file, { ...withoutDecisions(choice), movement: `${number}` }, clock);
    if (each.ok) planned.push(ofAll(each.value));
    else if (each.problem.code === 'no-notes' || each.problem.code === 'harp-not-found')
      left.push(leftOut(number, problemMessage(each.problem)));
    else return each;
  }
  const drawable = checkAllDrawable(planned);
  if (!drawable.ok) return drawable;
  clock.begin(
    'engrave',
    planned.reduce((sum, { score }) => sum + score.bars.length, 0),
  );
  const printed = await annotator.engraveMovements(
    planned.map((each) => ({ score: each.score, plan: each.plan, choice: engravingFor(choice, each) })),
  );
  if (!printed.ok) return printed;
  const [own, ...others] = printed.value.movements.map(withTitle);
  const annotation = { ...own!, pdf: printed.value.pdf, remarks: [...left, ...own!.remarks] };
  return { ok: true, value: { annotation, score: first.score, source: null, others } };
};

/** All are read: none has to be chosen. */
const ofAll = (planned: PlannedScore): PlannedScore => ({
  ...planned,
  score: {
    ...planned.score,
    remarks: planned.score.remarks.filter(({ code }) => code !== 'movement-chosen'),
  },
});

const leftOut = (number: number, why: string): Remark =>
  remarkOnAll('movement-chosen', `Movement ${number} is not printed: ${why}`);

/** How a movement is called. @param index from 0, among those that are printed */
export const nameMovement = ({ titles }: Annotation, index: number): string =>
  titles.subtitle || `Movement ${index + 1}`;

/** What is told of a movement begins with its name. */
const withTitle = (annotation: Annotation, index: number): Annotation => {
  const name = nameMovement(annotation, index);
  const remarks = annotation.remarks.map((each) => ({ ...each, message: `${name}: ${each.message}` }));
  return { ...annotation, remarks };
};
