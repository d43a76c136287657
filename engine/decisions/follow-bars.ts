import { group } from '../group.ts';
import { add, rationalKey, subtract } from '../music/rational.ts';
import type { Bar } from '../score/model/bar.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { writtenString } from '../sounding/needs.ts';
import type { Place } from './model.ts';
import { namePlace } from './places.ts';

/** Where the bars of a score went in a later state of it. */
export interface FollowedBars {
  /** For each bar of the earlier state its index in the later one; null where it is gone. Indices grow. */
  readonly to: readonly (number | null)[];
  /** The end of the later state. */
  readonly end: Place;
}

/**
 * Follows bars by what is written in them: as many as possible are found again in their order (a longest common
 * subsequence), and those that were rewritten between two of these are taken for each other one by one.
 *
 * Takes the product of the numbers of bars that differ, in time and memory.
 */
export const followBars = (before: Score, after: Score): FollowedBars => {
  const [old, now] = [textsOfBars(before), textsOfBars(after)];
  const to = new Array<number | null>(old.length).fill(null);
  for (const [from, until] of findAgain(old, now)) to[from] = until;
  pairRewritten(to, now.length);
  const last = after.bars.at(-1)!;
  return { to, end: namePlace(after, add(last.onset, last.duration))! };
};

/** Whether every bar is where it was. */
export const areWhereTheyWere = ({ to }: FollowedBars): boolean => to.every((bar, i) => bar === i);

/** What is written in each bar, the same for bars that are alike. */
const textsOfBars = ({ bars, notes }: Score): readonly string[] => {
  const inBar = group(
    notes.filter(({ role }) => role !== 'cue'),
    ({ bar }) => bar,
  );
  return bars.map((bar) => {
    const written = (inBar.get(bar.index) ?? []).map((note) => textOfNote(note, bar)).sort();
    return [bar.meter.beats, bar.meter.beatUnit, rationalKey(bar.duration), ...written].join(' ');
  });
};

const textOfNote = (note: Note, { onset }: Bar): string => {
  const { letter, octave, alter } = writtenString(note);
  const at = rationalKey(subtract(note.onset, onset));
  return [note.staff, at, rationalKey(note.duration), letter, alter, octave, note.grace?.order ?? ''].join(
    ':',
  );
};

/** The longest list of pairs of equal texts, in the order of both. */
const findAgain = (
  old: readonly string[],
  now: readonly string[],
): readonly (readonly [number, number])[] => {
  let first = 0;
  while (first < Math.min(old.length, now.length) && old[first] === now[first]) first += 1;
  let alike = 0;
  const most = Math.min(old.length, now.length) - first;
  while (alike < most && old.at(-1 - alike) === now.at(-1 - alike)) alike += 1;
  const middle = longestCommon(old.slice(first, old.length - alike), now.slice(first, now.length - alike));
  return [
    ...Array.from({ length: first }, (_, i) => [i, i] as const),
    ...middle.map(([a, b]) => [a + first, b + first] as const),
    ...Array.from({ length: alike }, (_, i) => [old.length - alike + i, now.length - alike + i] as const),
  ];
};

/** Cells of a table: so many bars that all differ are no other state of a piece. */
const MOST_CELLS = 25_000_000;

/** By a table of the most pairs that are left from each pair of places on, a row for each place of the first list. */
const longestCommon = (
  a: readonly string[],
  b: readonly string[],
): readonly (readonly [number, number])[] => {
  const width = b.length + 1;
  if ((a.length + 1) * width > MOST_CELLS) return [];
  const left = new Uint32Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i -= 1) {
    for (let j = b.length - 1; j >= 0; j -= 1) {
      left[i * width + j] =
        a[i] === b[j]
          ? left[(i + 1) * width + j + 1]! + 1
          : Math.max(left[(i + 1) * width + j]!, left[i * width + j + 1]!);
    }
  }
  const pairs: (readonly [number, number])[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    if (a[i] === b[j]) {
      pairs.push([i, j]);
      i += 1;
      j += 1;
    } else if (left[(i + 1) * width + j]! >= left[i * width + j + 1]!) i += 1;
    else j += 1;
  }
  return pairs;
};

/** Bars that were not found again, where as many stand between the same two neighbours as before, are those in another state. */
const pairRewritten = (to: (number | null)[], bars: number): void => {
  for (let first = 0; first < to.length; first += 1) {
    if (to[first] !== null) continue;
    let end = first;
    while (end < to.length && to[end] === null) end += 1;
    const begins = first === 0 ? 0 : to[first - 1]! + 1;
    const ends = end === to.length ? bars : to[end]!;
    const isAsMany = ends - begins === end - first;
    for (let i = first; isAsMany && i < end; i += 1) to[i] = begins + i - first;
    first = end;
  }
};
