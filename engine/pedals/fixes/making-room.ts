import type { Letter } from '../../music/pitch.ts';
import type { Respelled } from '../../sounding/changed-needs.ts';
import { type Need, otherStrings } from '../../sounding/needs.ts';
import type { NeedsByLetter, PlacedNeed } from '../../sounding/placed-needs.ts';

/** Moments on either side of a place whose notes are respelled with it. */
const MOMENTS_NEAR = 10;
/** Kinds of notes (of one letter and accidental) that are respelled together at the most. */
const MOST_KINDS = 4;

/**
 * Sets of notes to respell together, the smallest first: those of a letter and accidental, and the notes that have to
 * make room for them on the string they go to (D♯ as E♭, and E as F♭). Each is tried for the moments of the place alone,
 * and for all notes near it. Sets of one note are left to whoever asks.
 *
 * @param about needs whose notes may be respelled
 */
export const respellingsTogether = (
  needs: NeedsByLetter,
  about: readonly Need[],
  moment: number,
): readonly (readonly Respelled[])[] => {
  const all = [...needs.values()].flat();
  const near = all.filter((placed) => Math.abs(placed.moment - moment) <= MOMENTS_NEAR);
  const moments = new Set(all.filter(({ need }) => about.includes(need)).map((placed) => placed.moment));
  const here = all.filter((placed) => moments.has(placed.moment));
  const sets = new Map<string, readonly Respelled[]>();
  for (const scope of [here, near]) {
    for (const need of about) {
      const changes = makeRoomFor(need, scope);
      if (changes === null || changes.length < 2) continue;
      sets.set(
        changes
          .map(({ note }) => note)
          .sort()
          .join(' '),
        changes,
      );
    }
  }
  return [...sets.values()].sort((a, b) => a.length - b.length);
};

interface Kind {
  readonly letter: Letter;
  readonly position: number;
}

/** The respellings of all notes of a need's letter and accidental, and of what has to give way; null where one cannot. */
const makeRoomFor = (first: Kind, scope: readonly PlacedNeed[]): Respelled[] | null => {
  const kinds: Kind[] = [first];
  const changes = new Map<string, Respelled>();
  for (const { letter, position } of kinds) {
    const guests = scope.filter(({ need }) => need.letter === letter && need.position === position);
    for (const { need } of guests) {
      const change = respellingOf(need);
      if (change === null) return null;
      changes.set(change.note, change);
      const hosts = scope.filter(
        ({ need: other }) => other.letter === change.to.letter && other.position !== change.to.alter,
      );
      for (const { need: host } of hosts) {
        const isKnown = kinds.some((kind) => kind.letter === host.letter && kind.position === host.position);
        if (!isKnown) kinds.push(host);
      }
      if (kinds.length > MOST_KINDS) return null;
    }
  }
  return [...changes.values()];
};

const respellingOf = (need: Need): Respelled | null => {
  const from = { letter: need.letter, octave: need.octave, alter: need.position };
  const [to] = otherStrings(from);
  return need.kind === 'plucked' && to !== undefined
    ? { kind: 'respell', note: need.note.id, from, to }
    : null;
};
