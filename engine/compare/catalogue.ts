import { amount, type Catalogue, entry } from '../options/describe-option.ts';

/** What a user may choose about a comparison of the harps, beside how each is planned. */
export const COMPARE_CATALOGUE = {
  maxSemitones: entry(
    'both',
    'part',
    amount({
      label: null,
      description: 'How many semitones up or down to try.',
      unit: 'semitones',
      default: 6,
      least: 0,
      // Farther than an octave no key is new.
      most: 11,
      step: 1,
      offered: null,
    }),
  ),
} as const satisfies Catalogue;
