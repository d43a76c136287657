import {
  ADVICE_SENTENCES,
  ENGLISH_FIXES,
  ENGLISH_LEVER_FIXES,
  FINDINGS,
  type FixSentences,
  type LeverFixSentences,
} from '../../../engine/index.ts';
import type { AdviceSentences, ProofSentences } from '../finding-words.ts';
import { mapValues } from './phrases.ts';

export const PROOF_WORDS = {
  nothing: 'Nothing is wrong',
  faults: 'Faults, and how to put them right',
  edits: 'All edits together',
  inFile: 'In the file',
  right: {
    pedal: 'Every note finds its pedal, and the feet have time.',
    lever: 'Every note finds its lever, and a hand has time for each change.',
  },
  // The engine’s own words.
  sentences: mapValues(FINDINGS, ({ sentence }) => sentence) as unknown as ProofSentences,
  advice: ADVICE_SENTENCES as AdviceSentences,
  fixes: ENGLISH_FIXES as FixSentences,
  leverFixes: ENGLISH_LEVER_FIXES as LeverFixSentences,
} as const;
