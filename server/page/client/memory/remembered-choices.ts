import type { HarpKind } from '../../../../engine/index.ts';
import { type Choices, cleanChoices } from '../options/choices.ts';
import { ofPiece, ofReader } from '../options/piece-choices.ts';
import { type Memory, putOnShelf, takeFromShelf } from './shelf.ts';

/** What a reader likes, for each harp. */
const OF_READER: Readonly<Record<HarpKind, string>> = {
  pedal: 'tringle-choices',
  lever: 'tringle-choices-lever',
};
const OF_PIECES = 'tringle choices of pieces';

const keyFor = (harp: HarpKind, key: string): string => `${harp} ${key}`;

const readReader = (memory: Memory, harp: HarpKind): object => {
  try {
    const found: unknown = JSON.parse(memory.getItem(OF_READER[harp]) ?? '{}');
    return typeof found === 'object' && found !== null ? found : {};
  } catch {
    // Memory that is shut off or spoilt remembers nothing.
    return {};
  }
};

const readPiece = (memory: Memory, harp: HarpKind, key: string): object => {
  const found = takeFromShelf(memory, OF_PIECES, keyFor(harp, key));
  return typeof found === 'object' && found !== null ? found : {};
};

/** What was chosen last for a harp, and last for this piece. */
export const recallChoices = (memory: Memory, harp: HarpKind, key: string): Choices => {
  const liked = ofReader(cleanChoices(readReader(memory, harp), harp));
  return cleanChoices({ ...liked, ...ofPiece(readPiece(memory, harp, key) as Choices) }, harp);
};

/** Keeps what a reader likes for every piece, and what is a matter of one piece for that. */
export const rememberChoices = (memory: Memory, harp: HarpKind, key: string, choices: Choices): void => {
  const here = ofPiece(choices);
  if (Object.keys(here).length > 0 || Object.keys(readPiece(memory, harp, key)).length > 0)
    putOnShelf(memory, OF_PIECES, keyFor(harp, key), here);
  try {
    memory.setItem(OF_READER[harp], JSON.stringify(ofReader(choices)));
  } catch {
    // Memory is full or shut off: the choice holds until the page is left.
  }
};
