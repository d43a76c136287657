import { FINDINGS } from '../findings/catalogue.ts';
import { stopPlaces } from '../findings/count-places.ts';
import { nameBarIn, nameEndsIn } from '../words/bar-names.ts';
import { hardestFirst } from './hardest-first.ts';
import { createMeasure, type MeasureSpans } from './measure.ts';
import {
  type Cause,
  type Difficulty,
  type FailingBars,
  GRADES,
  type Grade,
  type GradedMeasure,
  type Measures,
  type PassageDifficulty,
  type PlannedDifficulty,
} from './model.ts';
import { type BarSpan, findPassages } from './passages.ts';
import { FEW_CHANGES, FEW_OVERLOADED_BARS, RARE_SHARE, type Steps, THRESHOLDS } from './thresholds.ts';
import { describeCause, describeVerdict } from './words.ts';

/**
 * Says how hard a planned part is. Each measure of a passage has a grade by its thresholds, and the hardest of them is
 * that of the passage. The hardest passage is that of the part, or one below where such passages are rare. Whether all
 * can be played as printed is told beside it.
 */
export const gradePart = (planned: PlannedDifficulty): Difficulty => {
  const spans = findPassages(planned.score);
  const measure = createMeasure(planned);
  const measured = spans.map((span) => measurePassage(planned, span, measure));
  const failures = listFailures(planned);
  const passages = measured.map((each) => judgePassage(planned, each, failures));
  const measures = measure(spans);
  const failing = countFailing(failures, planned.score);
  const causes = causesOfPart(planned, measured, failing, measures);
  return {
    grade: gradeOf(passages),
    playable: failing.first === null,
    verdict: describeVerdict(failing, measures, planned.harp),
    failing,
    causes,
    reasons: reasonsOf(causes, planned),
    measures,
    passages,
  };
};

const reasonsOf = (causes: readonly Cause[], { harp }: PlannedDifficulty): readonly string[] =>
  causes.map((cause) => describeCause(cause, harp));

const rankOf = (grade: Grade): number => GRADES.indexOf(grade);

const gradeOf = (passages: readonly PassageDifficulty[]): Grade => {
  const worst = passages.reduce<Grade>((hardest, { grade }) => harder(hardest, grade), 'easy');
  const share = passages.filter(({ grade }) => grade === worst).length / passages.length;
  return share < RARE_SHARE ? GRADES[Math.max(0, rankOf(worst) - 1)]! : worst;
};

const easier = (a: Grade, b: Grade): Grade => (rankOf(b) < rankOf(a) ? b : a);

const harder = (a: Grade, b: Grade): Grade => (rankOf(b) > rankOf(a) ? b : a);

const measurePassage = (
  planned: PlannedDifficulty,
  span: BarSpan,
  measure: MeasureSpans,
): PassageDifficulty => {
  const { from, until } = span;
  const measures = measure([span]);
  const { grade, causes } = gradeMeasures(measures, planned, until - from + 1);
  return { from, until, grade, playable: true, causes, reasons: reasonsOf(causes, planned), measures };
};

/** What cannot be played is told first; how hard the rest of the passage is, after it. */
const judgePassage = (
  planned: PlannedDifficulty,
  passage: PassageDifficulty,
  failures: readonly FailingPlace[],
): PassageDifficulty => {
  const { from, until, grade, measures } = passage;
  const here = failures.filter(({ bar }) => from <= bar && bar <= until);
  const failing = countFailing(here, planned.score);
  if (failing.first === null) return passage;
  const causes: readonly Cause[] = [
    { kind: 'unplayable', failing },
    ...(grade === 'easy' ? [] : passage.causes),
  ];
  return { from, until, grade, playable: false, causes, reasons: reasonsOf(causes, planned), measures };
};

