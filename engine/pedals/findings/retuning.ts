import { type Help, help } from '../../findings/help/help.ts';
import { isInRange, type PedalHarpProfile } from '../../harp/profile.ts';
import { listRetuned, nameString, type Scordatura, stringsSounding } from '../../harp/scordatura.ts';
import { POSITIONS } from '../../harp/setting.ts';
import { letterAtStep, midiOf, type Pitch, stepOf } from '../../music/pitch.ts';

/** A tuning that gives a piece its microtones, and what it takes away. */
export interface Retuning {
  readonly strings: Scordatura;
  /** Pitches of the piece that no string gives then, each once, the lowest first. */
  readonly lost: readonly Pitch[];
}

/** No string is moved farther than a quarter-tone: beyond it, its other neighbour is nearer. */
const FARTHEST = 50;
/** Choices looked at; a piece with more keeps the best found until then. */
const MOST_CHOICES = 200_000;

/**
 * Searches strings to tune otherwise before the piece so that every microtone has a string: with the fewest plain
 * pitches lost, then the fewest strings, then those that are lowered rather than raised.
 *
 * Branch and bound over the distinct microtones, each with the strings that could give it; a string has one tuning.
 *
 * @param pitches what the piece asks for; order and repetition do not matter
 * @returns null where it asks for no microtone, or for one that no string within reach can give
 */
export const findRetuning = (pitches: readonly Pitch[], profile: PedalHarpProfile): Retuning | null => {
  const distinct = distinctPitches(pitches);
  const plain = distinct.filter(isPlain);
  const micro = distinct.filter((pitch) => !isPlain(pitch));
  const ways = micro.map((pitch) => waysTo(pitch, profile));
  if (micro.length === 0 || ways.some((each) => each.length === 0)) return null;
  const search = new RetuningSearch(ways, plain, profile);
  search.descend(0, new Map());
  return search.best;
};

const isPlain = ({ alter }: Pitch): boolean => Number.isInteger(alter);

/** One of each sounding pitch, from the lowest. */
const distinctPitches = (pitches: readonly Pitch[]): Pitch[] =>
  [...new Map(pitches.map((pitch) => [midiOf(pitch), pitch])).values()].sort((a, b) => midiOf(a) - midiOf(b));

interface Way {
  readonly string: string;
  readonly cents: number;
}

const waysTo = (pitch: Pitch, profile: PedalHarpProfile): Way[] =>
  [0, -1, 1].flatMap((steps) => {
    const string = letterAtStep(stepOf(pitch) + steps);
    if (!isInRange(profile, string)) return [];
    return POSITIONS.map((alter) => ({
      string: nameString(string),
      cents: Math.round(100 * (midiOf(pitch) - midiOf({ ...string, alter }))),
    })).filter(({ cents }) => Math.abs(cents) <= FARTHEST && cents !== 0);
  });

/** Fewest lost, then fewest strings, then least raised. */
const rankOf = ({ strings, lost }: Retuning): readonly number[] => [
  lost.length,
  strings.size,
  [...strings.values()].filter((cents) => cents > 0).length,
];

const isBetter = (a: readonly number[], b: readonly number[]): boolean => {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at >= 0 && a[at]! < b[at]!;
};

class RetuningSearch {
  best: Retuning | null = null;
  #choices = 0;
  readonly #ways: readonly (readonly Way[])[];
  readonly #plain: readonly Pitch[];
  readonly #profile: PedalHarpProfile;

  constructor(ways: readonly (readonly Way[])[], plain: readonly Pitch[], profile: PedalHarpProfile) {
    this.#ways = ways;
    this.#plain = plain;
    this.#profile = profile;
  }

  /** Strings that are added lose no fewer pitches: a beginning that is no better than the best is given up. */
  descend(next: number, strings: Map<string, number>): void {
    this.#choices += 1;
    if (this.#choices > MOST_CHOICES) return;
    const here: Retuning = { strings: new Map(strings), lost: this.#lostWith(strings) };
    if (this.best !== null && !isBetter(rankOf(here), rankOf(this.best))) return;
    const ways = this.#ways[next];
    if (ways === undefined) {
      this.best = here;
      return;
    }
    const served = ways.filter(({ string, cents }) => strings.get(string) === cents);
    const open = served.length > 0 ? served.slice(0, 1) : ways.filter(({ string }) => !strings.has(string));
    for (const { string, cents } of open) {
      if (strings.get(string) === cents) {
        this.descend(next + 1, strings);
      } else {
        strings.set(string, cents);
        this.descend(next + 1, strings);
        strings.delete(string);
      }
    }
  }

  #lostWith(strings: Scordatura): Pitch[] {
    return this.#plain.filter(
      (pitch) =>
        isInRange(this.#profile, pitch) &&
        !stringsSounding(pitch, strings).some((string) => isInRange(this.#profile, string)),
    );
  }
}

/** The tuning as advice, with what it costs. */
export const adviseRetuning = ({ strings, lost }: Retuning): Help =>
  help('retune-strings', { tuned: listRetuned(strings), lost });
