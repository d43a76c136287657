import type { ProofFinding, Repair } from '../../../engine/proof/model.ts';

/** Whether any finding but a mere note advises what is no part of the repair. */
export const isAdviceElsewhere = (findings: readonly ProofFinding[], { edits }: Repair): boolean => {
  const made = new Set(edits.flatMap(({ fixes }) => fixes));
  return findings
    .filter(({ severity }) => severity !== 'note')
    .flatMap(({ fix, furtherFixes }) => [...(fix === null ? [] : [fix]), ...furtherFixes])
    .some((fix) => !made.has(fix));
};
