import { FINDINGS, HELP_SENTENCES, nameCount, SEVERITY_WORDS, uncapitalize } from '../../../engine/index.ts';
import type { FindingSentences, HelpSentences, PassageSentences } from '../finding-words.ts';
import { mapValues } from './phrases.ts';

export const FINDINGS_WORDS = {
  severities: mapValues(SEVERITY_WORDS, ({ name }) => name),
  unplayable: 'Not playable as printed',
  // The engine’s own words.
  sentences: mapValues(FINDINGS, ({ sentence }) => sentence) as unknown as FindingSentences,
  passages: mapValues(FINDINGS, ({ passage }) => passage) as unknown as PassageSentences,
  help: HELP_SENTENCES as unknown as HelpSentences,
  /** Over what would help at a place, and where a finding is about several. */
  oneIsEnough: 'One of these is enough:',
  oneForEachPlace: 'One for each place is enough:',
  moreRemedies: (more: number) => `and ${more} more.`,
  withoutOtherFixes: (fix: string) => `Without the other fixes: ${uncapitalize(fix)}`,
  moreMoves: (moves: number) => `costs at most ${nameCount(moves, 'more move')}`,
  fewerMoves: (moves: number) => `saves at least ${nameCount(moves, 'move')}`,
} as const;
