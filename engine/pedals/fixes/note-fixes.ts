import type { NoteHelp } from '../../findings/help/note-help.ts';
import type { FindingPlace } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { isSamePitch, type Pitch, pitchName } from '../../music/pitch.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { type Need, otherPedalStrings } from '../../sounding/needs.ts';
import type { NeedsByLetter } from '../../sounding/placed-needs.ts';
import { nameBarIn } from '../../words/bar-names.ts';
import type { PedalContext, SolvedMove } from '../course/foot.ts';
import type { PedalSolution } from '../course/solve.ts';
import { beatsToTell, twinToTell } from './beats-to-tell.ts';
import {
  asTold,
  type FootTrouble,
  isBetter,
  isCalmer,
  isInTrouble,
  type LocalPlan,
  positionsAtEnds,
  putInto,
} from './changed-plan.ts';
import { feetOf, lettersOf, openPlace, type PlannedPart, pinsAt, planPlace } from './fix-trials.ts';
import { respellingsTogether } from './making-room.ts';
import { type Span, spanAcross, spanAround } from './passage.ts';

const MOST_CHANGES = 3;
const MOST_TRIALS = 250;
/** Ways of one size that are offered. */
const MOST_WAYS = 2;

/** A place where something goes wrong for the feet. */
export interface TroubledPlace {
  readonly trouble: FootTrouble;
  /** Needs whose notes may be changed. */
  readonly about: readonly Need[];
  readonly moment: number;
}

/** Changes to notes that fix a place, and what the feet then do around it; null where only the whole part shows that. */
export interface FoundFix {
  readonly changes: readonly NoteChange[];
  readonly local: LocalPlan | null;
}

/** What was found for a place, the best first. */
export interface FoundFixes {
  readonly found: readonly FoundFix[];
  /** What else there is where none of these can be offered; searched when it is asked for. */
  readonly further: () => readonly FoundFix[];
}

export const NO_FIXES: FoundFixes = { found: [], further: () => [] };

/**
 * Searches the smallest sets of note changes that fix a place: all single changes, then pairs, then threes, of the
 * notes that the place is about. Where that loses a note, or nothing was found that can be offered, notes that make room
 * for each other are respelled together. Each trial plans the bars around anew, between the positions on either side.
 *
 * What a harpist writes first comes first: a note on another string before one left out, then naturals, then the usual
 * sharps and flats (common practice, no source).
 *
 * @returns each a way of its own; nothing where none of the sets tried fixes the place
 */
export const findNoteFixes = (part: PlannedPart, place: TroubledPlace): FoundFixes => {
  const { prepared, problem, solution } = part;
  const { about, moment, trouble } = place;
  const straight = spanAround(problem.context.graph, moment, moment);
  const span = straight ?? spanAcross(problem.context.graph.moments, moment);
  const told = asTold(solution);
  const opened = openPlace(part, positionsAtEnds(told, span), span, []);
  const { weights } = problem.context;
  const isMended = trouble.kind === 'bends-string' ? isCalmer : isBetter;
  const attempt = (changes: readonly NoteChange[]): FoundFix | null => {
    const local = planPlace(opened, changes, feetOf(changes), prepared.options.crossFeet);
    const plan = putInto(told, local, changes, prepared.moments);
    const isFixed = !isInTrouble(plan, trouble, weights) && isMended(plan, told, weights);
    const isWhole = straight === null || pinsAt(part, span, lettersOf(changes)).length > 0;
    return isFixed ? { changes, local: isWhole ? null : local } : null;
  };
  const together = () => fixesTogether(opened.passage.needs, part, place, span, attempt);
  if (trouble.kind === 'bends-string') return withoutLoss(changesOf(about, prepared), attempt, together);
  const found = smallestFixes(changesOf(about, prepared), attempt);
  if (found.length > 0 && !losesNote(found[0]!)) return { found, further: () => [...together()] };
  const [first] = together();
  return { found: [...(first === undefined ? [] : [first]), ...found.slice(0, 1)], further: () => [] };
};

/** A note respelled, or else the fewest together: a string that bends is no reason to lose one. */
const withoutLoss = (
  changes: readonly NoteChange[],
  attempt: (changes: readonly NoteChange[]) => FoundFix | null,
  together: () => Generator<FoundFix>,
): FoundFixes => {
  const single = smallestFixes(
    changes.filter(({ kind }) => kind === 'respell'),
    attempt,
    1,
  );
  const [first] = single.length > 0 ? single : together();
  return { found: first === undefined ? [] : [first], further: () => [] };
};

/** Sets of notes that fix the place respelled together, the smallest first. */
function* fixesTogether(
  needs: NeedsByLetter,
  { prepared }: PlannedPart,
  { about, moment }: TroubledPlace,
  span: Span,
  attempt: (changes: readonly NoteChange[]) => FoundFix | null,
): Generator<FoundFix> {
  const { profile, scordatura } = prepared.options;
  const canPlay = ({ from, to }: NoteChange & { readonly kind: 'respell' }): boolean =>
    otherPedalStrings(from, profile, scordatura).some((other) => isSamePitch(other, to));
  for (const changes of respellingsTogether(needs, about, moment - span.from)) {
    if (!changes.every(canPlay)) continue;
    const together = attempt(changes);
    if (together !== null) yield together;
  }
}

