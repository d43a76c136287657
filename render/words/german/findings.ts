import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'Nicht spielbar', warn: 'Warnung', note: 'Hinweis' },
  unplayable: 'Nicht spielbar, wie es gedruckt ist',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  respell: (from, to) => `${from} als ${to} spielen.`,
  omit: (note) => `${note} weglassen.`,
};
