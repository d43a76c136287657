import { FINDINGS, SEVERITY_WORDS } from '../../../engine/index.ts';
import type { FindingSentences, PassageSentences } from '../finding-words.ts';
import { mapValues } from './phrases.ts';

export const FINDINGS_WORDS = {
  severities: mapValues(SEVERITY_WORDS, ({ name }) => name),
  unplayable: 'Not playable as printed',
  // The engine’s own words.
  sentences: mapValues(FINDINGS, ({ sentence }) => sentence) as unknown as FindingSentences,
  passages: mapValues(FINDINGS, ({ passage }) => passage) as unknown as PassageSentences,
  respell: (from: string, to: string) => `Play ${from} as ${to}.`,
  omit: (note: string) => `Leave out ${note}.`,
} as const;
