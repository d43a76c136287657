import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'Non suonabile', warn: 'Attenzione', note: 'Nota' },
  unplayable: 'Non suonabile com’è stampato',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  respell: (from, to) => `Suonare ${from} come ${to}.`,
  omit: (note) => `Omettere ${note}.`,
};
