import type { HarpLabel } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';

const words = STRINGS.parts;

/** Parts of the same name are counted, so that each has a name of its own. */
export const nameOfHarp = (harps: readonly HarpLabel[], harp: HarpLabel): string => {
  const namesakes = harps.filter(({ name }) => name === harp.name);
  const name = harp.name || words.unnamed;
  return namesakes.length === 1 ? name : words.numbered(name, namesakes.indexOf(harp) + 1);
};
