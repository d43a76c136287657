import type { OpenTuning } from '../harp/open-tuning.ts';
import { readTuning } from '../harp/read-tuning.ts';
import { amount, type Catalogue, entry, text } from '../options/describe-option.ts';
import { ok, type Result } from '../problem.ts';

const SEARCHES = ['sparing', 'best-key', 'best'] as const;

/**
 * Which tunings are considered: one that is given; the harp's custom and the 15 key signatures, with the fewest changes
 * whatever is to be retuned (`best-key`) or with strings to retune weighed against changes (`sparing`); each letter
 * flat, natural or sharp (`best`).
 */
export type TuningChoice = OpenTuning | (typeof SEARCHES)[number];

const readTuningChoice = (written: string): Result<TuningChoice> => {
  const search = SEARCHES.find((each) => each === written);
  return search === undefined ? readTuning(written) : ok(search);
};

/** What a user may choose about how levers are planned. */
export const LEVER_CATALOGUE = {
  tuning: entry(
    'lever',
    'levers',
    text({
      // The table of tunings has a button for each.
      label: null,
      description:
        'How the open strings are tuned: a key, seven note names, or a way to find the tuning. sparing chooses a key that keeps both retuning and lever changes low; best-key chooses the key with the fewest changes; best tries every tuning. All three prefer a tuning with fewer places that are not playable.',
      default: 'sparing',
      longest: 100,
      read: readTuningChoice,
      expected: `${SEARCHES.join(', ')}, a key such as “E♭ major”, or seven note names`,
      examples: ['E♭ major', 'best', 'C D Eb F# G A Bb'],
    }),
  ),
  leverSeconds: entry(
    'lever',
    'levers',
    amount({
      label: 'Time to set a lever',
      description:
        'The time that a hand needs for one change of a lever: it leaves the strings, sets the lever and comes back.',
      unit: 'seconds',
      default: 0.6,
      least: 0,
      most: 10,
      step: null,
      offered: { values: [0.3, 0.4, 0.6, 0.8, 1, 1.5], words: '{}' },
    }),
  ),
} as const satisfies Catalogue;
