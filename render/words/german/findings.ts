import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';
import { HELP_SENTENCES } from './help-sentences.ts';
import { count } from './phrases.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'Nicht spielbar', warn: 'Warnung', note: 'Hinweis' },
  unplayable: 'Nicht spielbar, wie es gedruckt ist',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  help: HELP_SENTENCES,
  oneIsEnough: 'Eines davon genügt:',
  oneForEachPlace: 'Für jede Stelle genügt eines:',
  moreRemedies: (more) => `und ${more} weitere.`,
  markingsMadeWay: (markings) =>
    `Auf den Seiten ${markings === 1 ? 'ist' : 'sind'} ${count(markings, 'Pedalangabe', 'Pedalangaben')} der Datei durch die von tringle ersetzt.`,
  withoutOtherFixes: (fix) => `Ohne die anderen Änderungen: ${fix}`,
  moreMoves: (moves) => `kostet höchstens ${count(moves, 'Wechsel', 'Wechsel')} mehr`,
  fewerMoves: (moves) => `spart mindestens ${count(moves, 'Wechsel', 'Wechsel')}`,
};
