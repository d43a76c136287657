import { amount, amountOrNever, type Catalogue, entry, ok, readPartNames, text } from '../../engine/index.ts';

/** What the pages show of the other parts. */
export const OTHER_PART_OPTIONS = {
  withPart: entry(
    'both',
    'page',
    text({
      label: 'Parts over the harp',
      description:
        'Other parts of the score that stand small over the harp, with their words, by name or id and separated by semicolons: `Voice; Flute`. They take no part in the plan.',
      default: '',
      longest: 1000,
      read: (names) => ok(readPartNames(names)),
      expected: 'names or ids of parts, separated by semicolons',
      examples: ['Voice'],
    }),
  ),
  cues: entry(
    'both',
    'page',
    amountOrNever({
      label: 'Cues after a rest',
      description:
        'After a rest of at least this many whole bars the last bars before the harp comes in show, small, what another instrument of the score plays; null for never.',
      unit: 'bars',
      default: null,
      least: 1,
      most: 1000,
      step: 1,
      offered: { values: [4, 8, 12, 16, 24], words: 'of {} or more' },
      never: 'never',
    }),
  ),
  cueSeconds: entry(
    'both',
    'page',
    amountOrNever({
      label: 'Cues after a rest by the clock',
      description: 'The same after a rest of at least so long; null for never.',
      unit: 'seconds',
      default: null,
      least: 1,
      most: 3600,
      step: null,
      offered: { values: [10, 15, 20, 30, 60], words: 'of {} or more' },
      never: 'never',
    }),
  ),
  cueBars: entry(
    'both',
    'page',
    amount({
      label: 'Length of a cue',
      description: 'How many bars before the harp comes in a cue shows.',
      unit: 'bars',
      default: 2,
      least: 1,
      most: 8,
      step: 1,
      offered: { values: [1, 2, 3, 4], words: '{}' },
    }),
  ),
} as const satisfies Catalogue;
