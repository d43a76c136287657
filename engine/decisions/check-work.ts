import { POSITION_NAMES } from '../harp/setting.ts';
import { isLetter } from '../music/pitch.ts';
import {
  BEAT_TEXT,
  type NotesAt,
  type Place,
  type PlacedPin,
  WORK_LIMITS,
  WORK_LISTS,
  type Work,
} from './model.ts';

/** A work, or where a value is not one: `pins.3.at.beat`, empty for the whole. */
export type CheckedWork =
  | { readonly ok: true; readonly work: Work }
  | { readonly ok: false; readonly where: string };

/**
 * Checks that a value out of JSON is a work: every member as the types say, and none beside them. A list may be left
 * out where it is empty.
 */
export const checkWork = (value: unknown): CheckedWork => {
  if (!isRecord(value)) return { ok: false, where: '' };
  const strange = Object.keys(value).find((name) => !(WORK_LISTS as readonly string[]).includes(name));
  if (strange !== undefined) return { ok: false, where: strange.slice(0, 40) };
  for (const list of WORK_LISTS) {
    const entries = value[list];
    if (entries === undefined) continue;
    if (!Array.isArray(entries) || entries.length > WORK_LIMITS.entries) return { ok: false, where: list };
    const wrong = entries.findIndex((entry) => !IS_ENTRY[list](entry));
    if (wrong >= 0) return { ok: false, where: `${list}.${wrong}` };
  }
  const { pins = [], respell = [], leaveOut = [], settingsAt = [] } = value as Partial<Work>;
  return { ok: true, work: { pins, respell, leaveOut, settingsAt } };
};

type Members = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Members =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Whether a value has members that pass, and no others. */
const has = (
  value: unknown,
  checks: Readonly<Record<string, (member: unknown) => boolean>>,
): value is Members =>
  isRecord(value) &&
  Object.keys(value).every((name) => Object.hasOwn(checks, name)) &&
  Object.entries(checks).every(([name, passes]) =>
    passes(Object.hasOwn(value, name) ? value[name] : undefined),
  );

const isOne =
  (...values: readonly unknown[]) =>
  (value: unknown): boolean =>
    values.includes(value);

const isWhole =
  (least: number, most: number) =>
  (value: unknown): boolean =>
    Number.isInteger(value) && (value as number) >= least && (value as number) <= most;

const isBeat = (value: unknown): boolean => typeof value === 'string' && BEAT_TEXT.test(value);

const isPedal = (value: unknown): boolean => typeof value === 'string' && isLetter(value);

const isPitchText = (value: unknown): boolean =>
  typeof value === 'string' && value.length <= WORK_LIMITS.pitchLength;

const isBoolean = (value: unknown): boolean => typeof value === 'boolean';

const PLACE = { bar: isWhole(0, WORK_LIMITS.bar), beat: isBeat };

const isPlace = (value: unknown): value is Place => has(value, PLACE);

const NOTES_AT = {
  ...PLACE,
  pitch: isPitchText,
  staff: (value: unknown) => value === undefined || isWhole(1, WORK_LIMITS.staff)(value),
};

const isNotesAt = (value: unknown): value is NotesAt => has(value, NOTES_AT);

const AIM = { pedal: isPedal, position: isOne(...POSITION_NAMES) };

const isPin = (value: unknown): value is PlacedPin =>
  has(value, { kind: isOne('move'), ...AIM, at: isPlace }) ||
  has(value, { kind: isOne('forbid'), from: isPlace, until: isPlace }) ||
  has(value, {
    kind: isOne('position'),
    ...AIM,
    from: isPlace,
    until: (until) => until === null || isPlace(until),
  });

const IS_ENTRY: Readonly<Record<keyof Work, (entry: unknown) => boolean>> = {
  pins: isPin,
  respell: (entry) => has(entry, { ...NOTES_AT, to: isPitchText }),
  leaveOut: isNotesAt,
  settingsAt: (entry) => has(entry, { ...PLACE, print: isBoolean }),
};
