import { midiOf } from '../../music/pitch.ts';
import type { Plan } from '../../pedals/model.ts';
import { createTrials } from '../../pedals/offers/trials.ts';
import type { PlanOptions } from '../../pedals/options.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../pedals/options.ts';
import { buildPedalProblem, prepareScore } from '../../pedals/pedal-problem.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { headsOfTies } from '../../sounding/ties.ts';
import { type ToldPlayers, tellPlayers } from '../told-players.ts';
import { DIVISION_WEIGHTS, type DivisionAim } from './division-weights.ts';
import { type Division, solveDivision } from './solve-division.ts';
import { type BarCut, type Fineness, listSlices, type Players, playersTold, type Slice } from './strands.ts';

/** A part divided between two players. */
export interface DividedPart {
  /** Who plays each note, by its id. */
  readonly players: ReadonlyMap<string, Players>;
  /** Places that cannot be played, in the part of each player. */
  readonly stops: readonly [number, number];
  /** Moves of each player's pedals. */
  readonly moves: readonly [number, number];
  /** Whether no division of the strands that were tried costs less by the weights, pedals in time aside. */
  readonly proved: boolean;
}

/** Bars in which the feet have no time are taken apart more finely, so often. */
const MOST_ROUNDS = 4;

/**
 * Divides a part that is too much for one harp, or that is written for two on one pair of staves, between two players.
 * What words and stems tell stays with its player. Strands of notes go to one player each, by the weights of the aim
 * (`solveDivision`); then both parts are planned, and bars that still cannot be played are taken apart more finely. Where
 * the second is to have as little as can be, so are the bars in which they play.
 *
 * Bars are divided in printed order; the plans follow every repeat.
 */
export const dividePart = (
  score: Score,
  aim: DivisionAim,
  options: PlanOptions = DEFAULT_PLAN_OPTIONS,
): DividedPart => {
  const attempt = divisionsOf(score, aim, options);
  const cuts = new Map<number, BarCut>();
  let best: Attempt | null = null;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const found = attempt(cuts);
    if (best === null || sum(found.stops) < sum(best.stops)) best = found;
    const open = new Set(
      found.bars.flatMap((each) => [each - 1, each]).filter((bar) => !isFinest(cuts, bar)),
    );
    if (open.size === 0) break;
    for (const bar of open) cuts.set(bar, finer(cuts, bar, true));
  }
  const playable = best!;
  return aim === 'least' ? handBack(score, withLess(playable, attempt, cuts), options) : playable;
};

/** A division that was planned. */
interface Attempt extends DividedPart {
  /** Bars (indices) that cannot be played, those of either player. */
  readonly bars: readonly number[];
  /** The notes that only the second plays. */
  readonly second: readonly Note[];
}

type Cuts = Map<number, BarCut>;

const WHOLE: BarCut = { fineness: 0, crowded: false };

const isFinest = (cuts: Cuts, bar: number): boolean => cuts.get(bar)?.fineness === 2;

const finer = (cuts: Cuts, bar: number, inTime: boolean): BarCut => {
  const { fineness, crowded } = cuts.get(bar) ?? WHOLE;
  const next = Math.min(2, fineness + 1) as Fineness;
  return { fineness: next, crowded: crowded || (inTime && next === 2) };
};

const divisionsOf = (score: Score, aim: DivisionAim, options: PlanOptions): ((cuts: Cuts) => Attempt) => {
  const { needs } = buildPedalProblem(prepareScore(score, options), new Map()).listed;
  const told = toldIn(score);
  return (cuts) => {
    const slices = listSlices(score, needs, told, (bar) => cuts.get(bar) ?? WHOLE);
    const division = solveDivision(slices, DIVISION_WEIGHTS[aim]);
    const players = higherFirst(playersOf(score, slices, division), score, aim);
    return { ...planShares(score, players, options), proved: division.proved };
  };
};

/** Whose the notes of a part for several are, as far as words and stems tell. */
const toldIn = (score: Score): ReadonlyMap<string, ToldPlayers> =>
  score.harp.players > 1 ? tellPlayers(score) : new Map();

