import { type Catalogue, entry, oneOf } from '../../engine/index.ts';
import { labelLanguages } from '../words/language.ts';

/** What is printed beside the part, and in which language. */
export const EDITION_OPTIONS = {
  edition: entry(
    'both',
    'page',
    oneOf({
      // On the page a download of its own.
      label: null,
      description:
        'What the pages hold. part: the part alone; study: the part with a title page, a pedal chart of the whole piece or a tuning sheet for the levers, the feet or the levers alone with counts, tables of the moves and of the difficulty, the hard spots with exercises, and the findings in words; exercise: the part without its settings and changes, for a pupil to write them in, and the solution on the last pages; card: a summary of the piece on one card of its own size, for a page of the web or a catalogue.',
      values: {
        part: 'the part alone',
        study: 'study edition',
        exercise: 'exercise with its solution',
        card: 'summary card',
      },
      default: 'part',
    }),
  ),
  blanks: entry(
    'both',
    'study',
    oneOf({
      label: 'Blanks in an exercise',
      description:
        'What the pages of an exercise have where settings and changes belong: a box for each, or nothing, so that the pupil finds the places too.',
      values: { boxes: 'a box for each', none: 'nothing' },
      default: 'boxes',
    }),
  ),
  language: entry(
    'both',
    'study',
    oneOf({
      label: 'Language of the sheets',
      description:
        'The language of the sheets of a study edition, of an exercise, of a class set, of the summary card and of wall charts; note names follow it, in findings too, unless they are chosen apart. All that tringle writes on the pages of music is in it too, and what a screen reader says of them. In languages other than English findings are told in a sentence each, with their fixes; remarks stay in English.',
      values: labelLanguages(),
      default: 'english',
    }),
  ),
} as const satisfies Catalogue;
