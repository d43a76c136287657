import { SOUND_NAMES, splitRoot } from '../../../../engine/index.ts';
import { rankNearest } from '../../../api/requests/nearest-word.ts';

const MOST_OFFERED = 3;

/**
 * The known sounds whose names are nearest to one that is not known, to be offered: on the root that it names, if the
 * rest of it is nearer to a name than the whole.
 *
 * @example offerNearestSounds('Eb wholesome tone') // “Eb whole tone”, ...
 */
export const offerNearestSounds = (text: string): string => {
  const whole = text.trim();
  const parts = splitRoot(whole);
  const ranked = [
    ...offersOf(whole, 'C'),
    ...(parts === null ? [] : offersOf(parts.rest.trim(), parts.root)),
  ].sort((a, b) => a.edits - b.edits);
  const names = [...new Set(ranked.map(({ name }) => name))].slice(0, MOST_OFFERED);
  return names.map((name) => `“${name}”`).join(', ');
};

const offersOf = (name: string, root: string) =>
  rankNearest(name, SOUND_NAMES)
    .slice(0, MOST_OFFERED)
    .map(({ name: known, edits }) => ({ name: `${root} ${known}`, edits }));
