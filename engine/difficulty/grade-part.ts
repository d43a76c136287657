import type { FindingCode } from '../findings/catalogue.ts';
import { nameBars } from '../words/bars.ts';
import { capitalize } from '../words/counts.ts';
import { createMeasure, type MeasureSpans } from './measure.ts';
import {
  type Difficulty,
  GRADES,
  type Grade,
  type Measures,
  type PassageDifficulty,
  type PlannedDifficulty,
} from './model.ts';
import { type BarSpan, findPassages } from './passages.ts';
import { FEW_CHANGES, FEW_OVERLOADED_BARS, RARE_SHARE, type Steps, THRESHOLDS } from './thresholds.ts';
import {
  describeEasy,
  describeShare,
  describeUnplayable,
  describeVerdict,
  type FailingBars,
  REASONS,
} from './words.ts';

/**
 * Says how hard a planned part is. Each measure of a passage has a grade by its thresholds, and the hardest of them is
 * that of the passage. The hardest passage is that of the part, or one below where such passages are rare. What has a
 * place that cannot be played as printed is not playable, whatever its measures.
 */
export const gradePart = (planned: PlannedDifficulty): Difficulty => {
  const spans = findPassages(planned.score);
  const measure = createMeasure(planned);
  const passages = spans.map((span) => gradePassage(planned, span, measure));
  const measures = measure(spans);
  const failing = failingBars(planned, () => true);
  return {
    grade: failing.first === null ? gradeOf(passages) : 'not-playable',
    verdict: describeVerdict(failing, measures, planned.harp),
    reasons: reasonsOfPart(planned, passages, failing, measures),
    measures,
    passages,
  };
};

const rankOf = (grade: Grade): number => GRADES.indexOf(grade);

const gradeOf = (passages: readonly PassageDifficulty[]): Grade => {
  const worst = passages.reduce<Grade>((hardest, { grade }) => harder(hardest, grade), 'easy');
  const share = passages.filter(({ grade }) => grade === worst).length / passages.length;
  return share < RARE_SHARE ? GRADES[Math.max(0, rankOf(worst) - 1)]! : worst;
};

const easier = (a: Grade, b: Grade): Grade => (rankOf(b) < rankOf(a) ? b : a);

const harder = (a: Grade, b: Grade): Grade => (rankOf(b) > rankOf(a) ? b : a);

const gradePassage = (
  planned: PlannedDifficulty,
  span: BarSpan,
  measure: MeasureSpans,
): PassageDifficulty => {
  const measures = measure([span]);
  const failing = failingBars(planned, (bar) => span.from <= bar && bar <= span.until);
  const { grade, reasons } = gradeMeasures(measures, planned, span.until - span.from + 1);
  return failing.first === null
    ? { ...span, grade, reasons, measures }
    : { ...span, grade: 'not-playable', reasons: [describeUnplayable(failing)], measures };
};

/** The hardest grade of all measures, and why: the measures that have it. */
const gradeMeasures = (
  measures: Measures,
  { harp }: PlannedDifficulty,
  bars: number,
): { readonly grade: Grade; readonly reasons: readonly string[] } => {
  const steps = THRESHOLDS[harp];
  const { left, right } = measures.shortestSpacing;
  const overloaded = Math.max(measures.barsOverloaded.left, measures.barsOverloaded.right);
  const ofHands = gradeFrom(overloaded / bars, steps.overloaded);
  const few = measures.changes < FEW_CHANGES;
  const graded: readonly (readonly [keyof typeof REASONS, Grade])[] = [
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
  if (grade === 'easy') return { grade, reasons: [describeEasy(measures, harp)] };
  const reasons = graded.filter(([, each]) => each === grade).map(([name]) => REASONS[name](measures, harp));
  return { grade, reasons };
};

const gradeFrom = (value: number, steps: Steps): Grade =>
  GRADES[steps.filter((step) => value >= step).length]!;

const gradeBelow = (value: number, steps: Steps): Grade =>
  GRADES[steps.filter((step) => value < step).length]!;

const OF_FEET: readonly FindingCode[] = ['foot-too-busy'];
const OF_HANDS: readonly FindingCode[] = ['hand-too-busy', 'no-free-hand'];

const failingBars = (
  { findings, score }: PlannedDifficulty,
  isInside: (bar: number) => boolean,
): FailingBars => {
  const stops = findings.filter(({ severity }) => severity === 'stop');
  const barsOf = (isMeant: (code: FindingCode) => boolean): ReadonlySet<number> =>
    new Set(
      stops
        .filter(({ code }) => isMeant(code))
        .flatMap(({ places }) => places.map(({ bar }) => bar))
        .filter(isInside),
    );
  const all = barsOf(() => true);
  return {
    feet: barsOf((code) => OF_FEET.includes(code)).size,
    hands: barsOf((code) => OF_HANDS.includes(code)).size,
    strings: barsOf((code) => !OF_FEET.includes(code) && !OF_HANDS.includes(code)).size,
    first: all.size === 0 ? null : score.bars[Math.min(...all)]!.number,
  };
};

/** What cannot be played, and why the hardest of all that can be is so, with its place. */
const reasonsOfPart = (
  { score, harp }: PlannedDifficulty,
  passages: readonly PassageDifficulty[],
  failing: FailingBars,
  measures: Measures,
): readonly string[] => {
  const playable = passages.filter(({ grade }) => grade !== 'not-playable');
  const worst = playable.reduce<PassageDifficulty | null>(
    (hardest, each) => (hardest === null || rankOf(each.grade) > rankOf(hardest.grade) ? each : hardest),
    null,
  );
  const placed =
    worst === null || worst.grade === 'easy'
      ? []
      : [
          describeShare(
            passages.filter(({ grade }) => grade === worst.grade).length,
            passages.length,
            worst.grade,
          ),
          ...worst.reasons.map((reason) => `${barsOf(score, worst)}: ${reason}`),
        ];
  if (failing.first !== null) return [describeUnplayable(failing), ...placed];
  return placed.length === 0 ? [describeEasy(measures, harp)] : placed;
};

const barsOf = ({ bars }: PlannedDifficulty['score'], { from, until }: BarSpan): string =>
  capitalize(nameBars(bars[from]!.number, bars[until]!.number));
