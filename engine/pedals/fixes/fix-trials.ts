import { group } from 'd3-array';
import type { Pin } from '../../harp/pin.ts';
import { FEET, type Foot, type Position } from '../../harp/setting.ts';
import { SIDES } from '../../harp/side.ts';
import { perObject } from '../../memoize.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import type { Note } from '../../score/model.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { changeNeeds } from '../../sounding/changed-needs.ts';
import type { ChosenSpelling } from '../../sounding/needs.ts';
import { firstNeedFrom, type NeedsByLetter, type PlacedNeed } from '../../sounding/placed-needs.ts';
import { crossFeet } from '../course/cross-feet.ts';
import { type PedalContext, planFoot } from '../course/foot.ts';
import { type PedalSolution, solveFeet } from '../course/solve.ts';
import { tuneFixedStrings } from '../fixed-strings.ts';
import { type PedalProblem, type PreparedScore, pedalContextFor } from '../pedal-problem.ts';
import { type ChangedPlan, type LocalPlan, positionsAtEnds, putInto } from './changed-plan.ts';
import { cutPassage, type Passage, type Span, spanAround } from './passage.ts';

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
    pinsAt(part, span, changes).length === 0
      ? problem.context
      : pedalContextFor(prepared, changeNeeds(problem.needs, changes)).context;
  return {
    span,
    passage: cutPassage({ needs: problem.needs, context }, span, ends),
  };
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
const lettersOf = (changes: readonly NoteChange[]): readonly Letter[] =>
  changes.flatMap((change) =>
    change.kind === 'respell' ? [change.from.letter, change.to.letter] : [change.from.letter],
  );

/** How a change bears on the plan. */
export type Bearing =
  /** It asks for what is planned already. */
  | { readonly kind: 'none' }
  /** It alters what its notes ask of the pedals at these moments, and nothing else. */
  | ({ readonly kind: 'local' } & Stretch)
  /** What it alters shows once all that the notes ask for is listed anew. */
  | { readonly kind: 'far' };

const bearingOf = (changes: readonly NoteChange[], part: PlannedPart, ofNote: NeedsOfNote): Bearing => {
  let bearing: Bearing = { kind: 'none' };
  for (const change of changes) {
    const one = bearingOfOne(change, part, ofNote);
    if (one.kind === 'far') return one;
    if (one.kind === 'none') continue;
    bearing =
      bearing.kind === 'none'
        ? one
        : {
            kind: 'local',
            first: Math.min(bearing.first, one.first),
            last: Math.max(bearing.last, one.last),
          };
  }
  return bearing;
};

const bearingOfOne = (
  change: NoteChange,
  { prepared, problem }: PlannedPart,
  needsOfNote: NeedsOfNote,
): Bearing => {
  const planned = needsOfNote(change.note);
  if (planned.length > 0 && planned.every((each) => isAskedAnyway(each, change, problem)))
    return { kind: 'none' };
  if (change.kind === 'omit' && prepared.sweeps.length > 0) return { kind: 'far' };
  const own = planned.filter(({ need }) => need.kind === 'plucked' && need.letter === change.from.letter);
  if (own.length === 0 || own.length < planned.length) return { kind: 'far' };
  const [first, last] = [own[0]!.moment, own.at(-1)!.moment];
  return hasOrnaments(problem, first, last) ? { kind: 'far' } : { kind: 'local', first, last };
};

/** Whether the pedal has to stand there as before: the note is planned on that string, or shares it with another. */
const isAskedAnyway = (
  { need, moment }: PlacedNeed,
  change: NoteChange,
  { needs }: PedalProblem,
): boolean => {
  if (change.kind === 'respell') return need.letter === change.to.letter && need.octave === change.to.octave;
  const pedal = needs.get(need.letter)!;
  const here = pedal.slice(firstNeedFrom(pedal, moment), firstNeedFrom(pedal, moment + 1));
  return here.length > 1 && here.every((other) => other.need.position === need.position);
};

type NeedsOfNote = (note: string) => readonly PlacedNeed[];

/** Judges how changes bear on the plan of a part. */
export const createBearingOf = (part: PlannedPart): ((changes: readonly NoteChange[]) => Bearing) => {
  const ofNote: NeedsOfNote = (note) => needsByNote(part.problem.needs).get(note) ?? [];
  return (changes) => bearingOf(changes, part, ofNote);
};

