import { midiOf } from '../../music/pitch.ts';
import type { PlanOptions } from '../../pedals/options.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../pedals/options.ts';
import { buildPedalProblem, prepareScore } from '../../pedals/pedal-problem.ts';
import type { Score } from '../../score/model/score.ts';
import { headsOfTies } from '../../sounding/ties.ts';
import { DIVISION_WEIGHTS, type DivisionAim } from './division-weights.ts';
import { divideFixedStrings } from './fixed-strings.ts';
import { giveAlike } from './give-alike.ts';
import { handBack } from './hand-back.ts';
import { type Attempt, countStops, type DividedPart, planShares, toldIn } from './planned-shares.ts';
import { type Division, solveDivision } from './solve-division.ts';
import { type BarCut, type Fineness, listSlices, type Players, playersTold, type Slice } from './strands.ts';

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
    if (best === null || countStops(found) < countStops(best)) best = found;
    const open = new Set(
      found.bars.flatMap((each) => [each - 1, each]).filter((bar) => !isFinest(cuts, bar)),
    );
    if (open.size === 0) break;
    for (const bar of open) cuts.set(bar, finer(cuts, bar, true));
  }
  const playable = giveAlike(score, best!, options);
  return aim === 'least' ? handBack(score, withLess(playable, attempt, cuts), options) : playable;
};

type Cuts = Map<number, BarCut>;

const WHOLE: BarCut = { fineness: 0, crowded: false };

const isFinest = (cuts: Cuts, bar: number): boolean => cuts.get(bar)?.fineness === 2;

const finer = (cuts: Cuts, bar: number, inTime: boolean): BarCut => {
  const { fineness, crowded } = cuts.get(bar) ?? WHOLE;
  const next = Math.min(2, fineness + 1) as Fineness;
  return { fineness: next, crowded: crowded || (inTime && next === 2) };
};

const divisionsOf = (score: Score, aim: DivisionAim, options: PlanOptions): ((cuts: Cuts) => Attempt) => {
  const { needs, onFixedStrings } = buildPedalProblem(prepareScore(score, options), new Map()).listed;
  const told = toldIn(score);
  return (cuts) => {
    const slices = listSlices(score, needs, told, (bar) => cuts.get(bar) ?? WHOLE);
    const division = solveDivision(slices, DIVISION_WEIGHTS[aim]);
    const byStrands = higherFirst(playersOf(score, slices, division), score, aim);
    const players = divideFixedStrings(
      score,
      byStrands,
      onFixedStrings,
      options.profile,
      (note) => playersTold(told.get(note)) === null,
      aim === 'least',
    );
    return { ...planShares(score, players, options), proved: division.proved && players === byStrands };
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
    if (countStops(found) <= countStops(best) && found.second.length < best.second.length) best = found;
  }
  return best;
};

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
