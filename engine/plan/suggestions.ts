import type { Pitch } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import { spellFreely } from './free-spelling.ts';
import type { SpellingSuggestion } from './model.ts';
import type { ChosenSpelling } from './needs.ts';
import { type FeetProblem, type PreparedScore, poseProblem } from './prepared.ts';
import { type Solution, solveFeet } from './solve.ts';

/** Each suggestion costs a whole plan; beyond this many the most promising come first in the part anyway. */
const MOST_TRIED = 60;

/**
 * Respellings that would save moves or mend a place, each tried on its own against the plan as written.
 *
 * Candidates are the runs of notes that the free spelling changes in the same way; only those that save something are
 * returned, the most saving first.
 */
export const suggestSpellings = (
  prepared: PreparedScore,
  written: FeetProblem,
  plan: Solution,
): SpellingSuggestion[] => {
  const runs = runsOf(spellFreely(prepared, written), written);
  return runs
    .slice(0, MOST_TRIED)
    .map(({ notes, from, to, spelling }) => {
      const tried = solveFeet(...problemOf(prepared, spelling));
      return {
        notes,
        from,
        to,
        savesMoves: plan.moves.length - tried.moves.length,
        mendsPlaces: countStops(plan) - countStops(tried),
      };
    })
    .filter(({ savesMoves, mendsPlaces }) => mendsPlaces > 0 || (mendsPlaces === 0 && savesMoves > 0))
    .sort((a, b) => b.mendsPlaces - a.mendsPlaces || b.savesMoves - a.savesMoves);
};

const problemOf = (prepared: PreparedScore, spelling: ChosenSpelling): Parameters<typeof solveFeet> => {
  const { needs, stage } = poseProblem(prepared, spelling);
  return [needs, stage];
};

/** Places that a solution leaves unplayable. */
export const countStops = (solution: Solution): number =>
  solution.unserved.length + solution.moves.filter((move) => move.manner === 'too-soon').length;

interface Run {
  readonly notes: readonly string[];
  readonly from: Pitch;
  readonly to: Pitch;
  readonly spelling: ChosenSpelling;
}

interface OpenRun extends Run {
  readonly notes: string[];
  readonly spelling: Map<string, Pitch>;
}

/** Notes in order that go from one letter and accidental to the same other one, unbroken by one that stays. */
const runsOf = (spelling: ChosenSpelling, { listed }: FeetProblem): Run[] => {
  const open = new Map<string, OpenRun>();
  const runs: OpenRun[] = [];
  const inOrder = listed.needs
    .filter((need) => need.kind === 'plucked')
    .sort((a, b) => compare(a.onset, b.onset));
  for (const { letter, octave, position, note } of inOrder) {
    const key = `${letter}${position}`;
    const to = spelling.get(note.id);
    if (to === undefined) {
      open.delete(key);
      continue;
    }
    const known = open.get(key);
    const run: OpenRun = known ?? {
      notes: [],
      from: { letter, octave, alter: position },
      to,
      spelling: new Map(),
    };
    if (known === undefined) {
      open.set(key, run);
      runs.push(run);
    }
    run.notes.push(note.id);
    run.spelling.set(note.id, to);
  }
  return runs;
};
