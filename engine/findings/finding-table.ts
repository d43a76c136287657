import { namesIn } from '../non-empty.ts';
import {
  FINDINGS,
  type FindingCode,
  LEVER_FINDING_CODES,
  PEDAL_FINDING_CODES,
  PROOF_FINDING_CODES,
} from './catalogue.ts';
import type { Severity } from './severity.ts';

/** One kind of finding, as the documentation tells of it. */
export interface FindingRow {
  readonly code: FindingCode;
  readonly severity: Severity;
  /** Which reports can hold it. */
  readonly reports: readonly string[];
  readonly title: string;
  readonly when: string;
}

const REPORTS: readonly (readonly [name: string, codes: readonly FindingCode[]])[] = [
  ['pedal plan', PEDAL_FINDING_CODES],
  ['lever plan', LEVER_FINDING_CODES],
  ['proof', PROOF_FINDING_CODES],
];

/** All kinds of findings in the order of the catalogue. */
export const listFindingRows = (): readonly FindingRow[] =>
  namesIn(FINDINGS).map((code) => {
    const { severity, title, when } = FINDINGS[code];
    const reports = REPORTS.filter(([, codes]) => codes.includes(code)).map(([name]) => name);
    return { code, severity, reports, title, when };
  });
