import * as z from 'zod';
import {
  type Catalogue,
  type ChosenDecisions,
  type Concerned,
  chooseDecisions,
  DECISION_LIMITS,
  DECISION_LISTS,
  type DecisionList,
  type DecisionPin,
  type Decisions,
  entry,
  namePlace,
  type Place,
  readFraction,
  type Score,
  type TempoDecision,
  type UnplacedDecision,
  yesOrNo,
} from '../../../engine/index.ts';
import { fail, type Outcome } from '../../service-problem.ts';
import {
  barIndex,
  beat,
  hand,
  letter,
  leverPosition,
  positionName,
  scoreTime,
  stringName,
} from '../score-schemas.ts';
import { shapeOf } from './option-schemas.ts';
import { quoteValue } from './quote-value.ts';

/** What a user decided about a part, as it is written in the JSON of a request. */

const placeShape = {
  barIndex: barIndex.max(DECISION_LIMITS.barIndex),
  beat,
};

/** A place as answers name it. */
const namedPlace = z.strictObject(placeShape);

const place = z.union([scoreTime, namedPlace]).meta({
  id: 'Place',
  description: 'A score time, or a bar by its index (from 0) with a beat (from 1).',
});

const pin = z
  .discriminatedUnion('kind', [
    z
      .strictObject({
        kind: z.literal('position'),
        pedal: letter,
        position: positionName,
        from: place,
        until: place.nullable(),
      })
      .meta({
        description:
          'The pedal stays in this position from one place until just before another, or to the end if until is null.',
      }),
    z
      .strictObject({ kind: z.literal('move'), pedal: letter, position: positionName, at: place })
      .meta({ description: 'The pedal moves to this position exactly here.' }),
    z
      .strictObject({ kind: z.literal('forbid'), from: place, until: place })
      .meta({ description: 'No pedal moves and no lever is set in this passage.' }),
    z
      .strictObject({
        kind: z.literal('lever-position'),
        lever: stringName,
        to: leverPosition,
        from: place,
        until: place.nullable(),
      })
      .meta({
        description:
          'The lever of this string stays so from one place until just before another, or to the end if until is null.',
      }),
    z
      .strictObject({
        kind: z.literal('lever-move'),
        lever: stringName,
        to: leverPosition,
        at: place,
        hand: hand.exactOptional().meta({ description: 'Which hand has to set it. Either, if not given.' }),
      })
      .meta({ description: 'The lever of this string is set exactly here.' }),
  ])
  .meta({
    id: 'Pin',
    description:
      'A move or position of a pedal or lever, or a passage without moves, that the plan must follow.',
  });

const pitchText = z
  .string()
  .max(DECISION_LIMITS.pitchLength)
  .meta({
    id: 'Pitch',
    description: 'The pitch of a string; for a harmonic, that of the string that is plucked.',
    examples: ['C♯4', 'Db4'],
  });

const notesAtShape = {
  ...placeShape,
  pitch: pitchText,
  staff: z
    .int()
    .min(1)
    .max(DECISION_LIMITS.staff)
    .exactOptional()
    .meta({ description: 'Only notes of this staff: 1 is the upper. All staves if not given.' }),
  grace: z.int().min(0).max(DECISION_LIMITS.grace).exactOptional().meta({
    description:
      'Which of the grace notes there, the first being 1; 0 for the note that they lead to. All of them if not given.',
  }),
};

/** Notes as answers name them and as requests give them back. */
export const notesAt = z
  .strictObject(notesAtShape)
  .meta({ id: 'NotesAt', description: 'The notes of one pitch that begin at one place.' });

const respellDecision = z.strictObject({ ...notesAtShape, to: pitchText }).meta({
  id: 'RespellDecision',
  description: 'Notes to play on another string of the same pitch, or the same an octave or two away.',
});

const delayDecision = z
  .strictObject({
    ...notesAtShape,
    toBeat: beat.meta({ description: 'The beat of the same bar, from 1, with which they are plucked.' }),
  })
  .meta({
    id: 'DelayDecision',
    description:
      'Notes that are plucked later than they are written, while they would still sound: with another note, or on a beat.',
  });

const tempoShape = <T extends z.ZodType>(place: T) => ({
  from: place,
  until: place.nullable(),
  quartersPerMinute: z
    .number()
    .min(DECISION_LIMITS.slowest)
    .max(DECISION_LIMITS.fastest)
    .meta({ description: 'Quarter notes a minute.' }),
});

/** The lists of decisions that carry out fixes, as requests take them. */
export const FIX_DECISIONS = {
  respell: z.array(respellDecision).readonly(),
  omit: z.array(notesAt).readonly(),
  delays: z.array(delayDecision).readonly(),
  tempos: z.array(z.object(tempoShape(namedPlace))).readonly(),
};

const listOf = <T extends z.ZodType>(entry: T, description: string) =>
  z
    .array(entry)
    .max(DECISION_LIMITS.entries)
    .exactOptional()
    .meta({ description: `${description} Only in the JSON part of a form.` });

const DECISIONS_CATALOGUE = {
  savedDecisions: entry(
    'both',
    'part',
    yesOrNo({
      label: null,
      description:
        'Follow the decisions that an earlier annotation saved in the file, unless the request brings its own.',
      default: true,
    }),
  ),
} as const satisfies Catalogue;

