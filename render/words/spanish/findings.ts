import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';
import { HELP_SENTENCES } from './help-sentences.ts';
import { count } from './phrases.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'No se puede tocar', warn: 'Atención', note: 'Nota' },
  unplayable: 'No se puede tocar como está impreso',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  help: HELP_SENTENCES,
  oneIsEnough: 'Basta con uno de estos remedios:',
  oneForEachPlace: 'Basta con uno para cada lugar:',
  moreRemedies: (more) => `y ${more} más.`,
  markingsMadeWay: (markings) =>
    `En las páginas, ${count(markings, 'indicación de pedal', 'indicaciones de pedal')} del archivo ${markings === 1 ? 'ha' : 'han'} cedido su lugar a las de tringle.`,
  withoutOtherFixes: (fix) => `Sin los otros cambios: ${uncapitalize(fix)}`,
  moreMoves: (moves) => `cuesta como máximo ${count(moves, 'cambio', 'cambios')} más`,
  fewerMoves: (moves) => `ahorra al menos ${count(moves, 'cambio', 'cambios')}`,
};
