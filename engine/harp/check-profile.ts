import { readAccidental } from '../music/accidental.ts';
import { stepOf } from '../music/pitch.ts';
import { fail, ok, type Problem, type Result } from '../problem.ts';
import type { HarpProfile } from './harps.ts';
import { E_FLAT_TUNING, type OpenTuning } from './open-tuning.ts';
import { type HarpString, isInRange, type StringRange } from './profile.ts';
import { readString } from './scordatura.ts';
import { isPosition, parseSetting } from './setting.ts';

/** From a toy to more than any harp that is built. */
const FEWEST_STRINGS = 7;
const MOST_STRINGS = 60;
const LONGEST_NAME = 100;

type Fields = Readonly<Record<string, unknown>>;

const FIELDS: Readonly<Record<HarpProfile['kind'], readonly string[]>> = {
  pedal: ['kind', 'name', 'lowest', 'highest', 'fixed'],
  lever: ['kind', 'name', 'lowest', 'highest', 'fixed', 'tuning', 'apart'],
};

/**
 * Checks a harp given as JSON: `kind` (`pedal` or `lever`), `name`, `lowest` and `highest` string, and, if there are
 * any, the `fixed` strings, that no pedal or lever changes. A lever harp may state the `tuning` of its open strings by
 * seven note names (E flat major if it does not) and the strings tuned `apart` from their letter by theirs.
 *
 * @returns `bad-value` with the field that is wrong
 * @example checkProfile({ kind: 'lever', name: 'my harp', lowest: 'C3', highest: 'C6', tuning: 'Db C B E F G A' })
 */
export const checkProfile = (given: unknown): Result<HarpProfile> => {
  if (!isObject(given)) return wrong('harp', given);
  const { kind, name } = given;
  if (kind !== 'pedal' && kind !== 'lever') return wrong('kind of harp', kind);
  const unknown = Object.keys(given).find((field) => !FIELDS[kind].includes(field));
  if (unknown !== undefined) return wrong('field of a harp', unknown);
  if (typeof name !== 'string' || name.trim() === '' || name.length > LONGEST_NAME) {
    return wrong('name of a harp', name);
  }
  const range = checkRange(given);
  if (!range.ok) return range;
  const fixed = checkStrings(given.fixed === undefined ? [] : given.fixed, range.value);
  if (!fixed.ok) return fixed;
  const harp = { name, ...range.value, fixed: fixed.value };
  if (kind === 'pedal') return ok({ kind, ...harp });
  const tuning = checkTuning(given, range.value);
  return tuning.ok ? ok({ kind, ...harp, tuning: tuning.value }) : tuning;
};

const isObject = (given: unknown): given is Fields =>
  typeof given === 'object' && given !== null && !Array.isArray(given);

const wrong = (what: string, value: unknown): { readonly ok: false; readonly problem: Problem } =>
  fail({ code: 'bad-value', what, value: quoteValue(value), line: 1, column: 1 });

const MAX_QUOTED_LENGTH = 60;

/** A value as a message can hold it. */
const quoteValue = (value: unknown): string =>
  (typeof value === 'object' && value !== null
    ? Array.isArray(value)
      ? 'a list'
      : 'an object'
    : String(value)
  ).slice(0, MAX_QUOTED_LENGTH);

const readGiven = (given: unknown): HarpString | null =>
  typeof given === 'string' ? readString(given) : null;

const checkRange = (given: Fields): Result<StringRange> => {
  const lowest = readGiven(given.lowest);
  if (lowest === null) return wrong('lowest string', given.lowest);
  const highest = readGiven(given.highest);
  if (highest === null) return wrong('highest string', given.highest);
  const strings = stepOf(highest) - stepOf(lowest) + 1;
  return strings < FEWEST_STRINGS || strings > MOST_STRINGS
    ? wrong(`highest string for a harp whose lowest is ${String(given.lowest)}`, given.highest)
    : ok({ lowest, highest });
};

const checkStrings = (given: unknown, range: StringRange): Result<readonly HarpString[]> => {
  if (!Array.isArray(given)) return wrong('list of fixed strings', given);
  const strings: HarpString[] = [];
  for (const each of given as readonly unknown[]) {
    const string = readGiven(each);
    const isNew = string !== null && strings.every((other) => stepOf(other) !== stepOf(string));
    if (string === null || !isNew || !isInRange(range, string)) return wrong('fixed string', each);
    strings.push(string);
  }
  return ok(strings);
};

const checkTuning = (given: Fields, range: StringRange): Result<OpenTuning> => {
  const apart = checkApart(given.apart === undefined ? [] : given.apart, range);
  if (!apart.ok) return apart;
  if (given.tuning === undefined) return ok({ ...E_FLAT_TUNING, exceptions: apart.value });
  if (typeof given.tuning !== 'string') return wrong('tuning', given.tuning);
  const letters = parseSetting(given.tuning);
  return letters.ok ? ok({ letters: letters.value, exceptions: apart.value }) : wrong('tuning', given.tuning);
};

const checkApart = (given: unknown, range: StringRange): Result<OpenTuning['exceptions']> => {
  if (!Array.isArray(given)) return wrong('list of strings with their own tuning', given);
  const apart: OpenTuning['exceptions'][number][] = [];
  for (const each of given as readonly unknown[]) {
    const parts = typeof each === 'string' ? /^([A-G])([b#♭♮♯]?)(\d)$/.exec(each) : null;
    const string = parts === null ? null : readString(`${parts[1]}${parts[3]}`);
    const alter = readAccidental(parts?.[2] ?? '') ?? 0;
    if (string === null || !isPosition(alter) || !isInRange(range, string)) {
      return wrong('string with its own tuning', each);
    }
    if (apart.some((other) => stepOf(other.string) === stepOf(string))) {
      return wrong('string with its own tuning: it is named twice', each);
    }
    apart.push({ string, alter });
  }
  return ok(apart);
};
