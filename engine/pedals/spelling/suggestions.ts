import type { NoteChange } from '../../findings/model.ts';
import type { Pitch } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import { changeNeeds } from '../../sounding/changed-needs.ts';
import type { ChosenSpelling } from '../../sounding/needs.ts';
import { countStops, type PedalSolution, solveFeet } from '../course/solve.ts';
import type { SpellingSuggestion } from '../model.ts';
import { type PedalProblem, type PreparedScore, pedalContextFor } from '../pedal-problem.ts';

/** Each suggestion costs a whole plan; beyond this many the most promising come first in the part anyway. */
const MOST_TRIED = 60;

/**
 * Respellings that would save moves or fix a place, each tried on its own against the plan as written.
 *
 * Candidates are the runs of notes that the free spelling changes in the same way; only those that save something are
 * returned, the most saving first.
 *
 * @param spelling the free spelling of the part
 */
export const suggestSpellings = (
  prepared: PreparedScore,
  written: PedalProblem,
  plan: PedalSolution,
  spelling: ChosenSpelling,
): SpellingSuggestion[] => {
  const runs = runsOf(spelling, written);
  return runs
    .slice(0, MOST_TRIED)
    .map(({ notes, from, to, changes }) => {
      const needs = changeNeeds(written.needs, changes);
      const tried = solveFeet(needs, pedalContextFor(prepared, needs).context, plan);
      return {
        notes,
        from,
        to,
        savesMoves: plan.moves.length - tried.moves.length,
        fixesPlaces: countStops(plan) - countStops(tried),
      };
    })
    .filter(({ savesMoves, fixesPlaces }) => fixesPlaces > 0 || (fixesPlaces === 0 && savesMoves > 0))
    .sort((a, b) => b.fixesPlaces - a.fixesPlaces || b.savesMoves - a.savesMoves);
};

interface Run {
  readonly notes: readonly string[];
  readonly from: Pitch;
  readonly to: Pitch;
  readonly changes: readonly NoteChange[];
}

interface OpenRun extends Run {
  readonly notes: string[];
  readonly changes: NoteChange[];
}

/** Notes in order that go from one letter and accidental to the same other one, unbroken by one that stays. */
const runsOf = (spelling: ChosenSpelling, { listed }: PedalProblem): Run[] => {
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
    const from: Pitch = { letter, octave, alter: position };
    const known = open.get(key);
    const run: OpenRun = known ?? {
      notes: [],
      from,
      to,
      changes: [],
    };
    if (known === undefined) {
      open.set(key, run);
      runs.push(run);
    }
    run.notes.push(note.id);
    run.changes.push({ kind: 'respell', note: note.id, from, to });
  }
  return runs;
};
