import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'No se puede tocar', warn: 'Atención', note: 'Nota' },
  unplayable: 'No se puede tocar como está impreso',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  respell: (from, to) => `Tocar ${from} como ${to}.`,
  omit: (note) => `Omitir ${note}.`,
};
