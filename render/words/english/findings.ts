import { FINDINGS, SEVERITY_WORDS } from '../../../engine/index.ts';
import { mapValues } from './phrases.ts';

export const FINDINGS_WORDS = {
  severities: mapValues(SEVERITY_WORDS, ({ name }) => name),
  /** In English the engine tells more. */
  sentences: mapValues(FINDINGS, ({ title }) => `${title}.`),
  respell: (from: string, to: string) => `Play ${from} as ${to}.`,
  omit: (note: string) => `Leave out ${note}.`,
} as const;