export const decisionsShape = {
  pins: listOf(
    pin,
    'Moves and positions of pedals or levers, and passages without moves, that the plan must follow.',
  ),
  respell: listOf(
    respellDecision,
    'Notes to play on a string of another name; or, where spelling is free, on the written one.',
  ),
  omit: listOf(
    notesAt,
    'Notes that the player leaves out: they are printed in brackets, and the plan ignores them.',
  ),
  delays: listOf(
    delayDecision,
    'Notes that are plucked later than they are written: the plan goes by it, and it is printed over them.',
  ),
  fullSettings: listOf(
    z
      .strictObject({
        ...placeShape,
        print: z.boolean().meta({ description: 'true to print a full setting there, false to print none.' }),
      })
      .meta({ id: 'FullSettingDecision', description: 'A place where a full setting is or is not printed.' }),
    'Places where a full setting is or is not printed, whatever the other options say.',
  ),
  cueParts: listOf(
    z
      .strictObject({
        ...placeShape,
        part: z
          .string()
          .max(DECISION_LIMITS.partLength)
          .nullable()
          .meta({ description: 'Id or name of another part of the score; null for no cue.' }),
      })
      .meta({ id: 'CueDecision', description: 'What is cued before the note with which the harp comes in.' }),
    'What is shown small before an entry of the harp, whatever the other options say.',
  ),
  tempos: listOf(
    z.strictObject(tempoShape(place)).meta({
      id: 'TempoDecision',
      description:
        'A passage that is played no faster than a tempo, from one place until just before another, or to the end if until is null.',
    }),
    'Passages that are played no faster than a tempo: the plan goes by it, and it is printed where it begins and ends.',
  ),
  ...shapeOf(DECISIONS_CATALOGUE),
};

/** For which harps each list means something. */
export const DECISION_HARPS: Readonly<Record<DecisionList, Concerned>> = {
  pins: 'both',
  respell: 'both',
  omit: 'both',
  delays: 'both',
  fullSettings: 'pedal',
  cueParts: 'both',
  tempos: 'both',
};

export type DecisionOptions = z.infer<z.ZodObject<typeof decisionsShape>>;

/**
 * The decisions that a score is planned by: those of the request, else those saved in the file.
 *
 * @returns `bad-option` for an entry of the request that has no place in the score; of what was saved in the file such
 * entries are only remarked
 */
export const decisionsFor = (choice: DecisionOptions, score: Score): Outcome<ChosenDecisions> => {
  const own = decisionsOfRequest(choice, score);
  if (!own.ok) return own;
  const chosen = chooseDecisions(
    score,
    own.value,
    choice.savedDecisions ?? DECISIONS_CATALOGUE.savedDecisions.default,
  );
  const [lost] = chosen.placed.unplaced;
  return chosen.origin === 'own' && lost !== undefined
    ? rejectUnplaced(lost, choice)
    : { ok: true, value: chosen };
};

/** @returns null where the request says nothing of its own */
const decisionsOfRequest = (choice: DecisionOptions, score: Score): Outcome<Decisions | null> => {
  if (DECISION_LISTS.every((list) => choice[list] === undefined)) return { ok: true, value: null };
  const pins: DecisionPin[] = [];
  for (const [index, given] of (choice.pins ?? []).entries()) {
    const named = namePin(given, score, `pins.${index}`);
    if (!named.ok) return named;
    pins.push(named.value);
  }
  const tempos: TempoDecision[] = [];
  for (const [index, given] of (choice.tempos ?? []).entries()) {
    const named = nameSpan(given, score, `tempos.${index}`);
    if (!named.ok) return named;
    tempos.push({ ...named.value, quartersPerMinute: given.quartersPerMinute });
  }
  const { respell = [], omit = [], delays = [], fullSettings = [], cueParts = [] } = choice;
  return { ok: true, value: { pins, respell, omit, delays, fullSettings, cueParts, tempos } };
};

type GivenPin = z.infer<typeof pin>;
type GivenPlace = z.infer<typeof place>;

const namePin = (given: GivenPin, score: Score, option: string): Outcome<DecisionPin> => {
  if (given.kind === 'move' || given.kind === 'lever-move') {
    const at = nameGivenPlace(given.at, score, `${option}.at`);
    return at.ok ? { ok: true, value: { ...given, at: at.value } } : at;
  }
  const span = nameSpan(given, score, option);
  if (!span.ok) return span;
  const { from, until } = span.value;
  // Only a position may be held to the end.
  return given.kind === 'forbid'
    ? { ok: true, value: { ...given, from, until: until! } }
    : { ok: true, value: { ...given, from, until } };
};

const nameSpan = (
  given: { readonly from: GivenPlace; readonly until: GivenPlace | null },
  score: Score,
  option: string,
): Outcome<Pick<TempoDecision, 'from' | 'until'>> => {
  const from = nameGivenPlace(given.from, score, `${option}.from`);
  if (!from.ok) return from;
  if (given.until === null) return { ok: true, value: { from: from.value, until: null } };
  const until = nameGivenPlace(given.until, score, `${option}.until`);
  return until.ok ? { ok: true, value: { from: from.value, until: until.value } } : until;
};

const nameGivenPlace = (given: GivenPlace, score: Score, option: string): Outcome<Place> => {
  if (typeof given !== 'string') return { ok: true, value: given };
  const at = readFraction(given);
  const named = at === null ? null : namePlace(score, at);
  return named === null
    ? badOption(option, given, 'it must lie within the score')
    : { ok: true, value: named };
};

const badOption = (option: string, value: unknown, expected: string) =>
  fail({ code: 'bad-option', option, value: quoteValue(value), expected });

const rejectUnplaced = ({ list, index, field, expected }: UnplacedDecision, choice: DecisionOptions) => {
  const entry: unknown = choice[list]?.[index];
  const value: unknown = field === null ? entry : Reflect.get(entry as object, field);
  return badOption([list, index, ...(field === null ? [] : [field])].join('.'), value, expected);
};
