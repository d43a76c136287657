import { group } from 'd3-array';
import { midiOf, type Pitch } from '../../music/pitch.ts';
import { compare, type Rational, rationalKey } from '../../music/rational.ts';
import { type ChosenSpelling, type Need, otherPedalStrings } from '../../sounding/needs.ts';
import type { PlacedNeed } from '../../sounding/placed-needs.ts';
import { RESTRIKE_SECONDS } from '../../sounding/string-times.ts';
import { leastMovesFor } from '../course/foot.ts';
import type { PedalProblem, PreparedScore } from '../pedal-problem.ts';
import { chooseSpelling, type SpellingChoice } from './spelling.ts';

/** Strings for notes, and what is known of all other choices. */
export interface FreeSpelling {
  /** Other strings by note id; notes that stay as written are not in it. */
  readonly strings: ChosenSpelling;
  /** No plan that can be played has fewer moves than this, in any spelling that could have been chosen. */
  readonly leastMoves: number;
}

/**
 * The best joint choice of spelling and setting for the whole part, in printed order: the fewest moves, then the fewest
 * respelled notes.
 *
 * A note that is plucked once may go to another string of the same pitch, by itself or with others that make room for
 * it (D, D♯ and E as D, E♭ and F♭); trills, tremolos, glissandi, implied notes, those whose string the user chose, and
 * those on strings tuned otherwise stay. A string that sounds, or that another note plucks at the same time or too
 * shortly before or after, is never taken: notes on two strings of one pitch, by turns, are written so to be repeated
 * fast.
 *
 * The programme is first asked as if all notes that could make room did. What it then leaves in another's way stays as
 * written, and it is asked again; at the last all that would need others to make room stays.
 */
export const spellFreely = (prepared: PreparedScore, written: PedalProblem): FreeSpelling => {
  const notes = notesToSpell(prepared, written);
  const choose = (stays: (note: NoteToSpell) => boolean) =>
    chooseSpelling(
      notes.map(
        (note): SpellingChoice => ({
          moment: note.moment,
          strings: stays(note) ? [note.own] : [note.own, ...note.others.map(({ string }) => string)],
        }),
      ),
      prepared.moments.all,
      prepared.options.weights,
    );
  const boldest = choose(() => false);
  let chosen = boldest.strings;
  let inTheWay = notesInTheWay(notes, chosen);
  if (inTheWay.size > 0) {
    chosen = choose((note) => inTheWay.has(note)).strings;
    inTheWay = notesInTheWay(notes, chosen);
  }
  if (inTheWay.size > 0) {
    chosen = choose(({ others }) => others.some(({ askedOf }) => askedOf.length > 0)).strings;
  }
  const isProof = boldest.fewestMoves && settlesAllNeeds(prepared, notes);
  return {
    strings: new Map(
      notes.flatMap(({ need, others }, i): [string, Pitch][] =>
        chosen[i]! > 0 ? [[need.note.id, others[chosen[i]! - 1]!.string]] : [],
      ),
    ),
    leastMoves: Math.max(isProof ? boldest.moves : 0, movesOfFixedNotes(prepared, written)),
  };
};

/** A need at one moment with the strings it may be served on. */
interface NoteToSpell extends PlacedNeed {
  readonly own: Pitch;
  readonly others: readonly OtherString[];
}

/** A string that a note may go to, once the needs that it is asked of have left it. */
interface OtherString {
  readonly string: Pitch;
  readonly askedOf: readonly Need[];
}

const ownString = ({ letter, octave, position }: Need): Pitch => ({ letter, octave, alter: position });

const notesToSpell = (prepared: PreparedScore, written: PedalProblem): NoteToSpell[] => {
  const { options } = prepared;
  const usersOf = findStringUsers(written.listed.needs, prepared.secondsAt);
  const mayMove = (need: Need): boolean =>
    need.kind === 'plucked' &&
    compare(need.heldUntil, need.onset) === 0 &&
    !options.respelled.has(need.note.id);
  const elsewhere = (need: Need): readonly Pitch[] =>
    mayMove(need) ? otherPedalStrings(ownString(need), options.profile, options.scordatura) : [];
  /** Another note of the pitch keeps its string; one that has nowhere to go, too. */
  const keepsString = (user: Need, pitch: Pitch): boolean =>
    midiOf(ownString(user)) === midiOf(pitch) || elsewhere(user).length === 0;
  const othersOf = (need: Need): OtherString[] =>
    elsewhere(need).flatMap((string) => {
      const users = usersOf(string, need.onset);
      return users.some((user) => keepsString(user, string)) ? [] : [{ string, askedOf: users }];
    });
  return [...written.needs.values()]
    .flatMap((placed) =>
      placed.map(({ need, moment }) => ({ need, moment, own: ownString(need), others: othersOf(need) })),
    )
    .sort((a, b) => a.moment - b.moment);
};

/** Notes that were given a string which one it was asked of has not left. */
const notesInTheWay = (
  notes: readonly NoteToSpell[],
  chosen: readonly number[],
): ReadonlySet<NoteToSpell> => {
  const moved = new Set(notes.filter((_, i) => chosen[i]! > 0).map(({ need }) => need));
  return new Set(
    notes.filter(
      ({ others }, i) => chosen[i]! > 0 && others[chosen[i]! - 1]!.askedOf.some((user) => !moved.has(user)),
    ),
  );
};

/**
 * Whether the programme knew all that a plan goes by: the printed order leads from each moment to the next, and no
 * ornament may take its neighbour elsewhere of its own accord.
 */
const settlesAllNeeds = ({ graph, options }: PreparedScore, notes: readonly NoteToSpell[]): boolean =>
  graph.into.every((edges, moment) => moment === 0 || edges.some(({ from }) => from === moment - 1)) &&
  notes.every(
    ({ need, own }) =>
      need.kind !== 'implied' || otherPedalStrings(own, options.profile, options.scordatura).length === 0,
  );

/** The moves that the notes with one string ask for by themselves, if the feet needed no time. */
const movesOfFixedNotes = ({ options }: PreparedScore, { needs, context }: PedalProblem): number =>
  leastMovesFor(
    new Map(
      [...needs].map(([letter, placed]) => [
        letter,
        placed.filter(
          ({ need }) =>
            need.kind === 'swept' ||
            otherPedalStrings(ownString(need), options.profile, options.scordatura).length === 0,
        ),
      ]),
    ),
    context,
  );

/** The needs that pluck a string at about a time, or whose sound holds it then. */
const findStringUsers = (
  needs: readonly Need[],
  secondsAt: (at: Rational) => number,
): ((pitch: Pitch, at: Rational) => readonly Need[]) => {
  const byString = group(needs, ({ letter, octave }) => `${letter}${octave}`);
  const known = new Map<string, readonly Need[]>();
  return (pitch, at) => {
    const key = `${pitch.letter}${pitch.octave}`;
    const memo = `${key};${rationalKey(at)}`;
    const answer =
      known.get(memo) ??
      (byString.get(key) ?? []).filter(
        (need) =>
          Math.abs(secondsAt(need.onset) - secondsAt(at)) < RESTRIKE_SECONDS ||
          (compare(need.onset, at) < 0 && compare(need.release, at) > 0),
      );
    known.set(memo, answer);
    return answer;
  };
};
