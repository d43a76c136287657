import { DECISION_LISTS, pickChoice, type Score } from '../../../../engine/index.ts';
import {
  type Annotation,
  ENGRAVING_CATALOGUE,
  type EngravingChoice,
  type SourceKind,
} from '../../../../render/index.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import type { PlannedScore } from '../plan-score.ts';
import type { SourceFile } from '../source-file.ts';

/** What an annotated score is wanted as. */
export type Target =
  | { readonly kind: 'pdf' | 'svg' | 'plan' }
  | { readonly kind: 'source'; readonly kinds: readonly SourceKind[] };

/** An annotated score; `source` holds the user's own file with markings in it, where that was wanted. */
export interface Annotated {
  readonly annotation: Annotation;
  /** The score as it was planned. */
  readonly score: Score;
  readonly source: SourceFile | null;
  /** The movements behind the first, where all of a file are printed. */
  readonly others: readonly Annotation[];
}

/** How the pages of a plan look. */
export const engravingFor = (choice: AnnotateChoice, { decisions }: PlannedScore): EngravingChoice => ({
  ...pickChoice(ENGRAVING_CATALOGUE, choice),
  fullSettings: decisions.placed.fullSettings,
  cueParts: decisions.placed.cueParts,
});

/** What was chosen, without the decisions: these are about one harp and one movement. */
export const withoutDecisions = (choice: AnnotateChoice): AnnotateChoice => {
  const left: Partial<AnnotateChoice> = { ...choice };
  for (const list of DECISION_LISTS) delete left[list];
  return left;
};
