import * as z from 'zod';
import { GRADES } from '../../../engine/index.ts';
import { barName } from '../score-schemas.ts';

const grade = z.enum(GRADES).meta({
  description:
    'How hard it is to play, from easy to very-hard; whether it is playable is told beside it. No scale is published: the grades and the thresholds between them are our own.',
});

const playable = z
  .boolean()
  .meta({ description: 'Whether no place is left that is not playable as printed.' });

const reasons = z.array(z.string()).readonly().meta({ description: 'Why, as sentences.' });

const sides = <Value extends z.ZodType>(value: Value) => z.object({ left: value, right: value });

const measures = z
  .object({
    seconds: z.number().meta({ description: 'How long the harp plays: the time of bars with notes.' }),
    changes: z.int().meta({ description: 'Moves of pedals, or changes of levers on the lever harp.' }),
    changesPerMinute: z.number(),
    mostInTenSeconds: z.int().meta({ description: 'The most changes within any ten seconds.' }),
    shortestSpacing: sides(z.number().nullable()).meta({
      description:
        'The least time in seconds between two changes of each foot, or of each hand at the levers; null below two changes.',
    }),
    atThePluck: z.number().meta({
      description: 'The share, from 0 to 1, of changes that fall together with the note that needs them.',
    }),
    stringsBent: z.int().meta({ description: 'Changes that bend a string that is still sounding.' }),
    barsOverloaded: sides(z.int()).meta({
      description: 'Bars in which each hand has too many notes, too wide a chord or too many harmonics.',
    }),
    feetTogether: z.int().meta({ description: 'How often two pedals move at the same moment.' }),
    notesPerSecond: z.number(),
  })
  .meta({
    id: 'DifficultyMeasures',
    description: 'What makes it hard, in figures, each printed bar counted once.',
  });

const passage = z
  .object({
    from: z.string().meta({ description: 'The printed number of the first bar.' }),
    until: z.string().meta({ description: 'The printed number of the last bar.' }),
    fromName: barName,
    untilName: barName,
    grade,
    playable,
    reasons,
    measures,
  })
  .meta({
    id: 'PassageDifficulty',
    description:
      'How hard one passage is: at most eight bars, from a rehearsal mark or a rest of a whole bar to the next.',
  });

/** How hard a part is, as reports tell it. */
export const reportedDifficulty = z
  .object({
    grade,
    playable,
    verdict: z.string().meta({
      description: 'Whether hands and feet can play the part as printed, in words.',
      examples: ['playable by the feet; the left hand has too much in 3 bars'],
    }),
    failing: z
      .object({
        feet: z.int().meta({ description: 'In which the feet have no time.' }),
        hands: z.int().meta({ description: 'In which no hand is free for a lever.' }),
        strings: z.int().meta({ description: 'In which the strings cannot give the notes.' }),
        first: z.string().nullable().meta({
          description:
            'How people are told of the first of them: its printed number, behind that of its movement where a score has several whose bars are numbered anew; null where there is none.',
        }),
      })
      .meta({ description: 'How many bars are not playable as printed, by what fails there.' }),
    reasons,
    measures,
    passages: z.array(passage).readonly(),
  })
  .meta({
    id: 'Difficulty',
    description: 'How hard the part is, as a whole and passage by passage.',
  });

export type ReportedDifficulty = z.infer<typeof reportedDifficulty>;
