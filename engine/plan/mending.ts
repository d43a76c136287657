import type { Pitch } from '../music/pitch.ts';
import { pitchName } from '../music/pitch.ts';
import type { Score } from '../score/model.ts';
import type { PlacedNeed } from './choices.ts';
import type { PlacedMove, Stage } from './foot.ts';
import { type Need, otherStrings } from './needs.ts';
import type { FeetProblem } from './prepared.ts';
import { type Solution, solveFeet } from './solve.ts';
import { countStops } from './suggestions.ts';

/** One change to a note that would help. */
export type NoteChange =
  | { readonly kind: 'respell'; readonly note: string; readonly from: Pitch; readonly to: Pitch }
  | { readonly kind: 'omit'; readonly note: string; readonly from: Pitch };

/** The smallest set of changes found for one place; empty where none of the sizes tried mends it. */
export type Mend = readonly NoteChange[];

/** The place is judged with this much music on either side. */
const MOMENTS_AROUND = 40;
const MOST_CHANGES = 3;
const MOST_TRIALS = 250;

/**
 * Searches the smallest set of note changes that mends a place: all single changes, then pairs, then threes, of the
 * notes that the place is about; respelling is tried before leaving out. Each trial plans the bars around anew.
 *
 * @param about needs whose notes may be changed
 * @param moment where the place is
 */
export const findMend = (problem: FeetProblem, about: readonly Need[], moment: number): Mend => {
  const passage = cutPassage(problem, moment);
  const stops = countStops(solveFeet(passage.needs, passage.stage));
  const changes = changesOf(about);
  let trials = 0;
  for (let size = 1; size <= Math.min(MOST_CHANGES, changes.length); size += 1) {
    for (const set of subsetsOf(changes, size)) {
      if (new Set(set.map((change) => change.note)).size < size) continue;
      trials += 1;
      if (trials > MOST_TRIALS) return [];
      const changed = solveFeet(changeNeeds(passage.needs, set), passage.stage);
      if (countStops(changed) < stops) return set;
    }
  }
  return [];
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

interface Passage {
  readonly needs: FeetProblem['needs'];
  readonly stage: Stage;
}

/** The moments around a place as a part of their own, read straight through. */
const cutPassage = ({ needs, stage }: FeetProblem, moment: number): Passage => {
  const from = Math.max(0, moment - MOMENTS_AROUND);
  const all = stage.moments.all.slice(from, moment + MOMENTS_AROUND);
  const edges = all.map((each, i) => ({
    from: i - 1,
    to: i,
    seconds: i === 0 ? 0 : Math.max(0, each.seconds - all[i - 1]!.seconds),
  }));
  return {
    needs: mapNeeds(needs, (placed) =>
      placed
        .filter((each) => each.moment >= from && each.moment < from + all.length)
        .map((each) => ({ need: each.need, moment: each.moment - from })),
    ),
    stage: {
      ...stage,
      moments: { ...stage.moments, all },
      graph: {
        moments: all.length,
        start: 0,
        into: edges.map((edge, i) => (i === 0 ? [] : [edge])),
        outOf: edges.map((_, i) => (i + 1 < edges.length ? [edges[i + 1]!] : [])),
      },
      pinned: (letter) =>
        new Map(
          [...stage.pinned(letter)].map(([at, position]): [number, typeof position] => [at - from, position]),
        ),
      isForbidden: (at) => stage.isForbidden(at + from),
    },
  };
};

const mapNeeds = (
  needs: FeetProblem['needs'],
  change: (placed: readonly PlacedNeed[]) => PlacedNeed[],
): FeetProblem['needs'] => new Map([...needs].map(([letter, placed]) => [letter, change(placed)]));

const changeNeeds = (needs: FeetProblem['needs'], changes: readonly NoteChange[]): FeetProblem['needs'] => {
  const byNote = new Map(changes.map((change) => [change.note, change]));
  const added: PlacedNeed[] = [];
  const kept = mapNeeds(needs, (placed) =>
    placed.filter(({ need, moment }) => {
      const change = need.kind === 'plucked' ? byNote.get(need.note.id) : undefined;
      if (change === undefined) return true;
      if (change.kind === 'respell') {
        const { letter, octave, alter } = change.to;
        added.push({ need: { ...need, letter, octave, position: alter as Need['position'] }, moment });
      }
      return false;
    }),
  );
  if (added.length === 0) return kept;
  return new Map(
    [...kept].map(([letter, placed]) => [
      letter,
      [...placed, ...added.filter(({ need }) => need.letter === letter)].sort((a, b) => a.moment - b.moment),
    ]),
  );
};

/** A mend in words: “Write D♭4 for the C♯4 in bar 3.” */
export const describeMend = (mend: Mend, score: Score): string =>
  mend
    .map((change) => {
      const bar = score.bars[score.notes.find((note) => note.id === change.note)?.bar ?? 0]!.number;
      return change.kind === 'respell'
        ? `Write ${pitchName(change.to)} for the ${pitchName(change.from)} in bar ${bar}.`
        : `Leave out the ${pitchName(change.from)} in bar ${bar}.`;
    })
    .join(' ');

/** The needs a busy foot's place is about: those of its moves close together, before and after each. */
export const needsAroundMove = (solution: Solution, move: PlacedMove, stage: Stage): Need[] => {
  const at = stage.moments.all[move.moment]!.seconds;
  const reach = 2 * stage.weights.footRestSeconds;
  return solution.moves
    .filter(
      (other) => other.foot === move.foot && Math.abs(stage.moments.all[other.moment]!.seconds - at) <= reach,
    )
    .flatMap((other) => [other.before, other.after].filter((need) => need !== null));
};
