import type { NoteChange, NoteFix } from '../../findings/model.ts';
import { LETTERS, type Pitch, pitchName } from '../../music/pitch.ts';
import type { Score } from '../../score/model.ts';
import { changeNeeds } from '../../sounding/changed-needs.ts';
import { type Need, otherStrings } from '../../sounding/needs.ts';
import { firstNeedFrom } from '../../sounding/placed-needs.ts';
import { areEqualWeights, type PedalContext, type SolvedMove } from '../course/foot.ts';
import { countStops, type PedalSolution, solveFeet } from '../course/solve.ts';
import type { PedalProblem } from '../pedal-problem.ts';
import { respellingsTogether } from './making-room.ts';

/** The place is judged with this much music on either side. */
const MOMENTS_AROUND = 40;
const MOST_CHANGES = 3;
const MOST_TRIALS = 250;

/**
 * Searches the smallest set of note changes that fixes a place: all single changes, then pairs, then threes, of the
 * notes that the place is about; respelling is tried before leaving out. Each trial plans the bars around anew. Where
 * that loses a note, or nothing was found, notes that make room for each other are respelled together.
 *
 * @param about needs whose notes may be changed
 * @param moment where the place is
 * @returns what loses no note first; nothing where none of the sets tried fixes the place
 */
export const findNoteFixes = (
  problem: PedalProblem,
  about: readonly Need[],
  moment: number,
  score: Score,
): NoteFix[] => {
  const passage = cutPassage(problem, moment);
  const asWritten = solveFeet(passage.needs, passage.stage);
  const stops = countStops(asWritten);
  const fixes = (set: readonly NoteChange[]): boolean =>
    countStops(solveFeet(changeNeeds(passage.needs, set), passage.stage, asWritten)) < stops;
  const smallest = smallestFix(about, fixes);
  const losesNote = smallest === undefined || smallest.some(({ kind }) => kind === 'omit');
  const together = losesNote
    ? respellingsTogether(passage.needs, about, moment - spanAround(moment).from).find(fixes)
    : undefined;
  return [together, smallest]
    .filter((changes) => changes !== undefined)
    .map((changes) => ({ sentence: describeChanges(changes, score), changes }));
};

const smallestFix = (
  about: readonly Need[],
  fixes: (set: readonly NoteChange[]) => boolean,
): readonly NoteChange[] | undefined => {
  const changes = changesOf(about);
  let trials = 0;
  for (let size = 1; size <= Math.min(MOST_CHANGES, changes.length); size += 1) {
    for (const set of subsetsOf(changes, size)) {
      if (new Set(set.map((change) => change.note)).size < size) continue;
      trials += 1;
      if (trials > MOST_TRIALS) return undefined;
      if (fixes(set)) return set;
    }
  }
  return undefined;
};

const changesOf = (about: readonly Need[]): NoteChange[] => {
  const notes = [...new Map(about.map((need) => [need.note.id, need])).values()].filter(
    (need) => need.kind === 'plucked',
  );
  const own = (need: Need): Pitch => ({ letter: need.letter, octave: need.octave, alter: need.position });
  return [
    ...notes.flatMap((need) =>
      otherStrings(own(need)).map(
        (to): NoteChange => ({ kind: 'respell', note: need.note.id, from: own(need), to }),
      ),
    ),
    ...notes.map((need): NoteChange => ({ kind: 'omit', note: need.note.id, from: own(need) })),
  ];
};

function* subsetsOf<T>(items: readonly T[], size: number, from = 0): Generator<readonly T[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let i = from; i <= items.length - size; i += 1) {
    for (const rest of subsetsOf(items, size - 1, i + 1)) yield [items[i]!, ...rest];
  }
}

/** The moments that a place at a moment is judged with; some may lie past the end of the part. */
const spanAround = (moment: number): { readonly from: number; readonly until: number } => ({
  from: Math.max(0, moment - MOMENTS_AROUND),
  until: moment + MOMENTS_AROUND,
});

/** Whether a place has the same fixes in both problems, given that they ask for the same needs. */
export const isSamePassage = (
  { context: a }: PedalProblem,
  { context: b }: PedalProblem,
  moment: number,
): boolean => {
  const { from, until } = spanAround(moment);
  if (a.together !== b.together || a.moments !== b.moments || !areEqualWeights(a.weights, b.weights))
    return false;
  for (let at = from; at < until; at += 1) {
    if (a.isForbidden(at) !== b.isForbidden(at)) return false;
    if (LETTERS.some((letter) => a.pinned(letter).get(at) !== b.pinned(letter).get(at))) return false;
  }
  return LETTERS.every((letter) => a.idle(letter) === b.idle(letter));
};

interface Passage {
  readonly needs: PedalProblem['needs'];
  readonly stage: PedalContext;
}

/** The moments around a place as a part of their own, read straight through. */
const cutPassage = ({ needs, context }: PedalProblem, moment: number): Passage => {
  const { from, until } = spanAround(moment);
  const all = context.moments.all.slice(from, until);
  const edges = all.map((each, i) => ({
    from: i - 1,
    to: i,
    seconds: i === 0 ? 0 : Math.max(0, each.seconds - all[i - 1]!.seconds),
  }));
  return {
    needs: new Map(
      [...needs].map(([letter, placed]) => [
        letter,
        placed
          .slice(firstNeedFrom(placed, from), firstNeedFrom(placed, from + all.length))
          .map((each) => ({ need: each.need, moment: each.moment - from })),
      ]),
    ),
    stage: {
      ...context,
      moments: { ...context.moments, all },
      graph: {
        moments: all.length,
        start: 0,
        into: edges.map((edge, i) => (i === 0 ? [] : [edge])),
        outOf: edges.map((_, i) => (i + 1 < edges.length ? [edges[i + 1]!] : [])),
      },
      pinned: (letter) => {
        const pinned = context.pinned(letter);
        return new Map(
          all.flatMap((_, i) => (pinned.has(i + from) ? [[i, pinned.get(i + from)!] as const] : [])),
        );
      },
      isForbidden: (at) => context.isForbidden(at + from),
    },
  };
};

/** “Write D♭4 for the C♯4 in bar 3.”, once for all notes of a bar that are changed alike. */
const describeChanges = (changes: readonly NoteChange[], score: Score): string => {
  const counts = new Map<string, number>();
  for (const change of changes) {
    const bar = score.bars[score.notes.find((note) => note.id === change.note)?.bar ?? 0]!.number;
    const what =
      change.kind === 'respell'
        ? `Write ${pitchName(change.to)} for the ${pitchName(change.from)} in bar ${bar}`
        : `Leave out the ${pitchName(change.from)} in bar ${bar}`;
    counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  return [...counts].map(([what, count]) => `${what}${count === 1 ? '' : ` (${count} notes)`}.`).join(' ');
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
