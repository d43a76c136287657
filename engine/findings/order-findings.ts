import { compare } from '../music/rational.ts';
import type { FindingCode } from './catalogue.ts';
import type { Finding } from './model.ts';
import { SEVERITIES } from './severity.ts';

/** Findings in order of their first place; at one place as they were given. */
export const orderByPlace = <Told extends Pick<Finding<FindingCode>, 'bar' | 'beat'>>(
  findings: readonly Told[],
): Told[] => findings.toSorted((a, b) => a.bar - b.bar || compare(a.beat, b.beat));

/** Findings as people read them, the gravest first and then by place, each with its index in the order of the data. */
export const orderForPeople = <Told extends Pick<Finding<FindingCode>, 'severity'>>(
  findings: readonly Told[],
): readonly { readonly finding: Told; readonly at: number }[] =>
  findings
    .map((finding, at) => ({ finding, at }))
    .sort(
      (a, b) =>
        SEVERITIES.indexOf(a.finding.severity) - SEVERITIES.indexOf(b.finding.severity) || a.at - b.at,
    );
