import { stopPlaces } from '../../findings/count-places.ts';
import type { FindingPlace, PedalFinding } from '../../findings/model.ts';
import type { Plan } from '../../pedals/model.ts';
import { createTrials } from '../../pedals/offers/trials.ts';
import type { PlanOptions } from '../../pedals/options.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { headsOfTies } from '../../sounding/ties.ts';
import { type ToldPlayers, tellPlayers } from '../told-players.ts';
import type { Player, Players } from './strands.ts';

/** A part divided between two players. */
export interface DividedPart {
  /** Who plays each note, by its id. */
  readonly players: ReadonlyMap<string, Players>;
  /** How many places cannot be played, in the part of each player. */
  readonly stops: readonly [number, number];
  /** The same places, those of the first player first. */
  readonly unplayable: readonly UnplayablePlace[];
  /** Moves of each player's pedals. */
  readonly moves: readonly [number, number];
  /** Whether no division of the strands that were tried costs less by the weights, pedals in time aside. */
  readonly proved: boolean;
}

/** A place that cannot be played. */
export interface UnplayablePlace {
  readonly code: PedalFinding['code'];
  readonly place: FindingPlace;
}

/** A division that was planned. */
export interface Attempt extends DividedPart {
  /** Bars (indices) that cannot be played, those of either player. */
  readonly bars: readonly number[];
  /** The notes that only the second plucks: what is tied to them is theirs too. */
  readonly second: readonly Note[];
}

/** Whose the notes of a part for several are, as far as words and stems tell. */
export const toldIn = (score: Score): ReadonlyMap<string, ToldPlayers> =>
  score.harp.players > 1 ? tellPlayers(score) : new Map();

/**
 * Whose the notes are once some of them change hands, each with all that is tied to it.
 *
 * @param now whose a note is then with which a tie begins, by its id; null where that stays as it is
 */
export const changeHands = (
  { notes }: Pick<Score, 'notes'>,
  players: ReadonlyMap<string, Players>,
  now: (head: string) => Player | null,
): ReadonlyMap<string, Players> => {
  const heads = headsOfTies(notes);
  return new Map([...players].map(([note, player]) => [note, now(heads.get(note)!.id) ?? player]));
};

/** Plans the parts of both players; null where they have more stops than so many. */
export const planSharesUpTo = (
  mostStops: number,
  score: Score,
  players: ReadonlyMap<string, Players>,
  options: PlanOptions,
): Omit<Attempt, 'proved'> | null => {
  const plans: Plan[] = [];
  const left: (readonly UnplayablePlace[])[] = [];
  for (const player of [1, 2] as const) {
    const plan = planShare(score, players, player, options);
    plans.push(plan);
    left.push(unplayableIn(plan));
    if (left.flat().length > mostStops) return null;
  }
  const [first, second] = plans as [Plan, Plan];
  return {
    players,
    stops: [left[0]!.length, left[1]!.length],
    unplayable: left.flat(),
    moves: [first.moves.length, second.moves.length],
    bars: left.flat().map(({ place }) => place.bar),
    second: score.notes.filter(({ id, tiedFrom }) => tiedFrom === null && players.get(id) === 2),
  };
};

/** Plans the parts of both players. */
export const planShares = (
  score: Score,
  players: ReadonlyMap<string, Players>,
  options: PlanOptions,
): Omit<Attempt, 'proved'> => planSharesUpTo(Number.POSITIVE_INFINITY, score, players, options)!;

/** Places that cannot be played, of both players. */
export const countStops = ({ stops: [first, second] }: Pick<DividedPart, 'stops'>): number => first + second;

const unplayableIn = ({ findings }: Plan): readonly UnplayablePlace[] =>
  stopPlaces(findings).map(({ finding: { code }, place }) => ({ code, place }));

/** The score with the notes of one player alone as played. */
export const shareOf = (
  score: Score,
  players: ReadonlyMap<string, Players>,
  player: 1 | 2,
): { readonly score: Score; readonly others: ReadonlySet<string> } => {
  const others = new Set(
    score.notes
      .filter(({ id }) => {
        const whose = players.get(id);
        return whose !== undefined && whose !== 'both' && whose !== player;
      })
      .map(({ id }) => id),
  );
  const notes = score.notes.map(
    (note): Note => (others.has(note.id) ? { ...note, role: 'cue' as const } : note),
  );
  const sweeps = score.sweeps.filter(({ from }) => !others.has(from));
  return { score: { ...score, notes, sweeps }, others };
};

/** Plans the part of one player. */
export const planShare = (
  score: Score,
  players: ReadonlyMap<string, Players>,
  player: 1 | 2,
  options: PlanOptions,
): Plan => createTrials(shareOf(score, players, player).score, options).planWith([]);
