import type { FactsOf, ProofFindingCode } from '../findings/catalogue.ts';
import { describeFinding, type FindingAt, type PlaceAt } from '../findings/describe-finding.ts';
import type { Finding } from '../findings/model.ts';
import { mapNonEmpty, type NonEmpty } from '../non-empty.ts';
import type { Score } from '../score/model/score.ts';
import type { Need } from '../sounding/needs.ts';
import { type Advice, describeAdvice } from './advice.ts';

/** One thing that is wrong or worth knowing about the markings in a file, with the changes of them that fix it. */
export interface FindingOfMarkings<Fix> extends Omit<Finding<ProofFindingCode>, 'fixes' | 'help'> {
  /** Null where no change of a marking fixes it, or nothing needs fixing. */
  readonly fix: Fix | null;
  /** Changes to make with `fix`: all together they leave no new fault. */
  readonly furtherFixes: readonly Fix[];
  /** What would help beside them; told among the suggestions. */
  readonly advice: readonly Advice[];
}

/** Where a finding is, and how to fix it. */
export type ProofContext<Fix> = ProofAt & ProofHelp<Fix>;

/** Where nothing else is said, at the first of the needs. */
type ProofAt =
  | { readonly needs: NonEmpty<Need>; readonly place?: never }
  | { readonly needs?: readonly Need[]; readonly place: PlaceAt | 'start' };

interface ProofHelp<Fix> {
  /** Made together; none where nothing fixes it. */
  readonly fixes: readonly Fix[];
  readonly advice?: readonly Advice[];
}

const atNotes = (where: ProofAt): FindingAt =>
  where.place === undefined
    ? { notes: mapNonEmpty(where.needs, ({ note }) => note) }
    : { notes: (where.needs ?? []).map(({ note }) => note), place: where.place };

/** Describes findings about markings whose fixes are told by a function. */
export const describingWith =
  <Fix>(describeFixes: (score: Score, fixes: readonly Fix[]) => string) =>
  <Code extends ProofFindingCode>(
    score: Score,
    code: Code,
    facts: FactsOf<Code>,
    { fixes, advice = [], ...where }: ProofContext<Fix>,
  ): FindingOfMarkings<Fix> => {
    const [fix = null, ...furtherFixes] = fixes;
    const described: Finding<ProofFindingCode> = describeFinding(score, code, facts, atNotes(where));
    const { fixes: _, help: __, ...finding } = described;
    const edits = fixes.length === 0 ? [] : [describeFixes(score, fixes)];
    return { ...finding, fix, furtherFixes, advice, suggestions: [...edits, ...advice.map(describeAdvice)] };
  };
