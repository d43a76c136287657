import {
  describeEasy,
  describeShare,
  describeUnplayable,
  describeVerdict,
  type FailingBars,
  GRADE_WORDS,
  type Grade,
  type HarpKind,
  type Measures,
  PRICES,
  REASONS,
} from '../../../engine/index.ts';
import { mapValues } from './phrases.ts';

export const DIFFICULTY_WORDS = {
  drawbacks: mapValues(PRICES, ({ against }) => against),
  difficulty: {
    grades: GRADE_WORDS,
    /** Where the whole has a grade that some of its bars do not have. */
    notEverywhere: (grade: string) => `${grade}, but not everywhere`,
    reasons: REASONS,
    easy: (measures: Measures, harp: HarpKind) => describeEasy(measures, harp),
    unplayable: (failing: FailingBars) => describeUnplayable(failing),
    share: (passages: number, of: number, grade: Grade) => describeShare(passages, of, grade),
    verdict: (failing: FailingBars, measures: Measures, harp: HarpKind) =>
      describeVerdict(failing, measures, harp),
  },
} as const;
