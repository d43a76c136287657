import { group } from '../../group.ts';
import { perObject } from '../../memoize.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import type { NeedList } from '../../sounding/needs.ts';
import { firstNeedFrom, type NeedsByLetter, type PlacedNeed } from '../../sounding/placed-needs.ts';
import type { PedalProblem } from '../pedal-problem.ts';
import type { PlannedPart, Stretch } from './fix-trials.ts';

/** How a change bears on the plan. */
export type Bearing =
  /** It asks for what is planned already. */
  | { readonly kind: 'none' }
  /** It alters what its notes ask of the pedals at these moments, and nothing else. */
  | ({ readonly kind: 'local' } & Stretch)
  /** What it alters shows once all that the notes ask for is listed anew. */
  | { readonly kind: 'far' };

const joinBearings = (
  changes: readonly NoteChange[],
  bearingOf: (change: NoteChange) => Bearing,
): Bearing => {
  let bearing: Bearing = { kind: 'none' };
  for (const change of changes) {
    const one = bearingOf(change);
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
  // A glissando goes by the notes around it, wherever their pedals stand.
  if (change.kind === 'omit' && prepared.sweeps.length > 0) return { kind: 'far' };
  const planned = needsOfNote(change.note);
  if (planned.length > 0 && planned.every((each) => isAskedAnyway(each, change, problem)))
    return { kind: 'none' };
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

/** How single changes bear on what is asked for, by their keys: for one list of needs, where glissandi are and are not. */
const bearingsKnownOf = perObject((_listed: NeedList) => {
  const [known, withSweeps] = [new Map<string, Bearing>(), new Map<string, Bearing>()];
  return (sweeps: boolean) => (sweeps ? withSweeps : known);
});

/** Judges how changes bear on the plan of a part. */
export const createBearingOf = (part: PlannedPart): ((changes: readonly NoteChange[]) => Bearing) => {
  const ofNote: NeedsOfNote = (note) => needsByNote(part.problem.needs).get(note) ?? [];
  const known = bearingsKnownOf(part.problem.listed)(part.prepared.sweeps.length > 0);
  const ofChange = (change: NoteChange): Bearing => {
    const to = change.kind === 'respell' ? `${change.to.letter}${change.to.octave}` : '';
    const key = `${change.note} ${change.from.letter} ${to}`;
    const bearing = known.get(key) ?? bearingOfOne(change, part, ofNote);
    known.set(key, bearing);
    return bearing;
  };
  return (changes) => joinBearings(changes, ofChange);
};

/** What is asked for by each note, by its id. */
export const needsByNote = perObject(
  (needs: NeedsByLetter): ReadonlyMap<string, readonly PlacedNeed[]> =>
    group([...needs.values()].flat(), ({ need }) => need.note.id),
);

/** An ornament takes its neighbour on whichever string is free. */
const hasOrnaments = ({ needs }: PedalProblem, first: number, last: number): boolean =>
  [...needs.values()].some((placed) =>
    placed
      .slice(firstNeedFrom(placed, first), firstNeedFrom(placed, last + 1))
      .some(({ need }) => need.kind === 'implied'),
  );