const losesNote = ({ changes }: FoundFix): boolean => changes.some(({ kind }) => kind === 'omit');

/** Ways of the smallest size that fixes the place; a second one only where no note is lost by either. */
const smallestFixes = (
  changes: readonly NoteChange[],
  attempt: (set: readonly NoteChange[]) => FoundFix | null,
  most = MOST_CHANGES,
): readonly FoundFix[] => {
  let trials = 0;
  for (let size = 1; size <= Math.min(most, changes.length); size += 1) {
    const found: FoundFix[] = [];
    for (const set of subsetsOf(changes, size)) {
      if (new Set(set.map((change) => change.note)).size < size) continue;
      if (found.length > 0 && (size > 1 || set[0]!.kind === 'omit')) break;
      trials += 1;
      if (trials > MOST_TRIALS) return found;
      const fix = attempt(set);
      if (fix !== null) found.push(fix);
      if (found.length === MOST_WAYS) break;
    }
    if (found.length > 0) return found;
  }
  return [];
};

/** The single changes, in the order in which a harpist would write them. */
const changesOf = (
  about: readonly Need[],
  { options: { profile, scordatura } }: PlannedPart['prepared'],
): readonly NoteChange[] => {
  const notes = [...new Map(about.map((need) => [need.note.id, need])).values()].filter(
    (need) => need.kind === 'plucked',
  );
  const own = (need: Need): Pitch => ({ letter: need.letter, octave: need.octave, alter: need.position });
  const respelled = notes.flatMap((need) =>
    otherPedalStrings(own(need), profile, scordatura).map(
      (to): NoteChange => ({ kind: 'respell', note: need.note.id, from: own(need), to }),
    ),
  );
  return [
    ...respelled.sort((a, b) => strangeness([a]) - strangeness([b])),
    ...notes.map((need): NoteChange => ({ kind: 'omit', note: need.note.id, from: own(need) })),
  ];
};

/** How far changes are from what a harpist writes first; the strangest of them counts. */
export const strangeness = (changes: readonly NoteChange[]): number =>
  Math.max(0, ...changes.map((change) => (change.kind === 'omit' ? 3 : strangenessOf(change.to))));

/** E♯, B♯, F♭ and C♭: sharps and flats that sound like naturals. */
const LIKE_NATURALS = ['E1', 'B1', 'F-1', 'C-1'];

const strangenessOf = ({ letter, alter }: Pitch): number =>
  alter === 0 ? 0 : LIKE_NATURALS.includes(`${letter}${alter}`) ? 2 : 1;

function* subsetsOf<T>(items: readonly T[], size: number, from = 0): Generator<readonly T[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let i = from; i <= items.length - size; i += 1) {
    for (const rest of subsetsOf(items, size - 1, i + 1)) yield [items[i]!, ...rest];
  }
}

/**
 * “Write D♭4 for the C♯4 in bar 3.”, once for all notes of a bar that are changed alike.
 *
 * @param at the place that they are changed for
 */
export const tellChanges = (
  changes: readonly NoteChange[],
  score: Score,
  at: Pick<FindingPlace, 'bar' | 'beat'>,
): NoteHelp => {
  const each = changes.map((change) => changedNote(change, score));
  const alike = group(each, ({ from, to, bar, isGrace }) =>
    [pitchName(from), to === null ? '' : pitchName(to), bar, isGrace].join(' '),
  );
  const told = [...alike.values()].map((same) => {
    const { from, to, bar, isGrace } = same[0]!;
    const notes = same.map(({ note }) => note);
    const [beats, twin] = [beatsToTell(score, from, notes, at), twinToTell(score, from, notes)];
    return { from, to, bar, isGrace, twin, beats, notes: notes.length };
  });
  return { kind: 'change-notes', facts: { changes: told } };
};

const changedNote = (change: NoteChange, score: Score) => {
  const note = notesById(score.notes).get(change.note)!;
  return {
    note,
    from: change.from,
    to: change.kind === 'respell' ? change.to : null,
    bar: nameBarIn(score)(note.bar),
    isGrace: note.grace !== null,
  };
};

/** The needs a busy foot's place is about: those of its moves close together, before and after each. */
export const needsAroundMove = (solution: PedalSolution, move: SolvedMove, context: PedalContext): Need[] => {
  const at = context.moments.all[move.moment]!.seconds;
  const reach = 2 * context.weights.footRestSeconds;
  return solution.moves
    .filter(
      (other) =>
        other.foot === move.foot && Math.abs(context.moments.all[other.moment]!.seconds - at) <= reach,
    )
    .flatMap((other) => [other.before, other.after].filter((need) => need !== null));
};
