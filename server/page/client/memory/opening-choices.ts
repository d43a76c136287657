import type { HarpKind } from '../../../../engine/index.ts';
import type { Choices } from '../options/choices.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { browserMemory } from './browser-memory.ts';
import { keyOfFile } from './kept-decisions.ts';
import { recallChoices } from './remembered-choices.ts';

/** What is chosen of a part as it is opened: as the browser remembers, and the tuning of the set that it is opened from. */
export const openingChoices = (harp: HarpKind, file: ScoreFile): Choices => {
  const remembered = recallChoices(browserMemory, harp, keyOfFile(file));
  return harp === 'lever' && file.tuning !== undefined ? { ...remembered, tuning: file.tuning } : remembered;
};
