import type { HarpKind, ListedOption } from '../../../../engine/index.ts';
import type { Choices } from './choices.ts';
import { BESIDE_DOWNLOADS, groupsFor } from './offered-options.ts';

/**
 * What is chosen for one piece: for whom its pages are, how it is spelt and tuned, and what of its file is followed. All
 * else is how a player likes pages and what feet and hands can do, and holds for every piece.
 */
const OF_PIECE: ReadonlySet<string> = new Set([
  'player',
  'level',
  'blanks',
  'fileMarkings',
  'fileSettings',
  'followMarkings',
  'keepBreaks',
  'withPart',
  'cues',
  'spelling',
  'scordatura',
  'tuning',
]);

const pick = (choices: Choices, isWanted: (name: string) => boolean): Choices =>
  Object.fromEntries(Object.entries(choices).filter(([name]) => isWanted(name)));

export const ofPiece = (choices: Choices): Choices => pick(choices, (name) => OF_PIECE.has(name));

export const ofReader = (choices: Choices): Choices => pick(choices, (name) => !OF_PIECE.has(name));

/** The options of a piece that stand among the options of a harp. */
export const pieceOptionsFor = (harp: HarpKind): readonly ListedOption[] =>
  groupsFor(harp)
    .filter(({ group }) => group !== BESIDE_DOWNLOADS)
    .flatMap(({ options }) => options)
    .filter(({ name }) => OF_PIECE.has(name));
