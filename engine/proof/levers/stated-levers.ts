import type { LeverHarpProfile } from '../../harp/lever-profile.ts';
import { stringsWithLevers } from '../../harp/levered-strings.ts';
import { type OpenTuning, openAlter } from '../../harp/open-tuning.ts';
import type { HarpString } from '../../harp/profile.ts';
import { keyAlter, stepOf } from '../../music/pitch.ts';
import { compare, equals, type Rational, rationalKey } from '../../music/rational.ts';
import type { LeverMarking } from '../../score/model/markings.ts';
import type { Score } from '../../score/model/score.ts';
import type { LeverName } from '../../score/words/lever-words.ts';
import type { Need } from '../../sounding/needs.ts';

/** Where a lever stands: 0 down, 1 up. */
export type LeverPlace = 0 | 1;

/** What one text says of a lever, and by which of its names (null: by “others down”). */
export interface LeverStatement {
  readonly place: LeverPlace;
  readonly name: LeverName | null;
}

/** A name that means no lever of the harp, or a pitch that no lever gives. */
export interface StrayName {
  /** Index into the score's `leverWords`. */
  readonly marking: number;
  readonly name: LeverName;
  readonly why: 'string' | 'tuning';
}

/** What the texts of a file say of each lever. */
export interface StatedLevers {
  /** For each of the score's `leverWords`, by the step of the string. */
  readonly said: readonly ReadonlyMap<number, LeverStatement>[];
  /** How levers stand at the start of which no text there tells: as the key signature asks. */
  readonly atStart: ReadonlyMap<number, LeverPlace>;
  /** Indices of the texts that are tables, or go on with one of their moment. */
  readonly tables: ReadonlySet<number>;
  /** Some text tells how the levers stand before the start. */
  readonly hasTable: boolean;
  readonly strays: readonly StrayName[];
}

interface ReadInput {
  readonly score: Score;
  readonly tuning: OpenTuning;
  readonly levers: readonly HarpString[];
  readonly needsOf: ReadonlyMap<number, readonly Need[]>;
  readonly start: Rational;
}

/**
 * Reads what the texts say of each string that has a lever.
 *
 * A name with an octave means one string. Without one, in a table or before the first note, it means all strings of its
 * letter; later those whose next note asks for it, and where none does the one that is played next (common practice, no
 * source). Levers that nothing tells of stand as the key signature asks.
 *
 * @param needsOf by the step of the string, in printed order
 */
export const readStatedLevers = (
  score: Score,
  profile: LeverHarpProfile,
  tuning: OpenTuning,
  needsOf: ReadonlyMap<number, readonly Need[]>,
): StatedLevers => {
  const levers = stringsWithLevers(profile);
  const first = score.bars[score.playOrder[0] ?? 0]!;
  const input: ReadInput = { score, tuning, levers, needsOf, start: first.onset };
  const strays: StrayName[] = [];
  const named = score.leverWords.map((words, marking) => {
    const found = new Map<number, LeverStatement>();
    for (const name of words.says?.names ?? []) {
      const read = readOne(words, name, input);
      if (typeof read === 'string') strays.push({ marking, name, why: read });
      else for (const [step, place] of read) found.set(step, { place, name });
    }
    return found;
  });
  const besides = namedAt(score.leverWords, named);
  const said = named.map((own, marking) => {
    const { says, at } = score.leverWords[marking]!;
    if (says?.othersDown !== true) return own;
    // “All levers down” names none: no other text goes on with it.
    const here = own.size === 0 ? own : besides.get(rationalKey(at))!;
    const down = levers.map(stepOf).filter((step) => !here.has(step));
    return new Map([...own, ...down.map((step) => [step, { place: 0, name: null }] as const)]);
  });
  const atStart = new Map(
    levers.map((string) => {
      const raised = keyAlter(first.keyFifths, string.letter) - openAlter(tuning, string);
      return [stepOf(string), raised === 1 ? 1 : 0] as const;
    }),
  );
  const isAtStart = ({ at }: LeverMarking): boolean => compare(at, input.start) <= 0;
  for (const [marking, words] of score.leverWords.entries())
    if (isAtStart(words)) for (const step of said[marking]!.keys()) atStart.delete(step);
  const hasTable = score.leverWords.some((words) => words.says?.isTable === true && isAtStart(words));
  const tableAt = new Set(
    score.leverWords
      .filter(({ says }) => says?.isTable && says.names.length > 0)
      .map(({ at }) => rationalKey(at)),
  );
  const tables = new Set(
    score.leverWords.flatMap(({ says, at }, i) => {
      const goesOn = compare(at, input.start) <= 0 && tableAt.has(rationalKey(at));
      return says?.isTable || goesOn ? [i] : [];
    }),
  );
  return { said, atStart, tables, hasTable, strays };
};

/** Strings that texts of one moment name: a table over several lines is one. */
const namedAt = (
  words: readonly LeverMarking[],
  named: readonly ReadonlyMap<number, LeverStatement>[],
): ReadonlyMap<string, ReadonlySet<number>> => {
  const found = new Map<string, Set<number>>();
  for (const [marking, { at }] of words.entries()) {
    const key = rationalKey(at);
    found.set(key, new Set([...(found.get(key) ?? []), ...named[marking]!.keys()]));
  }
  return found;
};

const readOne = (
  { at, says }: LeverMarking,
  { letter, octave, alter, lever, isWhole }: LeverName,
  { tuning, levers, needsOf, start }: ReadInput,
): ReadonlyMap<number, LeverPlace> | StrayName['why'] => {
  const own = levers.filter(
    (string) => string.letter === letter && (octave ?? string.octave) === string.octave,
  );
  if (own.length === 0) return 'string';
  const placed = own.flatMap((string): (readonly [number, LeverPlace])[] => {
    const place = alter === null ? (lever === 'up' ? 1 : 0) : alter - openAlter(tuning, string);
    return place === 0 || place === 1 ? [[stepOf(string), place]] : [];
  });
  if (placed.length === 0) return 'tuning';
  const isAll = octave !== null || isWhole || says!.isTable || compare(at, start) <= 0;
  if (isAll) return new Map(placed);
  const next = placed.flatMap(([step, place]) => {
    const need = needsOf.get(step)?.find(({ onset }) => compare(onset, at) >= 0);
    return need === undefined ? [] : [{ step, place, need }];
  });
  const asked = next.filter(({ place, need }) => need.position === place);
  if (asked.length > 0) return new Map(asked.map(({ step, place }) => [step, place]));
  const soonest = next.toSorted((a, b) => compare(a.need.onset, b.need.onset))[0];
  return soonest === undefined
    ? new Map(placed.slice(0, 1))
    : new Map(
        next
          .filter(({ need }) => equals(need.onset, soonest.need.onset))
          .map(({ step, place }) => [step, place]),
      );
};
