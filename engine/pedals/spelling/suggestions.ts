import type { Pitch } from '../../music/pitch.ts';
import { add, compare, type Rational, rational } from '../../music/rational.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { changeNeeds } from '../../sounding/changed-needs.ts';
import type { ChosenSpelling } from '../../sounding/needs.ts';
import { crossFeet } from '../course/cross-feet.ts';
import { type PedalSolution, solveFeet } from '../course/solve.ts';
import type { SpellingSuggestion, SuggestedRun } from '../model.ts';
import { type PedalProblem, type PreparedScore, pedalContextFor } from '../pedal-problem.ts';

/** Each suggestion costs a whole plan; beyond this many the most promising come first in the part anyway. */
const MOST_TRIED = 60;
const MOST_TOGETHER = 4;
/** How often notes of a suggestion are left as they are, to see whether it needs them. */
const MOST_SPARED = 24;

/**
 * Respellings that would save moves or fix a place, each tried against the plan as written.
 *
 * Candidates are the runs of notes that the free spelling changes in the same way, each by itself, and those that it
 * changes because of each other together (D♯ and E as E♭ and F♭); only what saves something is returned, the most
 * saving first, and what saves no more together than one of its runs alone is left out. Notes of a run that stand apart
 * from the others stay as they are where nothing is saved by them.
 *
 * What is returned agrees: alone, and all of it together, no place becomes unplayable, what one fixes stays fixed, and
 * there are no more moves than are told.
 *
 * @param spelling the free spelling of the part
 */
export const suggestSpellings = (
  prepared: PreparedScore,
  written: PedalProblem,
  plan: PedalSolution,
  spelling: ChosenSpelling,
): SpellingSuggestion[] => {
  const before = outcomeOf(plan);
  const outcomeWith = (changes: readonly NoteChange[]): Outcome => {
    const needs = changeNeeds(written.needs, changes);
    const { context } = pedalContextFor(prepared, needs);
    const solved = solveFeet(needs, context, plan);
    return outcomeOf(prepared.options.crossFeet ? crossFeet(solved, context) : solved);
  };
  const tried = (runs: readonly Run[]): Tried => {
    const changes = runs.flatMap((run) => run.changes);
    const outcome = outcomeWith(changes);
    return {
      runs,
      changes,
      outcome,
      savesMoves: before.moves - outcome.moves,
      fixesPlaces: before.stops.size - outcome.stops.size,
    };
  };
  const runs = runsOf(spelling, written);
  const alone = runs.slice(0, MOST_TRIED).map((run) => tried([run]));
  const gains = new Map(alone.map((each) => [each.runs[0]!, each]));
  const together = groupsOf(runs)
    .slice(0, MOST_TRIED)
    .map(tried)
    .filter((each) =>
      each.runs.every((run) => gains.get(run) === undefined || compareGains(each, gains.get(run)!) < 0),
    );
  const helpful = [...alone, ...together]
    .filter(({ savesMoves, fixesPlaces }) => fixesPlaces > 0 || (fixesPlaces === 0 && savesMoves > 0))
    .filter(({ outcome }) => isSubset(outcome.stops, before.stops))
    .sort(compareGains);
  const spared = withoutLarger(spareNotes(helpful, tried, before)).sort(
    (a, b) => compareGains(a, b) || a.changes.length - b.changes.length,
  );
  return agreeing(spared, before, outcomeWith).map((each) => ({
    ...suggestedRun(each.runs[0]!),
    alongside: each.runs.slice(1).map(suggestedRun),
    changes: each.changes,
    savesMoves: each.savesMoves,
    fixesPlaces: each.fixesPlaces,
  }));
};

/** What a plan comes to: its moves, and the notes at which it cannot be played. */
interface Outcome {
  readonly moves: number;
  readonly stops: ReadonlySet<string>;
}

const outcomeOf = ({ moves, unmet }: PedalSolution): Outcome => ({
  moves: moves.length,
  stops: new Set([
    ...unmet.map(({ note }) => `unmet ${note.id}`),
    ...moves
      .filter(({ manner }) => manner === 'too-soon')
      .map(({ letter, before, moment }) => `no time ${letter} ${before?.note.id ?? moment}`),
  ]),
});

type Gain = Pick<SpellingSuggestion, 'savesMoves' | 'fixesPlaces'>;

/** Runs that were respelled together, and what came of it. */
interface Tried extends Gain {
  readonly runs: readonly Run[];
  readonly changes: readonly NoteChange[];
  readonly outcome: Outcome;
}

const compareGains = (a: Gain, b: Gain): number =>
  b.fixesPlaces - a.fixesPlaces || b.savesMoves - a.savesMoves;

