import type { FactsOf, ProofFindingCode } from '../findings/catalogue.ts';
import { describeFinding } from '../findings/describe-finding.ts';
import type { Finding } from '../findings/model.ts';
import type { Rational } from '../music/rational.ts';
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
export interface ProofContext<Fix> {
  readonly needs?: readonly Need[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  /** Made together; none where nothing fixes it. */
  readonly fixes: readonly Fix[];
  readonly advice?: readonly Advice[];
}

/** Describes findings about markings whose fixes are told by a function. */
export const describingWith =
  <Fix>(describeFixes: (score: Score, fixes: readonly Fix[]) => string) =>
  <Code extends ProofFindingCode>(
    score: Score,
    code: Code,
    facts: FactsOf<Code>,
    { needs = [], place, fixes, advice = [] }: ProofContext<Fix>,
  ): FindingOfMarkings<Fix> => {
    const [fix = null, ...furtherFixes] = fixes;
    const {
      fixes: _,
      help: __,
      ...finding
    } = describeFinding(score, code, facts, {
      notes: needs.map(({ note }) => note),
      ...(place === undefined ? {} : { place }),
    });
    const edits = fixes.length === 0 ? [] : [describeFixes(score, fixes)];
    return { ...finding, fix, furtherFixes, advice, suggestions: [...edits, ...advice.map(describeAdvice)] };
  };
