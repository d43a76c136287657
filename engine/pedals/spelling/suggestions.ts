import type { NoteChange } from '../../findings/model.ts';
import type { Pitch } from '../../music/pitch.ts';
import { add, compare, type Rational, rational } from '../../music/rational.ts';
import { changeNeeds } from '../../sounding/changed-needs.ts';
import type { ChosenSpelling } from '../../sounding/needs.ts';
import { countStops, type PedalSolution, solveFeet } from '../course/solve.ts';
import type { SpellingSuggestion, SuggestedRun } from '../model.ts';
import { type PedalProblem, type PreparedScore, pedalContextFor } from '../pedal-problem.ts';

/** Each suggestion costs a whole plan; beyond this many the most promising come first in the part anyway. */
const MOST_TRIED = 60;
const MOST_TOGETHER = 4;

/**
 * Respellings that would save moves or fix a place, each tried against the plan as written.
 *
 * Candidates are the runs of notes that the free spelling changes in the same way, each by itself, and those that it
 * changes because of each other together (D♯ and E as E♭ and F♭); only what saves something is returned, the most
 * saving first, and what saves no more together than one of its runs alone is left out.
 *
 * @param spelling the free spelling of the part
 */
export const suggestSpellings = (
  prepared: PreparedScore,
  written: PedalProblem,
  plan: PedalSolution,
  spelling: ChosenSpelling,
): SpellingSuggestion[] => {
  const gainOf = (runs: readonly Run[]): Gain => {
    const needs = changeNeeds(
      written.needs,
      runs.flatMap(({ changes }) => changes),
    );
    const tried = solveFeet(needs, pedalContextFor(prepared, needs).context, plan);
    return {
      savesMoves: plan.moves.length - tried.moves.length,
      fixesPlaces: countStops(plan) - countStops(tried),
    };
  };
  const runs = runsOf(spelling, written);
  const alone = runs.slice(0, MOST_TRIED).map((run) => ({ runs: [run], ...gainOf([run]) }));
  const gains = new Map(alone.map((each) => [each.runs[0]!, each]));
  const together = groupsOf(runs)
    .slice(0, MOST_TRIED)
    .map((group) => ({ runs: group, ...gainOf(group) }))
    .filter((each) =>
      each.runs.every((run) => gains.get(run) === undefined || compareGains(each, gains.get(run)!) < 0),
    );
  return [...alone, ...together]
    .filter(({ savesMoves, fixesPlaces }) => fixesPlaces > 0 || (fixesPlaces === 0 && savesMoves > 0))
    .sort(compareGains)
    .map(({ runs, savesMoves, fixesPlaces }) => ({
      ...suggestedRun(runs[0]!),
      alongside: runs.slice(1).map(suggestedRun),
      changes: runs.flatMap(({ changes }) => changes),
      savesMoves,
      fixesPlaces,
    }));
};

type Gain = Pick<SpellingSuggestion, 'savesMoves' | 'fixesPlaces'>;

const compareGains = (a: Gain, b: Gain): number =>
  b.fixesPlaces - a.fixesPlaces || b.savesMoves - a.savesMoves;

const suggestedRun = ({ notes, from, to }: Run): SuggestedRun => ({ notes, from, to });

interface Run extends SuggestedRun {
  readonly changes: readonly NoteChange[];
  /** Score times of its first note, and of its last. */
  readonly first: Rational;
  readonly last: Rational;
}

interface OpenRun extends Run {
  readonly notes: string[];
  readonly changes: NoteChange[];
  last: Rational;
}

/** Quarter notes within which a run makes room for another. */
const REACH = rational(4);

/** For each run those that make room for it, or for one of them: they leave the letter that it goes to, about then. */
const groupsOf = (runs: readonly Run[]): Run[][] => {
  const makesRoom = (host: Run, guest: Run): boolean =>
    host.from.letter === guest.to.letter &&
    compare(host.first, add(guest.last, REACH)) <= 0 &&
    compare(guest.first, add(host.last, REACH)) <= 0;
  return runs.flatMap((run) => {
    const group = [run];
    for (const guest of group) {
      for (const host of runs) {
        if (group.length < MOST_TOGETHER && !group.includes(host) && makesRoom(host, guest)) group.push(host);
      }
    }
    return group.length > 1 ? [group] : [];
  });
};

/** Notes in order that go from one letter and accidental to the same other one, unbroken by one that stays. */
const runsOf = (spelling: ChosenSpelling, { listed }: PedalProblem): Run[] => {
  const open = new Map<string, OpenRun>();
  const runs: OpenRun[] = [];
  const inOrder = listed.needs
    .filter((need) => need.kind === 'plucked')
    .sort((a, b) => compare(a.onset, b.onset));
  for (const { letter, octave, position, note, onset } of inOrder) {
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
      first: onset,
      last: onset,
    };
    if (known === undefined) {
      open.set(key, run);
      runs.push(run);
    }
    run.notes.push(note.id);
    run.last = onset;
    run.changes.push({ kind: 'respell', note: note.id, from, to });
  }
  return runs;
};
