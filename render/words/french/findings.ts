import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'Injouable', warn: 'Attention', note: 'Remarque' },
  unplayable: 'Injouable tel que c’est imprimé',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  respell: (from, to) => `Jouer ${from} comme ${to}.`,
  omit: (note) => `Omettre ${note}.`,
};
