import { group } from '../../group.ts';
import { nameString } from '../../harp/scordatura.ts';
import { lazy } from '../../memoize.ts';
import type { Pitch } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import { type ChosenSpelling, type Need, otherPedalStrings } from '../../sounding/needs.ts';
import { minMovesFor } from '../course/foot.ts';
import type { PedalProblem, PreparedScore } from '../pedal-problem.ts';
import { type NoteToSpell, notesToSpell, type OtherString, ownString, usesString } from './notes-to-spell.ts';
import { type ChosenSettings, chooseSpelling, type SpellingChoice } from './spelling.ts';

/** Strings for notes, and what is known of all other choices. */
export interface FreeSpelling {
  /** Other strings by note id; notes that stay as written are not in it. */
  readonly strings: ChosenSpelling;
  /**
   * No plan that can be played has fewer moves than this, in any spelling that could have been chosen.
   *
   * @param written what the notes ask for as they are written, with the pins of today: the strings go by none
   */
  readonly minMoves: (written: PedalProblem) => number;
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
 * The programme is first asked as if all notes that could make room did. Where one that it left in another's way did
 * not, it is asked again for either: that one goes, or the other stays. At the last all that would need others to make
 * room stays.
 */
export const spellFreely = (prepared: PreparedScore, written: PedalProblem): FreeSpelling => {
  const notes = notesToSpell(prepared, written);
  const boldest = choose(prepared, notes, offerAll);
  const chosen = makeRoom(prepared, notes, boldest);
  const proven = lazy(() => provenMoves(prepared, notes, boldest));
  return {
    strings: new Map(
      notes.flatMap(({ need }, i): [string, Pitch][] =>
        chosen[i] === null ? [] : [[need.note.id, chosen[i]!.string]],
      ),
    ),
    minMoves: (asked) => Math.max(proven(), movesOfFixedNotes(prepared, asked)),
  };
};

/** For each note the other string it goes to; null where it stays. */
type Choice = readonly (OtherString | null)[];

/** What the programme may choose from for a note: its own string or not, and which others. */
interface Offer {
  readonly own: boolean;
  readonly others: readonly OtherString[];
}

const offerAll = ({ others }: NoteToSpell): Offer => ({ own: true, others });

/** @returns the programme's answer, and it note by note */
const choose = (
  { moments, options }: PreparedScore,
  notes: readonly NoteToSpell[],
  offer: (note: NoteToSpell) => Offer,
): ChosenSettings & { readonly choice: Choice } => {
  const offers = notes.map(offer);
  const answer = chooseSpelling(
    notes.map(({ moment, own }, i): SpellingChoice => {
      const others = offers[i]!.others.map(({ string }) => string);
      // A note that must leave its string has no cheaper one first.
      return { moment, written: own, strings: offers[i]!.own ? [own, ...others] : others };
    }),
    moments.all,
    options.weights,
  );
  const choice = answer.strings.map((place, i) => {
    const other = offers[i]!.own ? place - 1 : place;
    return other < 0 ? null : offers[i]!.others[other]!;
  });
  return { ...answer, choice };
};

const makeRoom = (
  prepared: PreparedScore,
  notes: readonly NoteToSpell[],
  boldest: Pick<ChosenSettings, 'cost'> & { readonly choice: Choice },
): Choice => {
  const conflictsOf = (choice: Choice): Conflicts => findConflicts(notes, choice, prepared.secondsAt);
  const stay = (): Offer => ({ own: true, others: [] });
  const { intruders, mustLeave, mustStay } = conflictsOf(boldest.choice);
  if (intruders.size === 0) return boldest.choice;
  const isAtPeace = ({ choice }: { readonly choice: Choice }): boolean =>
    conflictsOf(choice).intruders.size === 0;
  const leaving = choose(prepared, notes, (note) =>
    mustStay.has(note.need) ? stay() : { own: !mustLeave.has(note.need), others: note.others },
  );
  // None that is offered less than the boldest comes to less than it.
  if (isAtPeace(leaving) && leaving.cost === boldest.cost) return leaving.choice;
  const staying = choose(prepared, notes, (note) => (intruders.has(note.need) ? stay() : offerAll(note)));
  const [first, second] = [leaving, staying].filter(isAtPeace);
  if (first === undefined) {
    const unasked = ({ askedOf }: OtherString): boolean => askedOf.length === 0;
    return choose(prepared, notes, ({ others }) => ({ own: true, others: others.filter(unasked) })).choice;
  }
  return (second === undefined || first.cost <= second.cost ? first : second).choice;
};

/** Notes that were given a string which another then needs; and what the others would have to do to make room. */
interface Conflicts {
  readonly intruders: ReadonlySet<Need>;
  readonly mustLeave: ReadonlySet<Need>;
  readonly mustStay: ReadonlySet<Need>;
}

const findConflicts = (
  notes: readonly NoteToSpell[],
  choice: Choice,
  secondsAt: (at: Rational) => number,
): Conflicts => {
  const moved = new Map(
    notes.flatMap(({ need, own }, i) => {
      const string = choice[i]?.string;
      return string === undefined ? [] : [[need, { need, own, string }] as const];
    }),
  );
  const newcomers = group(moved.values(), ({ string }) => nameString(string));
  const intruders = new Set<Need>();
  const mustLeave = new Set<Need>();
  const mustStay = new Set<Need>();
  notes.forEach(({ need, own }, i) => {
    const other = choice[i];
    if (other === null || other === undefined) return;
    const staying = other.askedOf.filter((user) => !moved.has(user));
    // Notes of one string may go to another one together.
    const before = newcomers
      .get(nameString(other.string))!
      .filter(
        (each) =>
          each.need !== need &&
          !intruders.has(each.need) &&
          nameString(each.own) !== nameString(own) &&
          usesString(each.need, need.onset, secondsAt),
      );
    if (staying.length + before.length > 0) intruders.add(need);
    for (const user of staying) mustLeave.add(user);
    for (const each of before) mustStay.add(each.need);
  });
  return { intruders, mustLeave, mustStay };
};

/**
 * Moves without which no plan can be played, by a programme that is asked no more than each plan is: the printed order
 * leads from each moment to the next, a foot moves one pedal at a time, and ornaments that may take their neighbour
 * elsewhere of their own accord are left out. 0 where that is not so.
 *
 * @param boldest the programme's answer for all notes
 */
const provenMoves = (
  prepared: PreparedScore,
  notes: readonly NoteToSpell[],
  boldest: ChosenSettings,
): number => {
  const { graph, options } = prepared;
  const readsOn = graph.into.every(
    (edges, moment) => moment === 0 || edges.some(({ from }) => from === moment - 1),
  );
  if (!readsOn || options.pedalsTogether || options.crossFeet) return 0;
  const settled = notes.filter(
    ({ need, own }) =>
      need.kind !== 'implied' || otherPedalStrings(own, options.profile, options.scordatura).length === 0,
  );
  const least = settled.length === notes.length ? boldest : choose(prepared, settled, offerAll);
  return least.fewestMoves ? least.moves : 0;
};

/** The moves that the notes with one string ask for by themselves, if the feet needed no time. */
const movesOfFixedNotes = ({ options }: PreparedScore, { needs, context }: PedalProblem): number =>
  minMovesFor(
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
