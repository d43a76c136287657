import { SEVERITY_WORDS, type Severity } from '../../engine/index.ts';

/** As a line begins that tells a finding. */
export const nameSeverity = (severity: Severity): string => SEVERITY_WORDS[severity].name.toLowerCase();
