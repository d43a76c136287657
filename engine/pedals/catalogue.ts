import { MAX_RETUNING_CENTS, parseScordatura } from '../harp/scordatura.ts';
import { type Catalogue, entry, group, oneOf, text, yesOrNo } from '../options/describe-option.ts';
import { FOOT_REST, OPEN_WEIGHTS } from './weights.ts';

/** What a user may choose about how pedals are planned. */
export const PEDAL_CATALOGUE = {
  spelling: entry(
    'pedal',
    'planning',
    oneOf({
      label: 'Spelling',
      // Double accidentals are respelled all the same, since no string gives them.
      description:
        'How notes may be spelled. keep: as written; suggest: as written, with suggested respellings that would save moves or make a place playable; free: the spelling and the opening setting that cost least.',
      values: {
        keep: 'as written',
        suggest: 'as written, with suggestions',
        free: 'changed wherever that saves moves',
      },
      default: 'keep',
    }),
  ),
  followMarkings: entry(
    'pedal',
    'planning',
    yesOrNo({
      label: 'Follow the markings in the file',
      description: 'Follow the pedal markings already in the file, as if they were pins.',
      default: false,
    }),
  ),
  footRestSeconds: entry('pedal', 'feet', FOOT_REST),
  pedalsTogether: entry(
    'pedal',
    'feet',
    yesOrNo({
      label: 'If nothing else works, let one foot move two pedals at once',
      description: 'As a last resort, let one foot move two neighbouring pedals at once, in one direction.',
      default: false,
    }),
  ),
  crossFeet: entry(
    'pedal',
    'feet',
    yesOrNo({
      label: 'If nothing else works, let a foot cross to the other side',
      description: 'As a last resort, let a foot cross to the nearest pedal of the other side (B or E).',
      default: false,
    }),
  ),
  scordatura: entry(
    'pedal',
    'planning',
    text({
      label: 'Retuned strings, in cents',
      description: 'Strings that are retuned before the piece, with cents: `A4 +50, B3 -50`.',
      default: '',
      longest: 1000,
      read: parseScordatura,
      expected: `a list of strings with their octaves and at most ${MAX_RETUNING_CENTS} cents, each string once, separated by commas: A4 +50, B3 -50`,
      examples: ['A4 +50, B3 -50'],
    }),
  ),
  weights: entry(
    'pedal',
    'prices',
    group(
      'Prices and times by which the planner compares plans: it takes the plan with the lowest total.',
      OPEN_WEIGHTS,
    ),
  ),
} as const satisfies Catalogue;
