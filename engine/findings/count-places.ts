import type { Severity } from './severity.ts';

/** How many places findings of a severity tell of, wherever places are counted: a passage has several. */
export const countPlaces = (
  findings: readonly { readonly severity: string; readonly places: readonly unknown[] }[],
  severity: Severity,
): number => findings.reduce((sum, each) => sum + (each.severity === severity ? each.places.length : 0), 0);
