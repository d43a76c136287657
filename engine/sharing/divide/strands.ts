import { group } from '../../group.ts';
import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { stepOf } from '../../music/pitch.ts';
import { compare, rationalKey, toNumber } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { isPlucked } from '../../score/plucked.ts';
import type { Need } from '../../sounding/needs.ts';
import type { ToldPlayers } from '../told-players.ts';

/** Who plays something. */
export type Player = 1 | 2;
export type Players = Player | 'both';

export const otherPlayer = (player: Player): Player => (player === 1 ? 2 : 1);

/** What notes ask of one pedal at one moment. */
export interface Demand {
  /** In quarter notes from the start. */
  readonly at: number;
  readonly letter: Letter;
  readonly position: Position;
}

/** Notes of one voice and bar that stay with one player. */
export interface Strand {
  readonly voice: string;
  readonly notes: readonly Note[];
  readonly demands: readonly Demand[];
  /** Whose they are by the words of the part; null where that is open. */
  readonly told: Players | null;
}

/** The strands of one bar. */
export interface Slice {
  readonly bar: number;
  readonly strands: readonly Strand[];
  /** Whether a slur crosses the bar line at its start. */
  readonly inPhrase: boolean;
  /** Whether feet were found to have no time here. */
  readonly crowded: boolean;
  /** Whether strands had to be joined, so that not every division is tried. */
  readonly joined: boolean;
}

/** How finely a bar is taken apart: whole voices, the lines of their chords, or these beat by beat. */
export type Fineness = 0 | 1 | 2;

/** How a bar is taken apart. */
export interface BarCut {
  readonly fineness: Fineness;
  /** Whether feet were found to have no time here. */
  readonly crowded: boolean;
}

/** More strands of a bar are joined: each doubles the ways to divide it. */
export const MOST_STRANDS = 6;

/** Takes a part apart into strands. @param cutOf by the index of a bar */
export const listSlices = (
  score: Score,
  needs: readonly Need[],
  told: ReadonlyMap<string, ToldPlayers>,
  cutOf: (bar: number) => BarCut,
): readonly Slice[] => {
  const needsOf = group(needs, ({ note }) => note.id);
  const byBar = group(
    score.notes.filter((note) => isPlucked(note)),
    ({ bar }) => bar,
  );
  return [...byBar].map(([bar, notes]) => {
    const { fineness, crowded } = cutOf(bar);
    const voices = [...group(notes, ({ staff, voice }) => `${staff};${voice}`)];
    const strands = voices.flatMap(([voice, own]) =>
      splitVoice(own, needsOf, told, fineness, score).map(
        (part): Strand => strandOf(voice, part, needsOf, told),
      ),
    );
    const { onset } = score.bars[bar]!;
    const joined = joinStrands(strands);
    return {
      bar,
      strands: joined,
      inPhrase: score.phrases.some(
        ({ kind, start, last }) => kind === 'slur' && compare(start, onset) < 0 && compare(onset, last) <= 0,
      ),
      crowded,
      joined: joined.length < strands.length,
    };
  });
};

type NeedsOf = ReadonlyMap<string, readonly Need[]>;

const strandOf = (
  voice: string,
  notes: readonly Note[],
  needsOf: NeedsOf,
  told: ReadonlyMap<string, ToldPlayers>,
): Strand => ({
  voice,
  notes,
  demands: notes
    .flatMap(({ id }) => needsOf.get(id) ?? [])
    .map(({ onset, letter, position }) => ({ at: toNumber(onset), letter, position })),
  told: playersTold(told.get(notes[0]!.id)),
});

/** Who plays what is told so. @returns null where nothing tells it */
export const playersTold = (told: ToldPlayers | undefined): Players | null => {
  if (told === undefined || told === 'unknown') return null;
  if (told === 'all' || told.length > 1) return 'both';
  return told[0] === 2 ? 2 : 1;
};

const splitVoice = (
  notes: readonly Note[],
  needsOf: NeedsOf,
  told: ReadonlyMap<string, ToldPlayers>,
  fineness: Fineness,
  score: Score,
): readonly (readonly Note[])[] => {
  const byTold = [...group(notes, ({ id }) => `${told.get(id) ?? 'unknown'}`).values()];
  return byTold.flatMap((own) => {
    const clashes = fineness > 0 || hasClash(own, needsOf);
    const lines = clashes ? linesOf(own) : [own];
    if (fineness < 2) return lines;
    const { beatUnit } = score.bars[own[0]!.bar]!.meter;
    return lines.flatMap((line) => [
      ...group(line, ({ onset }) => Math.floor((toNumber(onset) * beatUnit) / 4)).values(),
    ]);
  });
};

/** Whether one player could not play the notes of one voice. */
const hasClash = (notes: readonly Note[], needsOf: NeedsOf): boolean => {
  const needs = notes.flatMap(({ id }) => needsOf.get(id) ?? []);
  return [...group(needs, ({ onset, letter }) => `${rationalKey(onset)};${letter}`).values()].some((same) =>
    same.some(({ position }) => position !== same[0]!.position),
  );
};

/** The lines of a voice's chords: the highest notes, the next, and so on. */
const linesOf = (notes: readonly Note[]): readonly (readonly Note[])[] => {
  const lines: Note[][] = [];
  for (const chord of group(
    notes,
    ({ onset, grace }) => `${rationalKey(onset)};${grace?.order ?? ''}`,
  ).values()) {
    const sorted = [...chord].sort(
      (a, b) => stepOf(b.pitch) - stepOf(a.pitch) || b.pitch.alter - a.pitch.alter,
    );
    for (const [line, note] of sorted.entries()) {
      lines[line] ??= [];
      lines[line].push(note);
    }
  }
  return lines;
};

/** Joins the last strands where there are too many of them: of one voice and one player first. */
const joinStrands = (strands: readonly Strand[]): readonly Strand[] => {
  const joined = [...strands];
  const free = (): number => joined.filter(({ told }) => told === null).length;
  while (free() > MOST_STRANDS) {
    const last = joined.findLastIndex(
      (each, i) => i > 0 && each.told === null && joined[i - 1]!.told === null,
    );
    if (last < 0) break;
    const [a, b] = [joined[last - 1]!, joined[last]!];
    joined.splice(last - 1, 2, {
      ...a,
      notes: [...a.notes, ...b.notes],
      demands: [...a.demands, ...b.demands],
    });
  }
  return joined;
};
