import { readString } from '../harp/scordatura.ts';
import { POSITION_NAMES } from '../harp/setting.ts';
import { isLetter } from '../music/pitch.ts';
import {
  BEAT_TEXT,
  DECISION_LIMITS,
  DECISION_LISTS,
  type DecisionPin,
  type Decisions,
  type NotesAt,
  type Place,
} from './model.ts';

/** Decisions, or where a value is not one: `pins.3.at.beat`, empty for the whole. */
export type CheckedDecisions =
  | { readonly ok: true; readonly decisions: Decisions }
  | { readonly ok: false; readonly where: string };

/**
 * Checks that a value out of JSON is a set of decisions: every member as the types say, and none beside them. A list may be left
 * out where it is empty.
 */
export const checkDecisions = (value: unknown): CheckedDecisions => {
  if (!isRecord(value)) return { ok: false, where: '' };
  const strange = Object.keys(value).find((name) => !(DECISION_LISTS as readonly string[]).includes(name));
  if (strange !== undefined) return { ok: false, where: strange.slice(0, 40) };
  for (const list of DECISION_LISTS) {
    const entries = value[list];
    if (entries === undefined) continue;
    if (!Array.isArray(entries) || entries.length > DECISION_LIMITS.entries)
      return { ok: false, where: list };
    const wrong = entries.findIndex((entry) => !IS_ENTRY[list](entry));
    if (wrong >= 0) return { ok: false, where: `${list}.${wrong}` };
  }
  const {
    pins = [],
    respell = [],
    omit = [],
    delays = [],
    fullSettings = [],
    cueParts = [],
    tempos = [],
  } = value as Partial<Decisions>;
  return { ok: true, decisions: { pins, respell, omit, delays, fullSettings, cueParts, tempos } };
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
  typeof value === 'string' && value.length <= DECISION_LIMITS.pitchLength;

const isPartName = (value: unknown): boolean =>
  value === null || (typeof value === 'string' && value.length <= DECISION_LIMITS.partLength);

const isBoolean = (value: unknown): boolean => typeof value === 'boolean';

const PLACE = { barIndex: isWhole(0, DECISION_LIMITS.barIndex), beat: isBeat };

const isPlace = (value: unknown): value is Place => has(value, PLACE);

const isPlaceOrEnd = (value: unknown): boolean => value === null || isPlace(value);

const isTempo = (value: unknown): boolean =>
  typeof value === 'number' && value >= DECISION_LIMITS.slowest && value <= DECISION_LIMITS.fastest;

const NOTES_AT = {
  ...PLACE,
  pitch: isPitchText,
  staff: (value: unknown) => value === undefined || isWhole(1, DECISION_LIMITS.staff)(value),
  grace: (value: unknown) => value === undefined || isWhole(0, DECISION_LIMITS.grace)(value),
};

const isNotesAt = (value: unknown): value is NotesAt => has(value, NOTES_AT);

const AIM = { pedal: isPedal, position: isOne(...POSITION_NAMES) };

const LEVER_AIM = {
  lever: (value: unknown) => typeof value === 'string' && readString(value) !== null,
  to: isOne('down', 'up'),
};

const isPin = (value: unknown): value is DecisionPin =>
  has(value, { kind: isOne('move'), ...AIM, at: isPlace }) ||
  has(value, { kind: isOne('forbid'), from: isPlace, until: isPlace }) ||
  has(value, {
    kind: isOne('lever-move'),
    ...LEVER_AIM,
    at: isPlace,
    hand: isOne(undefined, 'left', 'right'),
  }) ||
  has(value, {
    kind: isOne('lever-position'),
    ...LEVER_AIM,
    from: isPlace,
    until: isPlaceOrEnd,
  }) ||
  has(value, {
    kind: isOne('position'),
    ...AIM,
    from: isPlace,
    until: isPlaceOrEnd,
  });

const IS_ENTRY: Readonly<Record<keyof Decisions, (entry: unknown) => boolean>> = {
  pins: isPin,
  respell: (entry) => has(entry, { ...NOTES_AT, to: isPitchText }),
  omit: isNotesAt,
  delays: (entry) => has(entry, { ...NOTES_AT, toBeat: isBeat }),
  fullSettings: (entry) => has(entry, { ...PLACE, print: isBoolean }),
  cueParts: (entry) => has(entry, { ...PLACE, part: isPartName }),
  tempos: (entry) => has(entry, { from: isPlace, until: isPlaceOrEnd, quartersPerMinute: isTempo }),
};
