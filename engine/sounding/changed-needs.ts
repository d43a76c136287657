import type { Letter, Pitch } from '../music/pitch.ts';
import type { Need } from './needs.ts';
import type { PlacedNeed } from './placed-needs.ts';

/** A note that is played on another string. */
export interface Respelled {
  readonly kind: 'respell';
  readonly note: string;
  readonly from: Pitch;
  readonly to: Pitch;
}

/** A note that is left out. */
export interface Omitted {
  readonly kind: 'omit';
  readonly note: string;
  readonly from: Pitch;
}

/** One change to a note that would help. */
export type NoteChange = Respelled | Omitted;

type PlacedNeeds = ReadonlyMap<Letter, readonly PlacedNeed[]>;

/** The needs once notes are respelled or left out; the lists of letters that this does not touch stay the same objects. */
export const changeNeeds = (needs: PlacedNeeds, changes: readonly NoteChange[]): PlacedNeeds => {
  const byNote = new Map(changes.map((change) => [change.note, change]));
  const changeOf = ({ need }: PlacedNeed): NoteChange | undefined =>
    need.kind === 'plucked' ? byNote.get(need.note.id) : undefined;
  const added: PlacedNeed[] = [];
  const kept = new Map(needs);
  for (const [letter, placed] of needs) {
    if (!changes.some(({ from }) => from.letter === letter)) continue;
    const dropped = placed.filter((each) => changeOf(each) !== undefined);
    if (dropped.length === 0) continue;
    kept.set(
      letter,
      placed.filter((each) => changeOf(each) === undefined),
    );
    for (const { need, moment } of dropped) {
      const change = byNote.get(need.note.id)!;
      if (change.kind !== 'respell') continue;
      const { letter: other, octave, alter } = change.to;
      added.push({ need: { ...need, letter: other, octave, position: alter as Need['position'] }, moment });
    }
  }
  for (const letter of new Set(added.map(({ need }) => need.letter))) {
    const here = added.filter(({ need }) => need.letter === letter);
    kept.set(
      letter,
      [...kept.get(letter)!, ...here].sort((a, b) => a.moment - b.moment),
    );
  }
  return kept;
};
