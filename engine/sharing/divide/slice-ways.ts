import { group } from '../../group.ts';
import { FEET, footOf, type Position } from '../../harp/setting.ts';
import { LETTERS, midiOf } from '../../music/pitch.ts';
import { rationalKey } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import type { DivisionWeights } from './division-weights.ts';
import type { Demand, Players, Slice } from './strands.ts';

/** What one way to divide a bar asks of one pedal of one player. */
export interface PedalCourse {
  readonly first: Position;
  readonly last: Position;
  /** Moves within the bar. */
  readonly changes: number;
}

/** One way to divide the strands of a bar. */
export interface SliceWay {
  /** By strand. */
  readonly players: readonly Players[];
  /** What it costs whatever comes before. */
  readonly cost: number;
  /** Of the first player's seven pedals, in the order of `LETTERS`, then of the second's; null where none is asked. */
  readonly courses: readonly (PedalCourse | null)[];
  /** Who has each voice; `split` for a voice of both. */
  readonly voices: ReadonlyMap<string, Players | 'split'>;
}

const PLAYERS = [1, 2] as const;

/** Every way to divide a bar: 2 to the power of its open strands. */
export const waysOf = (slice: Slice, weights: DivisionWeights): readonly SliceWay[] => {
  const open = slice.strands.flatMap(({ told }, strand) => (told === null ? [strand] : []));
  return Array.from({ length: 2 ** open.length }, (_, way) => {
    const players = slice.strands.map(({ told }): Players => told ?? 1);
    for (const [bit, strand] of open.entries()) players[strand] = (way >> bit) & 1 ? 2 : 1;
    return wayOf(slice, players, weights);
  });
};

const isOf = (players: Players, player: 1 | 2): boolean => players === 'both' || players === player;

const wayOf = (slice: Slice, players: readonly Players[], weights: DivisionWeights): SliceWay => {
  let cost = 0;
  const courses: (PedalCourse | null)[] = [];
  const counts = [0, 0];
  for (const player of PLAYERS) {
    const own = slice.strands.filter((_, strand) => isOf(players[strand]!, player));
    const read = readCourses(own.flatMap(({ demands }) => demands));
    courses.push(...read.courses);
    cost += weights.clash * read.clashes;
    const notes = own.flatMap((strand) => strand.notes);
    counts[player - 1] = notes.length;
    cost += weights.reach * momentsOutOfReach(notes);
  }
  const voices = readVoices(slice, players);
  const broken = [...voices.values()].filter((player) => player === 'split').length;
  cost += weights.broken * broken + weights.unbalanced * Math.abs(counts[0]! - counts[1]!);
  cost += weights.second * counts[1]!;
  return { players, cost, courses, voices };
};

const readVoices = (slice: Slice, players: readonly Players[]): ReadonlyMap<string, Players | 'split'> => {
  const voices = new Map<string, Players | 'split'>();
  for (const [strand, { voice }] of slice.strands.entries()) {
    const known = voices.get(voice);
    voices.set(voice, known === undefined || known === players[strand] ? players[strand]! : 'split');
  }
  return voices;
};

/** What demands ask of each pedal; where a moment wants one in two positions it counts as a clash, and asks for nothing. */
const readCourses = (
  demands: readonly Demand[],
): { readonly courses: readonly (PedalCourse | null)[]; readonly clashes: number } => {
  const byLetter = group(demands, ({ letter }) => letter);
  let clashes = 0;
  const courses = LETTERS.map((letter): PedalCourse | null => {
    const moments = [...group(byLetter.get(letter) ?? [], ({ at }) => at)].sort(([a], [b]) => a - b);
    const positions: Position[] = [];
    for (const [, same] of moments) {
      if (same.every(({ position }) => position === same[0]!.position)) positions.push(same[0]!.position);
      else clashes += 1;
    }
    if (positions.length === 0) return null;
    const changes = positions.filter((position, i) => i > 0 && position !== positions[i - 1]).length;
    return { first: positions[0]!, last: positions.at(-1)!, changes };
  });
  return { courses, clashes };
};

/** A hand takes four notes, and a tenth: sixteen semitones (common practice, no source). */
const MOST_IN_HAND = 4;
const WIDEST = 16;

const momentsOutOfReach = (notes: readonly Note[]): number =>
  [
    ...group(
      notes.filter(({ grace }) => grace === null),
      ({ onset }) => rationalKey(onset),
    ).values(),
  ].filter((chord) => !twoHandsReach(chord)).length;

/** Whether two hands can take the notes, the lower ones the left. */
const twoHandsReach = (notes: readonly Note[]): boolean => {
  const pitches = [...new Set(notes.map(({ pitch }) => midiOf(pitch)))].sort((a, b) => a - b);
  const isHandful = (hand: readonly number[]): boolean =>
    hand.length <= MOST_IN_HAND && (hand.length === 0 || hand.at(-1)! - hand[0]! <= WIDEST);
  return pitches.some((_, i) => isHandful(pitches.slice(0, i + 1)) && isHandful(pitches.slice(i + 1)));
};

/** The foot, from 0 to 3, that has the pedal at an index of courses: left and right of the first player, then of the second. */
export const footAt = (index: number): number =>
  (index < LETTERS.length ? 0 : 2) + (footOf(LETTERS[index % LETTERS.length]!) === 'left' ? 0 : 1);

/** How many feet there are, of two players. */
export const FOOT_COUNT = 2 * Object.keys(FEET).length;