/** Plans the parts of both players. */
const planShares = (
  score: Score,
  players: ReadonlyMap<string, Players>,
  options: PlanOptions,
): Omit<Attempt, 'proved'> => {
  const plans = ([1, 2] as const).map((player) => planShare(score, players, player, options));
  const [first, second] = plans.map(barsOfStops);
  return {
    players,
    stops: [first!.length, second!.length],
    moves: [plans[0]!.moves.length, plans[1]!.moves.length],
    bars: [...first!, ...second!],
    second: score.notes.filter(({ id }) => players.get(id) === 2),
  };
};

/** From whole voices to beats of their lines. */
const MOST_ROUNDS_FOR_LESS = 2;

/** Takes the bars in which the second plays apart more finely, as long as that leaves them less. */
const withLess = (playable: Attempt, attempt: (cuts: Cuts) => Attempt, cuts: Cuts): Attempt => {
  let best = playable;
  for (let round = 0; round < MOST_ROUNDS_FOR_LESS; round += 1) {
    for (const bar of new Set(best.second.map(({ bar }) => bar))) cuts.set(bar, finer(cuts, bar, false));
    const found = attempt(cuts);
    if (sum(found.stops) <= sum(best.stops) && found.second.length < best.second.length) best = found;
  }
  return best;
};

/** Notes that are tried by themselves with the first player. */
const MOST_HANDED_BACK = 40;

/**
 * Gives notes of the second player back to the first one by one, the shortest way to fewer where voices and beats are not
 * divided any more finely. A note goes back where no more places are unplayable by it; then the division is no longer the
 * one that was proved.
 */
const handBack = (score: Score, found: Attempt, options: PlanOptions): Attempt => {
  const told = toldIn(score);
  const heads = headsOfTies(score.notes);
  let best = found;
  const own = found.second.filter(
    ({ id, tiedFrom }) => tiedFrom === null && playersTold(told.get(id)) === null,
  );
  for (const { id } of own.slice(0, MOST_HANDED_BACK)) {
    const players = new Map(
      [...best.players].map(([note, player]) => [note, heads.get(note)?.id === id ? 1 : player] as const),
    );
    const tried = planShares(score, players, options);
    if (sum(tried.stops) <= sum(best.stops)) best = { ...tried, proved: false };
  }
  return best;
};

const sum = ([a, b]: readonly [number, number]): number => a + b;

const barsOfStops = ({ findings }: Plan): readonly number[] =>
  findings
    .filter(({ severity }) => severity === 'stop')
    .flatMap(({ places }) => places.map(({ bar }) => bar));

/** What is tied stays with the note before. */
const playersOf = (
  score: Score,
  slices: readonly Slice[],
  { players }: Division,
): ReadonlyMap<string, Players> => {
  const own = new Map<string, Players>();
  for (const [i, { strands }] of slices.entries()) {
    for (const [strand, { notes }] of strands.entries()) {
      for (const { id } of notes) own.set(id, players[i]![strand]!);
    }
  }
  const heads = headsOfTies(score.notes);
  for (const { id } of score.notes) {
    const player = own.get(heads.get(id)!.id);
    if (player !== undefined) own.set(id, player);
  }
  return own;
};

/** Where nothing else tells the players apart, the first has the higher notes. */
const higherFirst = (
  players: ReadonlyMap<string, Players>,
  score: Score,
  aim: DivisionAim,
): ReadonlyMap<string, Players> => {
  if (aim === 'least' || score.harp.players > 1) return players;
  const [first, second] = ([1, 2] as const).map((player) =>
    mean(score.notes.filter(({ id }) => players.get(id) === player).map(({ pitch }) => midiOf(pitch))),
  );
  if (!(first! < second!)) return players;
  return new Map([...players].map(([id, player]) => [id, player === 1 ? 2 : player === 2 ? 1 : player]));
};

/** @returns not a number where there are none, which is neither more nor less */
const mean = (values: readonly number[]): number =>
  values.reduce((all, value) => all + value, 0) / values.length;

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

const planShare = (
  score: Score,
  players: ReadonlyMap<string, Players>,
  player: 1 | 2,
  options: PlanOptions,
): Plan => createTrials(shareOf(score, players, player).score, options).planWith([]);
