import { z } from 'zod';
import { type ChosenWork, chooseWork } from '../../engine/decisions/choose-work.ts';
import type { LostEntry } from '../../engine/decisions/lost-entries.ts';
import {
  type Place,
  type PlacedPin,
  WORK_LIMITS,
  WORK_LISTS,
  type Work,
  type WorkList,
} from '../../engine/decisions/model.ts';
import { namePlace, readFraction } from '../../engine/decisions/places.ts';
import { type Catalogue, type Concerned, entry, yesOrNo } from '../../engine/options/describe-option.ts';
import type { Score } from '../../engine/score/model.ts';
import { decline, type Outcome } from '../service-problem.ts';
import { shapeOf } from './option-schemas.ts';
import { beat, letter, positionName, scoreTime } from './score-values.ts';
import { tellValue } from './tell-value.ts';

/** What a user decided about a part, as it is written in the JSON of a request. */

const placeShape = {
  bar: z.int().min(0).max(WORK_LIMITS.bar).meta({ description: 'Index of the printed bar, the first is 0.' }),
  beat,
};

const place = z.union([scoreTime, z.strictObject(placeShape)]).meta({
  id: 'Place',
  description: 'A score time, or a printed bar by its index (from 0) with a beat (from 1).',
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
      .meta({ description: 'The pedal stands so from one place until just before another, or to the end.' }),
    z
      .strictObject({ kind: z.literal('move'), pedal: letter, position: positionName, at: place })
      .meta({ description: 'The pedal moves to this position exactly here.' }),
    z
      .strictObject({ kind: z.literal('forbid'), from: place, until: place })
      .meta({ description: 'No pedal moves in this span.' }),
  ])
  .meta({ id: 'Pin', description: 'Something about the plan that is fixed beforehand.' });

const pitchText = z
  .string()
  .max(WORK_LIMITS.pitchLength)
  .meta({
    id: 'Pitch',
    description: 'A string with its pitch; for a harmonic that which is plucked.',
    examples: ['C♯4', 'Db4'],
  });

const notesAtShape = {
  ...placeShape,
  pitch: pitchText,
  staff: z
    .int()
    .min(1)
    .max(WORK_LIMITS.staff)
    .exactOptional()
    .meta({ description: 'The notes of one staff alone, the upper being 1; of all if not given.' }),
};

/** Notes as answers name them and as requests give them back. */
export const notesAt = z
  .strictObject(notesAtShape)
  .meta({ id: 'NotesAt', description: 'The notes that are written for one string and begin at one place.' });

const listOf = <T extends z.ZodType>(entry: T, description: string) =>
  z
    .array(entry)
    .max(WORK_LIMITS.entries)
    .exactOptional()
    .meta({ description: `${description} In the JSON of a form only.` });

const WORK_CATALOGUE = {
  savedWork: entry(
    'both',
    'part',
    yesOrNo({
      label: null,
      description:
        'Use the pins, strings, notes left out and settings that an earlier annotation saved in the file, where the request gives none of these itself.',
      default: true,
    }),
  ),
} as const satisfies Catalogue;

export const workShape = {
  pins: listOf(pin, 'Positions and moments that are fixed beforehand.'),
  respell: listOf(
    z
      .strictObject({ ...notesAtShape, to: pitchText })
      .meta({ id: 'ChosenString', description: 'Notes to be played on another string of the same pitch.' }),
    'Notes to be played on a string of another name, or on their own where spelling is free.',
  ),
  leaveOut: listOf(notesAt, 'Notes that the player leaves out: they stand in brackets and ask for nothing.'),
  settingsAt: listOf(
    z
      .strictObject({
        ...placeShape,
        print: z.boolean().meta({ description: 'Whether a full setting is printed there.' }),
      })
      .meta({ id: 'SettingAt', description: 'A place where a full setting is printed, or is not.' }),
    'Places where a full setting is printed, or is not, whatever the other options say.',
  ),
  ...shapeOf(WORK_CATALOGUE),
};

/** For which harps each list means something. */
export const WORK_HARPS: Readonly<Record<WorkList, Concerned>> = {
  pins: 'pedal',
  respell: 'both',
  leaveOut: 'both',
  settingsAt: 'pedal',
};

export type WorkChoice = z.infer<z.ZodObject<typeof workShape>>;

/**
 * The work that a score is planned by: that of the request, else the one saved in the file.
 *
 * @returns `bad-option` for an entry of the request that has no place in the score; of what was saved in the file such
 * entries are only remarked
 */
export const workFor = (choice: WorkChoice, score: Score): Outcome<ChosenWork> => {
  const own = ownWork(choice, score);
  if (!own.ok) return own;
  const chosen = chooseWork(score, own.value, choice.savedWork ?? WORK_CATALOGUE.savedWork.default);
  const [lost] = chosen.placed.lost;
  return chosen.origin === 'own' && lost !== undefined
    ? refuseLost(lost, choice)
    : { ok: true, value: chosen };
};

/** @returns null where the request says nothing of its own */
const ownWork = (choice: WorkChoice, score: Score): Outcome<Work | null> => {
  if (WORK_LISTS.every((list) => choice[list] === undefined)) return { ok: true, value: null };
  const pins: PlacedPin[] = [];
  for (const [index, given] of (choice.pins ?? []).entries()) {
    const named = namePin(given, score, `pins.${index}`);
    if (!named.ok) return named;
    pins.push(named.value);
  }
  const { respell = [], leaveOut = [], settingsAt = [] } = choice;
  return { ok: true, value: { pins, respell, leaveOut, settingsAt } };
};

type GivenPin = z.infer<typeof pin>;
type GivenPlace = z.infer<typeof place>;

const namePin = (given: GivenPin, score: Score, option: string): Outcome<PlacedPin> => {
  if (given.kind === 'move') {
    const at = nameGivenPlace(given.at, score, `${option}.at`);
    return at.ok ? { ok: true, value: { ...given, at: at.value } } : at;
  }
  const from = nameGivenPlace(given.from, score, `${option}.from`);
  if (!from.ok) return from;
  // Only a position may be held to the end.
  if (given.kind === 'position' && given.until === null) {
    return { ok: true, value: { ...given, from: from.value, until: null } };
  }
  const until = nameGivenPlace(given.until!, score, `${option}.until`);
  return until.ok ? { ok: true, value: { ...given, from: from.value, until: until.value } } : until;
};

const nameGivenPlace = (given: GivenPlace, score: Score, option: string): Outcome<Place> => {
  if (typeof given !== 'string') return { ok: true, value: given };
  const at = readFraction(given);
  const named = at === null ? null : namePlace(score, at);
  return named === null ? bad(option, given, 'it lies within the score') : { ok: true, value: named };
};

const bad = (option: string, value: unknown, expected: string) =>
  decline({ code: 'bad-option', option, value: tellValue(value), expected });

const refuseLost = ({ list, index, field, expected }: LostEntry, choice: WorkChoice) => {
  const entry: unknown = choice[list]?.[index];
  const value: unknown = field === null ? entry : Reflect.get(entry as object, field);
  return bad([list, index, ...(field === null ? [] : [field])].join('.'), value, expected);
};