/** The hardest grade of all measures, and why: the measures that have it. */
const gradeMeasures = (
  measures: Measures,
  { harp }: PlannedDifficulty,
  bars: number,
): { readonly grade: Grade; readonly causes: readonly Cause[] } => {
  const steps = THRESHOLDS[harp];
  const { left, right } = measures.shortestSpacing;
  const overloaded = Math.max(measures.barsOverloaded.left, measures.barsOverloaded.right);
  const ofHands = gradeFrom(overloaded / bars, steps.overloaded);
  const few = measures.changes < FEW_CHANGES;
  const graded: readonly (readonly [GradedMeasure, Grade])[] = [
    ['mostInTenSeconds', gradeFrom(measures.mostInTenSeconds, steps.mostInTenSeconds)],
    [
      'shortestSpacing',
      gradeBelow(
        Math.min(left ?? Number.POSITIVE_INFINITY, right ?? Number.POSITIVE_INFINITY),
        steps.shortestSpacing,
      ),
    ],
    ['atThePluck', few ? 'easy' : gradeFrom(measures.atThePluck, steps.atThePluck)],
    ['stringsBent', gradeFrom(measures.stringsBent, steps.stringsBent)],
    ['barsOverloaded', overloaded <= FEW_OVERLOADED_BARS ? easier(ofHands, 'moderate') : ofHands],
    ['feetTogether', gradeFrom(measures.feetTogether, steps.feetTogether)],
    ['notesPerSecond', gradeFrom(measures.notesPerSecond, steps.notesPerSecond)],
  ];
  const grade = graded.reduce<Grade>((worst, [, each]) => harder(worst, each), 'easy');
  if (grade === 'easy') return { grade, causes: [{ kind: 'easy', measures }] };
  const causes = graded
    .filter(([, each]) => each === grade)
    .map(([name]): Cause => ({ kind: 'measure', name, measures, bars: null }));
  return { grade, causes };
};

const gradeFrom = (value: number, steps: Steps): Grade =>
  GRADES[steps.filter((step) => value >= step).length]!;

const gradeBelow = (value: number, steps: Steps): Grade =>
  GRADES[steps.filter((step) => value < step).length]!;

/** A place that cannot be played, by what fails there. */
interface FailingPlace {
  readonly bar: number;
  readonly by: 'feet' | 'hands' | 'strings';
}

const listFailures = ({ findings }: PlannedDifficulty): readonly FailingPlace[] =>
  stopPlaces(findings).map(({ finding: { code }, place: { bar } }) => ({
    bar,
    by: FINDINGS[code].failsBy!,
  }));

const countFailing = (failures: readonly FailingPlace[], score: PlannedDifficulty['score']): FailingBars => {
  const barsBy = (what: FailingPlace['by']): number =>
    new Set(failures.filter(({ by }) => by === what).map(({ bar }) => bar)).size;
  return {
    feet: barsBy('feet'),
    hands: barsBy('hands'),
    strings: barsBy('strings'),
    first: failures.length === 0 ? null : nameBarIn(score)(Math.min(...failures.map(({ bar }) => bar))),
  };
};

/**
 * What cannot be played, and why the hardest passage is so, with its place.
 *
 * @param measured by their measures alone: one with a place that cannot be played may be the hardest to play otherwise
 */
const causesOfPart = (
  { score }: PlannedDifficulty,
  measured: readonly PassageDifficulty[],
  failing: FailingBars,
  measures: Measures,
): readonly Cause[] => {
  const [worst] = measured.toSorted(hardestFirst);
  const placed = worst === undefined || worst.grade === 'easy' ? [] : causesOfHardest(worst, measured, score);
  if (failing.first !== null) return [{ kind: 'unplayable', failing }, ...placed];
  return placed.length === 0 ? [{ kind: 'easy', measures }] : placed;
};

const causesOfHardest = (
  { from, until, grade, causes }: PassageDifficulty,
  measured: readonly PassageDifficulty[],
  score: PlannedDifficulty['score'],
): readonly Cause[] => {
  const passages = measured.filter((each) => each.grade === grade).length;
  const [first, last] = nameEndsIn(score)(from, until);
  return [
    { kind: 'share', passages, of: measured.length, grade },
    ...causes.map(
      (cause): Cause => (cause.kind === 'measure' ? { ...cause, bars: { from: first, until: last } } : cause),
    ),
  ];
};
