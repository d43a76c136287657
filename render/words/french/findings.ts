import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';
import { FINDING_SENTENCES, PASSAGE_SENTENCES } from './finding-sentences.ts';
import { HELP_SENTENCES } from './help-sentences.ts';
import { count } from './phrases.ts';

export const FINDINGS_WORDS: Words['findings'] = {
  severities: { stop: 'Injouable', warn: 'Attention', note: 'Remarque' },
  unplayable: 'Injouable tel que c’est imprimé',
  sentences: FINDING_SENTENCES,
  passages: PASSAGE_SENTENCES,
  help: HELP_SENTENCES,
  oneIsEnough: 'Un seul de ces remèdes suffit :',
  oneForEachPlace: 'Un seul suffit pour chaque endroit :',
  moreRemedies: (more) => `et ${more} de plus.`,
  markingsMadeWay: (markings) =>
    `Sur les pages, ${count(markings, 'indication de pédale', 'indications de pédale')} du fichier ${markings === 1 ? 'a' : 'ont'} cédé la place à celles de tringle.`,
  withoutOtherFixes: (fix) => `Sans les autres modifications : ${uncapitalize(fix)}`,
  moreMoves: (moves) => `coûte au plus ${count(moves, 'changement', 'changements')} de plus`,
  fewerMoves: (moves) => `épargne au moins ${count(moves, 'changement', 'changements')}`,
};
