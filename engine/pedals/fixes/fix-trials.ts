import type { Pin } from '../../harp/pin.ts';
import { FEET, type Foot, type Position } from '../../harp/setting.ts';
import { SIDES } from '../../harp/side.ts';
import type { Letter } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { changeNeeds } from '../../sounding/changed-needs.ts';
import type { ChosenSpelling } from '../../sounding/needs.ts';
import type { NeedsByLetter } from '../../sounding/placed-needs.ts';
import { crossFeet } from '../course/cross-feet.ts';
import { type PedalContext, planFoot } from '../course/foot.ts';
import { type PedalSolution, solveFeet } from '../course/solve.ts';
import { tuneFixedStrings } from '../fixed-strings.ts';
import { type PedalProblem, type PreparedScore, pedalContextFor } from '../pedal-problem.ts';
import type { LocalPlan } from './changed-plan.ts';
import { cutPassage, type Passage, type Span } from './passage.ts';

/** A plan with all that it was made of. */
export interface PlannedPart {
  readonly prepared: PreparedScore;
  readonly problem: PedalProblem;
  readonly solution: PedalSolution;
}

/** A passage of a plan that changes are tried in. */
export interface TrialPlace {
  readonly span: Span;
  readonly passage: Passage;
}

/**
 * @param ends where the pedals stand at either end
 * @param changes that the pins have to give way to, besides the notes as they stand
 */
export const openPlace = (
  part: PlannedPart,
  ends: (letter: Letter) => ReadonlyMap<number, Position>,
  span: Span,
  changes: readonly NoteChange[],
): TrialPlace => {
  const { prepared, problem } = part;
  const context =
    pinsAt(part, span, lettersOf(changes)).length === 0
      ? problem.context
      : pedalContextFor(prepared, changeNeeds(problem.needs, changes)).context;
  return {
    span,
    passage: cutPassage({ needs: problem.needs, context }, span, ends),
  };
};

/** The pins of these pedals that bear on a passage. */
export const pinsAt = (
  { prepared: { pins, moments } }: PlannedPart,
  { from, until }: Span,
  letters: readonly Letter[],
): readonly Pin[] => {
  if (pins.length === 0) return pins;
  const first = moments.all[from]!.at;
  const next = moments.all[until]?.at ?? null;
  return pins.filter((pin) => {
    if (pin.kind === 'forbid' || !letters.includes(pin.letter)) return false;
    // A pinned move holds the pedal at the moment before it as well.
    const begins = next === null || compare(pin.kind === 'move' ? pin.at : pin.from, next) <= 0;
    const lasts =
      pin.kind === 'move' ? compare(pin.at, first) >= 0 : pin.until === null || compare(pin.until, first) > 0;
    return begins && lasts;
  });
};

/** The best that the feet can do in a place with some notes changed, between the positions on either side. */
export const planPlace = (
  { span, passage: { needs, stage } }: TrialPlace,
  changes: readonly NoteChange[],
  feet: readonly Foot[],
  crossing: boolean,
): LocalPlan => {
  const wanted = changeNeeds(needs, changes);
  const { initial, moves, unmet } = crossing
    ? crossFeet(solveFeet(wanted, stage), stage)
    : planFeet(feet, wanted, stage);
  return {
    span,
    feet: crossing ? SIDES : feet,
    initial,
    moves: moves.map((move) => ({ ...move, moment: move.moment + span.from })),
    unmet,
  };
};

const planFeet = (
  feet: readonly Foot[],
  needs: NeedsByLetter,
  context: PedalContext,
): Pick<PedalSolution, 'initial' | 'moves' | 'unmet'> => {
  const plans = feet.map((foot) => planFoot(foot, needs, context));
  return {
    initial: new Map(plans.flatMap(({ initial }) => [...initial])),
    moves: plans.flatMap(({ moves }) => moves),
    unmet: plans.flatMap(({ unmet }) => unmet),
  };
};

/** The feet that changes concern. */
export const feetOf = (changes: readonly NoteChange[]): readonly Foot[] => {
  const letters = lettersOf(changes);
  return SIDES.filter((foot) => FEET[foot].some((letter) => letters.includes(letter)));
};

/** The pedals that changes concern. */
export const lettersOf = (changes: readonly NoteChange[]): readonly Letter[] =>
  changes.flatMap((change) =>
    change.kind === 'respell' ? [change.from.letter, change.to.letter] : [change.from.letter],
  );

/** Moments, the last included. */
export interface Stretch {
  readonly first: number;
  readonly last: number;
}

/** All changes; null where two of them contradict each other. */
export const mergeChanges = (sets: readonly (readonly NoteChange[])[]): readonly NoteChange[] | null => {
  const merged = new Map<string, NoteChange>();
  for (const change of sets.flat()) {
    const known = merged.get(change.note);
    if (known !== undefined && !isSameChange(known, change)) return null;
    merged.set(change.note, change);
  }
  return [...merged.values()];
};

export const isSameChange = (a: NoteChange, b: NoteChange): boolean =>
  a.note === b.note &&
  (a.kind === 'respell'
    ? b.kind === 'respell' && a.to.letter === b.to.letter && a.to.octave === b.to.octave
    : b.kind === 'omit');

/** The strings that the plan has for notes, where they are not those written. */
export const stringsOf = ({ listed }: PedalProblem): ChosenSpelling =>
  new Map(listed.respellings.map(({ note, to }) => [note, to]));

/** Notes that no string gives. */
export const notesLost = (
  { listed }: PedalProblem,
  profile: PreparedScore['options']['profile'],
): ReadonlySet<string> => {
  const silent: readonly Note[] = [
    ...listed.outOfRange.map(({ note }) => note),
    ...listed.microtones,
    ...listed.lostByRetuning,
  ];
  const { clashes } = tuneFixedStrings(listed.onFixedStrings, profile);
  return new Set([...silent.map(({ id }) => id), ...clashes.map(({ note }) => note.id)]);
};
