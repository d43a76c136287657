import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';
import { HELP_SENTENCES } from './help-sentences.ts';
import { count } from './phrases.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'Non eseguibile', warn: 'Attenzione', note: 'Nota' },
  unplayable: 'Non eseguibile com’è stampato',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  help: HELP_SENTENCES,
  oneIsEnough: 'Ne basta uno:',
  oneForEachPlace: 'Ne basta uno per ogni punto:',
  moreRemedies: (more) => `e altri ${more}.`,
  markingsMadeWay: (markings) =>
    `Nelle pagine, ${count(markings, 'indicazione di pedale', 'indicazioni di pedale')} del file ${markings === 1 ? 'ha' : 'hanno'} ceduto il posto a quelle di tringle.`,
  withoutOtherFixes: (fix) => `Senza le altre modifiche: ${uncapitalize(fix)}`,
  moreMoves: (moves) => `costa al massimo ${count(moves, 'cambio', 'cambi')} in più`,
  fewerMoves: (moves) => `risparmia almeno ${count(moves, 'cambio', 'cambi')}`,
};
