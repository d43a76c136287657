import { MAX_RETUNING_CENTS, parseScordatura } from '../harp/scordatura.ts';
import { type Catalogue, entry, group, oneOf, text, yesOrNo } from '../options/describe-option.ts';
import { FOOT_REST, OPEN_WEIGHTS } from './weights.ts';

/** What a user may choose about how pedals are planned. */
export const PEDAL_CATALOGUE = {
  spelling: entry(
    'pedal',
    'feet',
    oneOf({
      label: 'Spelling',
      // Double accidentals are respelled all the same, since no string gives them.
      description:
        'How notes may be spelled. keep: as written; suggest: as written, with respellings that would save moves or fix a place; free: the cheapest choice of spelling and setting.',
      values: { keep: 'as written', suggest: 'as written, with suggestions', free: 'free' },
      default: 'keep',
    }),
  ),
  followMarkings: entry(
    'pedal',
    'feet',
    yesOrNo({
      label: 'Take the markings in the file as decisions',
      description: 'Take the pedal markings that the file holds as pins.',
      default: false,
    }),
  ),
  footRestSeconds: entry('pedal', 'feet', FOOT_REST),
  pedalsTogether: entry(
    'pedal',
    'feet',
    yesOrNo({
      label: 'One foot may take two pedals together, where nothing else helps',
      description: 'As a last resort, let one foot take two neighbouring pedals in one direction together.',
      default: false,
    }),
  ),
  crossFeet: entry(
    'pedal',
    'feet',
    yesOrNo({
      label: 'A foot may cross to the other side, where nothing else helps',
      description: 'As a last resort, let a foot cross to the nearest pedal of the other side (B or E).',
      default: false,
    }),
  ),
  scordatura: entry(
    'pedal',
    'strings',
    text({
      label: 'Strings tuned otherwise, in cents',
      description: 'Strings that are retuned before the piece, with cents: `A4 +50, B3 -50`.',
      default: '',
      longest: 1000,
      read: parseScordatura,
      expected: `strings with their octaves and at most ${MAX_RETUNING_CENTS} cents, each once, with commas between: A4 +50, B3 -50`,
      examples: ['A4 +50, B3 -50'],
    }),
  ),
  weights: entry(
    'pedal',
    'prices',
    group('Prices and clock times that make one plan better than another.', OPEN_WEIGHTS),
  ),
} as const satisfies Catalogue;