const needsByNote = perObject((needs: NeedsByLetter) =>
  group([...needs.values()].flat(), ({ need }) => need.note.id),
);

/** An ornament takes its neighbour on whichever string is free. */
const hasOrnaments = ({ needs }: PedalProblem, first: number, last: number): boolean =>
  [...needs.values()].some((placed) =>
    placed
      .slice(firstNeedFrom(placed, first), firstNeedFrom(placed, last + 1))
      .some(({ need }) => need.kind === 'implied'),
  );

/** Moments, the last included. */
export interface Stretch {
  readonly first: number;
  readonly last: number;
}

/**
 * A plan with other notes changed than it has, worked out anew around the difference alone; null where only the whole
 * part shows that.
 *
 * @param changes all of them; `different` are those that the plan does not have, or has and these do not
 */
export const tryNearby = (
  part: PlannedPart,
  plan: ChangedPlan,
  changes: readonly NoteChange[],
  different: readonly NoteChange[],
  { first, last }: Stretch,
): { readonly local: LocalPlan; readonly plan: ChangedPlan } | null => {
  const { prepared, problem } = part;
  const span = spanAround(problem.context.graph, first, last);
  if (span === null) return null;
  const ends = positionsAtEnds(plan, span);
  const known = localPlansOf(problem.needs);
  const near = changesNear(part, span, changes);
  const key = keyOfTrial(part, span, ends, near, different);
  const local =
    known.get(key) ??
    planPlace(openPlace(part, ends, span, changes), changes, feetOf(different), prepared.options.crossFeet);
  known.set(key, local);
  return { local, plan: putInto(plan, local, changes, prepared.moments) };
};

/** The changes of a passage; where pins are set there all of them, since a pin gives way to notes far off as well. */
const changesNear = (
  part: PlannedPart,
  span: Span,
  changes: readonly NoteChange[],
): readonly NoteChange[] => {
  if (pinsAt(part, span, changes).length > 0) return changes;
  const needsOf = needsByNote(part.problem.needs);
  return changes.filter(({ note }) =>
    (needsOf.get(note) ?? []).some(({ moment }) => moment >= span.from && moment < span.until),
  );
};

/** The pins of changed pedals that bear on a passage. */
const pinsAt = (
  { prepared: { pins, moments } }: PlannedPart,
  { from, until }: Span,
  changes: readonly NoteChange[],
): readonly Pin[] => {
  const letters = lettersOf(changes);
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

/** What the feet do in passages with changes, by all that they go by: of one list of needs, as long as that is kept. */
const localPlansOf = perObject((_needs: NeedsByLetter) => new Map<string, LocalPlan>());

/** A text for all that a trial goes by beside the needs of the part: where pedals stand and may move, pins and prices. */
const keyOfTrial = (
  part: PlannedPart,
  span: Span,
  ends: (letter: Letter) => ReadonlyMap<number, Position>,
  changes: readonly NoteChange[],
  different: readonly NoteChange[],
): string => {
  const {
    prepared: { options },
    problem: { context },
  } = part;
  const moments = Array.from({ length: span.until - span.from }, (_, i) => span.from + i);
  return JSON.stringify([
    span,
    changes,
    feetOf(different),
    options.crossFeet,
    context.together,
    pricesAsText(context.weights),
    // A pin gives way to notes, those that are changed included.
    pinsAt(part, span, changes),
    moments.filter(context.isForbidden),
    LETTERS.map((letter) => {
      const pinned = context.pinned(letter);
      const inside = pinned.size === 0 ? [] : moments.map((moment) => pinned.get(moment) ?? null);
      return [context.idle(letter), [...ends(letter)], inside];
    }),
  ]);
};

const pricesAsText = perObject((weights: PedalContext['weights']) => JSON.stringify(weights));

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
  const silent: readonly Note[] = [...listed.outOfRange, ...listed.microtones, ...listed.lostByRetuning];
  const { clashes } = tuneFixedStrings(listed.onFixedStrings, profile);
  return new Set([...silent.map(({ id }) => id), ...clashes.map(({ note }) => note.id)]);
};
