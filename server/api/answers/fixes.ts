import * as z from 'zod';
import { FIX_KINDS, type FixKind, PEDAL_FINDING_CODES } from '../../../engine/index.ts';
import { FIX_DECISIONS } from '../requests/decisions.ts';
import { barIndex, barName, barNumber, beat } from '../score-schemas.ts';
import { findingCode, noteChange, omittedNote, remark, respelledNote, scoreShape } from './report.ts';

const kindsOf = <const Kinds extends readonly [FixKind, ...FixKind[]]>(...kinds: Kinds) =>
  z.enum(kinds).meta({ description: kinds.map((kind) => `${kind}: ${FIX_KINDS[kind]}`).join(' ') });

const quartersPerMinute = z.number().meta({ description: 'Quarter notes a minute.' });

const warnings = z
  .array(
    z.object({
      code: findingCode(PEDAL_FINDING_CODES),
      title: z.string(),
      bars: z.string().meta({ description: 'In words: bars 3–5 and 9.' }),
      barIndices: z.array(barIndex).readonly(),
    }),
  )
  .readonly();

const warningsLeft = warnings.meta({
  description: 'What is risky or awkward at that tempo all the same: kinds of warning, with their bars.',
});

/** What fixes of all kinds have. */
const FIX_SHAPE = {
  sentence: z.string(),
  heard: z.string().meta({ description: 'What is heard otherwise.' }),
  moreMoves: z.int().meta({ description: 'By how many moves the plan grows; below 0 where it has fewer.' }),
  moreWarnings: z.int().meta({ description: 'By how many places with a warning it grows.' }),
  warningsThen: warnings.meta({
    description:
      'Warnings that the plan with it has and the plan without it has not, by kind, with their bars; of feet that hurry, the bars in which they do not hurry without it. What cannot be played may have hidden them.',
  }),
  alsoFixes: z.int().meta({ description: 'How many other places become playable with it.' }),
  cost: z.number().meta({
    description:
      'What the fixes of a place are ordered by, the smallest first, after respellings that cost no moves.',
  }),
};

const decisionsOf = <Lists extends z.ZodRawShape>(lists: Lists) =>
  z.object(lists).meta({ description: 'What to add to the options of these names to carry it out.' });

const { respell, omit, delays, tempos } = FIX_DECISIONS;

const tempoLimit = z
  .object({
    quartersPerMinute,
    written: quartersPerMinute,
    fromBar: z.string(),
    untilBar: z.string(),
    left: warningsLeft,
    proved: z.boolean(),
  })
  .meta({
    description:
      'The fastest tempo of these bars at which the place works, a whole number of the notes that are counted (of dotted quarters in 6/8) a minute; proved: whether no faster whole number works.',
  });

/** Fixes by their kind: each has what it is carried out by, and nothing else. */
const fixesWith = <Extra extends z.ZodRawShape>(extra: Extra) => {
  const fix = <Deed extends z.ZodRawShape>(deed: Deed) => z.object({ ...deed, ...FIX_SHAPE, ...extra });
  return z.discriminatedUnion('kind', [
    fix({
      kind: kindsOf('respell', 'octave'),
      changes: z.array(respelledNote).readonly(),
      decisions: decisionsOf({ respell }),
    }),
    fix({
      kind: kindsOf('leave-out-doubled', 'second-harp'),
      changes: z.array(omittedNote).readonly(),
      decisions: decisionsOf({ omit }),
    }),
    fix({
      kind: kindsOf('leave-out'),
      changes: z.array(noteChange).readonly(),
      decisions: decisionsOf({ respell, omit }),
    }),
    fix({ kind: kindsOf('delay'), decisions: decisionsOf({ delays }) }),
    fix({ kind: kindsOf('tempo'), tempo: tempoLimit, decisions: decisionsOf({ tempos }) }),
  ]);
};

const offeredFix = fixesWith({});

const placeFix = fixesWith({
  atAll: z.boolean().meta({
    description: 'Whether a fix for a passage does the same here and at other places, or slows less.',
  }),
}).meta({
  id: 'PlaceFix',
  description:
    'A fix that was planned with: the place is then playable, and no other has become unplayable. Its kind says what it is carried out by.',
});

const passageFix = fixesWith({
  places: z.array(z.int()).readonly().meta({
    description: 'Indices of `places` that it is for: those of the passage, or some of them.',
  }),
}).meta({ id: 'PassageFix', description: 'A fix that is taken at several places of a passage at once.' });

const placeFixes = z
  .object({
    code: findingCode(PEDAL_FINDING_CODES),
    bar: barNumber,
    barName,
    barIndex,
    beat,
    notes: z.array(z.string()).readonly(),
    sentence: z.string(),
    fixes: z.array(placeFix).readonly(),
  })
  .meta({ id: 'PlaceFixes', description: 'A place that cannot be played, and its fixes.' });

export const fixesReport = z
  .object({
    ...scoreShape,
    places: z.array(placeFixes).readonly(),
    passages: z
      .array(
        z.object({
          code: findingCode(PEDAL_FINDING_CODES),
          bars: z.string().meta({ description: 'In words: bars 3–5 and 9.' }),
          places: z.array(z.int()).readonly().meta({ description: 'Indices of `places`, at least two.' }),
          sentence: z.string(),
          fixes: z.array(passageFix).readonly(),
        }),
      )
      .readonly()
      .meta({
        description:
          'Places near each other that have fixes alike: these taken at several of the places at once, each planned with as a whole. `alsoFixes` counts places beside them.',
      }),
    untried: z.int().meta({ description: 'Further places that cannot be played, and were not looked at.' }),
    tempo: z
      .object({
        unit: z
          .object({
            sign: z.string(),
            value: z.string(),
            dots: z.union([z.literal(0), z.literal(1)]),
            quarters: z.number(),
          })
          .meta({
            description:
              'What people are told the tempos in: the note that is counted in the first bar, as a sign, by MusicXML’s name with its dots, and in quarter notes.',
          }),
        written: quartersPerMinute,
        isAssumed: z.boolean().meta({ description: 'The score states no tempo: `written` is assumed.' }),
        playableUpTo: z.number().nullable(),
        left: warningsLeft,
        mended: z
          .array(z.object({ barName, barIndex, beat, quartersPerMinute, there: quartersPerMinute }))
          .readonly()
          .meta({
            description:
              'Where no tempo makes every place playable: the places that a slower tempo does, each with the fastest first tempo that was found, and what the tempo is there then.',
          }),
        proved: z.boolean(),
        steps: z.array(z.object({ quartersPerMinute, stops: z.int() })).readonly(),
      })
      .meta({
        description:
          'How the whole part goes as all its tempos get slower alike, told by the first: the fastest at which every place is playable, a whole number of counted notes a minute (null if none is), and between which tempos the number of places that are not changes.',
      }),
    freeSpelling: z
      .object({
        stops: z.int().meta({ description: 'Places that cannot be played all the same.' }),
        respelled: z.int().meta({ description: 'Notes that it has on other strings; they sound the same.' }),
        moreMoves: z
          .int()
          .meta({ description: 'By how many moves the plan grows; below 0 where it has fewer.' }),
      })
      .nullable()
      .meta({
        description:
          'What the part comes to with the option spelling at “free”; null where that makes no more places playable, or is chosen already.',
      }),
    remarks: z.array(remark).readonly(),
  })
  .meta({ id: 'FixesReport', description: 'The smallest fixes of every place that cannot be played.' });

/** A fix of a place or of a passage, without what tells the two apart. */
export type ReportedFix = z.infer<typeof offeredFix>;
export type FixesReport = z.infer<typeof fixesReport>;
