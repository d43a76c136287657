import { compare } from '../music/rational.ts';
import type { Rest } from './model/between-notes.ts';
import type { Note } from './model/note.ts';
import type { HarpPart, Score } from './model/score.ts';

/** Several harps as one score: what the conductor or both players read. */
export interface JoinedHarps {
  /** All staves, those of the first harp at the top; it is to be drawn, not planned: each harp has its own pedals. */
  readonly score: Score;
  /** From the top. */
  readonly harps: readonly HarpPart[];
  /** Ids of the notes that the player on whose staves they stand does not play. */
  readonly others: ReadonlySet<string>;
}

/**
 * Sets the harps of one file under each other. Bars, tempo and texts are those of the first.
 *
 * @param parts the same file read for each of its harps, in score order; at least one
 */
export const joinHarps = (parts: readonly Score[]): JoinedHarps => {
  const [first] = parts;
  if (first === undefined) throw new Error('a score of no harps');
  const staffBefore = parts.map((_, index) =>
    parts.slice(0, index).reduce((sum, { harp }) => sum + harp.staves, 0),
  );
  const moved = parts.map((part, index) => moveDown(part, staffBefore[index]!, `${index + 1}.`));
  const all = <T>(listOf: (part: Score) => readonly T[]): T[] => moved.flatMap(listOf);
  const harps = parts.map(({ harp }) => harp);
  return {
    harps,
    others: new Set(parts.flatMap(({ share }) => [...(share?.others ?? [])])),
    score: {
      ...first,
      harp: {
        partIds: harps.flatMap(({ partIds }) => partIds),
        name: harps.map(({ name }) => name).join(', '),
        players: harps.length,
        staves: harps.reduce((sum, { staves }) => sum + staves, 0),
        meiStaves: harps.flatMap(({ meiStaves }) => meiStaves),
      },
      notes: all(({ notes }) => notes).sort((a, b) => compare(a.onset, b.onset)),
      rests: all(({ rests }) => rests).sort((a, b) => compare(a.onset, b.onset)),
      sweeps: all(({ sweeps }) => sweeps).sort((a, b) => compare(a.start, b.start)),
      phrases: all(({ phrases }) => phrases).sort((a, b) => compare(a.start, b.start)),
      damps: all(({ damps }) => damps).sort((a, b) => compare(a.at, b.at)),
      markings: all(({ markings }) => markings).sort((a, b) => compare(a.at, b.at)),
      unreadWords: all(({ unreadWords }) => unreadWords),
      leverWords: all(({ leverWords }) => leverWords).sort((a, b) => compare(a.at, b.at)),
      smallDiamonds: all(({ smallDiamonds }) => smallDiamonds),
      sharing: [],
      share: null,
      remarks: [],
    },
  };
};

/** @param voices set before the names of voices, so that two harps do not share them */
const moveDown = (part: Score, staves: number, voices: string): Score => {
  const move = <T extends Note | Rest>(event: T): T => ({
    ...event,
    staff: event.staff + staves,
    voice: voices + event.voice,
  });
  return {
    ...part,
    notes: part.notes.map(move),
    rests: part.rests.map(move),
    damps: part.damps.map((damp) => (damp.staff === null ? damp : { ...damp, staff: damp.staff + staves })),
  };
};