/** The same without the stretches of runs that nothing is saved by, as far as that many trials tell. */
const spareNotes = (
  helpful: readonly Tried[],
  tried: (runs: readonly Run[]) => Tried,
  before: Outcome,
): Tried[] => {
  let trials = 0;
  return helpful.map((each) =>
    each.runs
      .flatMap((run) => (run.stretches.length > 1 || each.runs.length > 1 ? run.stretches : []))
      .reduce((best, stretch) => {
        if (trials >= MOST_SPARED) return best;
        trials += 1;
        const without = tried(best.runs.flatMap((run) => withoutStretch(run, stretch)));
        const isAsGood = compareGains(without, best) <= 0 && isSubset(without.outcome.stops, before.stops);
        return isAsGood ? without : best;
      }, each),
  );
};

/** Those of which no other, with some of their notes alone, saves as much; of two that are the same the first. */
const withoutLarger = (all: readonly Tried[]): Tried[] =>
  all.filter((each, i) => {
    const notes = new Set(each.changes.map(({ note }) => note));
    return !all.some(
      (other, j) =>
        other !== each &&
        compareGains(other, each) <= 0 &&
        other.changes.every(({ note }) => notes.has(note)) &&
        (other.changes.length < notes.size || j < i),
    );
  });

const withoutStretch = (run: Run, stretch: Stretch): readonly Run[] => {
  const stretches = run.stretches.filter((each) => each !== stretch);
  return stretches.length === 0 ? [] : [runOf(run, stretches)];
};

/** Those that can be taken with all that come before them. */
const agreeing = (
  inOrder: readonly Tried[],
  before: Outcome,
  outcomeWith: (changes: readonly NoteChange[]) => Outcome,
): readonly Tried[] => {
  const taken = new Map<string, NoteChange>();
  let now = before;
  return inOrder.filter(({ changes, outcome, savesMoves }) => {
    if (changes.every(({ note }) => taken.has(note))) return true;
    const all = new Map([...taken, ...changes.map((change) => [change.note, change] as const)]);
    const next = taken.size === 0 ? outcome : outcomeWith([...all.values()]);
    const fixed = [...before.stops].filter((stop) => !outcome.stops.has(stop));
    const agrees =
      isSubset(next.stops, now.stops) &&
      !fixed.some((stop) => next.stops.has(stop)) &&
      next.moves <= now.moves + Math.max(0, -savesMoves);
    if (agrees) {
      for (const [note, change] of all) taken.set(note, change);
      now = next;
    }
    return agrees;
  });
};

const isSubset = <T>(some: ReadonlySet<T>, all: ReadonlySet<T>): boolean =>
  [...some].every((each) => all.has(each));

const suggestedRun = ({ notes, octaves, from, to }: Run): SuggestedRun => ({ notes, octaves, from, to });

interface Run extends SuggestedRun {
  readonly changes: readonly NoteChange[];
  /** Score times of its first note, and of its last. */
  readonly first: Rational;
  readonly last: Rational;
  /** Its notes, parted where it pauses. */
  readonly stretches: readonly Stretch[];
}

/** Changes of a run that stand close together, with their score times. */
type Stretch = readonly { readonly change: NoteChange; readonly onset: Rational }[];

const runOf = ({ from, to }: Pick<Run, 'from' | 'to'>, stretches: readonly Stretch[]): Run => {
  const all = stretches.flat();
  const changes = all.map(({ change }) => change);
  return {
    from,
    to,
    notes: changes.map(({ note }) => note),
    octaves: [...new Set(changes.map((change) => change.from.octave))].sort((a, b) => a - b),
    changes,
    first: all[0]!.onset,
    last: all.at(-1)!.onset,
    stretches,
  };
};

/** Quarter notes within which a run makes room for another, and its own notes stand together. */
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
const runsOf = (spelling: ChosenSpelling, { listed }: PedalProblem): readonly Run[] => {
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
    const run: OpenRun = open.get(key) ?? { from, to, stretches: [] };
    if (!open.has(key)) runs.push(run);
    open.set(key, run);
    const latest = run.stretches.at(-1);
    const last = latest?.at(-1)?.onset;
    const placed = { change: { kind: 'respell', note: note.id, from, to } as const, onset };
    if (last === undefined || compare(onset, add(last, REACH)) > 0) run.stretches.push([placed]);
    else latest!.push(placed);
  }
  return runs.map((run) => runOf(run, run.stretches));
};

interface OpenRun extends Pick<Run, 'from' | 'to'> {
  readonly stretches: { readonly change: NoteChange; readonly onset: Rational }[][];
}
