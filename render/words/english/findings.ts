import {
  FINDINGS,
  HELP_SENTENCES,
  nameCount,
  PASSAGE_SENTENCES,
  SEVERITY_WORDS,
  uncapitalize,
} from '../../../engine/index.ts';
import type { FindingSentences, HelpSentences } from '../finding-words.ts';
import { fieldOfEach, mapValues } from './phrases.ts';

// The engine’s own words.
const sentences: FindingSentences = fieldOfEach(FINDINGS, 'sentence');
const help: HelpSentences = HELP_SENTENCES;

export const FINDINGS_WORDS = {
  severities: mapValues(SEVERITY_WORDS, ({ name }) => name),
  unplayable: 'Not playable as printed',
  sentences,
  passages: PASSAGE_SENTENCES,
  help,
  /** Over what would help at a place, and where a finding is about several. */
  oneIsEnough: 'One of these is enough:',
  oneForEachPlace: 'One for each place is enough:',
  moreRemedies: (more: number) => `and ${more} more.`,
  /** Where the pages have others in place of the file’s own. */
  markingsMadeWay: (markings: number) =>
    `On the pages, ${nameCount(markings, 'pedal marking')} from the file made way for tringle’s.`,
  withoutOtherFixes: (fix: string) => `Without the other fixes: ${uncapitalize(fix)}`,
  moreMoves: (moves: number) => `costs at most ${nameCount(moves, 'more move')}`,
  fewerMoves: (moves: number) => `saves at least ${nameCount(moves, 'move')}`,
} as const;
