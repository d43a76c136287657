import { FEET, type Foot, type Position } from '../../harp/setting.ts';
import { areDeepEqual, lazy, memoize, perObject } from '../../memoize.ts';
import type { Letter } from '../../music/pitch.ts';
import { candidatePositions } from '../../sounding/candidate-positions.ts';
import { needTimingOf } from '../../sounding/need-timing.ts';
import type { Need } from '../../sounding/needs.ts';
import { firstNeedFrom, type NeedsByLetter, type PlacedNeed } from '../../sounding/placed-needs.ts';

import { lastPlayedBefore } from '../../time/last-played.ts';
import { areSameTimelines, type PartTimeline } from '../../time/part-timeline.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import type { CostTerm } from '../../time/window.ts';
import { areEqualWeights, type WeightName, type Weights } from '../weights.ts';
import { fewestMovesIn } from './fewest-moves.ts';
import type { FootMove, FootTask } from './foot-changes.ts';
import { findFootSchedule } from './foot-schedule.ts';
import { type FootStage, sinceThen, type TracedTask } from './foot-stage.ts';
import { costTerms, type PossibleMove, priceOfMove, runStepsOf } from './move-cost.ts';
import { type NewSetting, pedalInSettings } from './new-settings.ts';
import { placeInPause } from './place-in-pause.ts';
import { exactPrice, priceOfSpacing, spacingsOf } from './spacing.ts';

/** A printed move with what surrounds it. */
export interface SolvedMove extends Omit<FootMove, 'pedal' | 'manner'> {
  /** `crossed`: by the other foot, as a last resort. */
  readonly manner: FootMove['manner'] | 'crossed';
  readonly letter: Letter;
  readonly foot: Foot;
  /** The last need of the old position in printed order, and the first need of the new one. */
  readonly after: Need | null;
  readonly before: Need | null;
  /** It moves the pedal only where the music jumps here: read on from the bar before, the pedal is there already. */
  readonly restores: boolean;
  /** What was paid for it over and above the price of a move: the terms of all moves make up the foot's cost. */
  readonly cost: readonly CostTerm[];
}

/** What one foot does through the piece. */
export interface FootPlan {
  readonly foot: Foot;
  /** What it was planned for. */
  readonly needs: NeedsByLetter;
  readonly context: PedalContext;
  readonly initial: ReadonlyMap<Letter, Position>;
  readonly moves: readonly SolvedMove[];
  /** Needs whose pedal stands elsewhere, since others at the same moment outnumber them. */
  readonly unmet: readonly Need[];
  /** The number of moves that would do if the foot needed no time; worked out when it is first asked for. */
  readonly minMoves: () => number;
  /** Whether it was proved that no course of the foot is better. */
  readonly provenOptimal: boolean;
  /** What a plan for nearly the same can go by; null where there is nothing. */
  readonly tracedTask: TracedTask | null;
}

/** What both feet share. */
export interface PedalContext extends PartTimeline {
  readonly weights: Weights;
  /** Whether two neighbouring pedals may be taken together as a last resort. */
  readonly together: boolean;
  readonly idle: (letter: Letter) => Position;
  /** Positions that the user fixed, by moment. */
  readonly pinned: (letter: Letter) => ReadonlyMap<number, Position>;
  /** The moments at which the user forbade moves. */
  readonly forbidden: ReadonlySet<number>;
  /** What both feet set anew in rests. */
  readonly newSettings: readonly NewSetting[];
}

/**
 * Plans one foot: the best course for its pedals, and each move's reasons.
 *
 * @param known an earlier plan of it: what lies in moments where nothing is other than there is not searched again
 */
export const planFoot = (
  foot: Foot,
  needs: NeedsByLetter,
  context: PedalContext,
  known?: FootPlan,
): FootPlan => {
  const { graph } = context;
  const letters = FEET[foot];
  const { task, costOf, stage } = buildFootTask(letters, needs, context);
  const before = known?.tracedTask ?? null;
  const course = findFootSchedule(task, undefined, before === null ? null : sinceThen(before, stage));
  const stands = letters.map((_, pedal) => followPedal(course.initial[pedal]!, pedal, course.moves, graph));
  const extra = extraTerms(task, stands);
  return {
    foot,
    needs,
    context,
    initial: new Map(letters.map((letter, pedal) => [letter, course.initial[pedal]!])),
    // Written out: thousands of moves are made when fixes are tried.
    moves: asBefore(
      known?.needs === needs ? known.moves : [],
      course.moves.map((move): SolvedMove => {
        const { pedal, moment, from, to, manner } = move;
        const letter = letters[pedal]!;
        const { after, before: next } = windowOf(needs.get(letter)!, move, graph);
        const restores = arrivesThere(stands[pedal]!, move, graph);
        const cost = [...costOf(pedal, moment, from, to), ...extra(pedal, move)];
        return { moment, from, to, manner, letter, foot, after, before: next, restores, cost };
      }),
    ),
    unmet: letters.flatMap((letter, pedal) => unmetNeeds(stands[pedal]!, needs.get(letter)!)),
    minMoves: lazy(() => fewestMovesIn(task)),
    provenOptimal: course.provenOptimal,
    tracedTask: course.trace === null ? before : { stage, trace: course.trace },
  };
};

/** The moves; those that were made before are the same objects, so that they are known for alike at a glance. */
const asBefore = (before: readonly SolvedMove[], moves: readonly SolvedMove[]): readonly SolvedMove[] => {
  if (before.length === 0) return moves;
  const at = new Map(before.map((move) => [move.moment, move]));
  return moves.map((move) => {
    const known = at.get(move.moment);
    return known !== undefined && areDeepEqual(known, move) ? known : move;
  });
};

/** The number of moves that would do for some needs if the feet needed no time: no plan has fewer. */
export const minMovesFor = (needs: NeedsByLetter, context: PedalContext): number =>
  Object.values(FEET).reduce(
    (sum, letters) => sum + fewestMovesIn(buildFootTask(letters, needs, context).task),
    0,
  );

/** Whether a foot's plan is that for these needs on this stage too: the same lists of needs, equal pins and weights. */
export const solvesSameTask = (
  { foot, needs, context }: FootPlan,
  wanted: NeedsByLetter,
  on: PedalContext,
): boolean =>
  FEET[foot].every((letter) => needs.get(letter) === wanted.get(letter)) &&
  (context === on ||
    (context.moments === on.moments &&
      context.graph === on.graph &&
      context.together === on.together &&
      areEqualWeights(context.weights, on.weights) &&
      areDeepEqual(context.newSettings, on.newSettings) &&
      FEET[foot].every(
        (letter) =>
          context.idle(letter) === on.idle(letter) && areEqualPins(context.pinned(letter), on.pinned(letter)),
      ) &&
      areDeepEqual(context.forbidden, on.forbidden)));

const areEqualPins = (a: ReadonlyMap<number, Position>, b: ReadonlyMap<number, Position>): boolean =>
  a === b || (a.size === b.size && [...a].every(([moment, position]) => b.get(moment) === position));

/** A foot's task, and why a move of it would cost what it does. */
export const buildFootTask = (
  letters: readonly Letter[],
  needs: NeedsByLetter,
  context: PedalContext,
): {
  readonly task: FootTask;
  readonly costOf: (...move: Parameters<FootTask['priceAt']>) => CostTerm[];
  readonly stage: FootStage;
} => {
  const { moments, graph, weights } = context;
  const runSteps = runStepsOf(moments.all);
  const around = letters.map((letter) => timingKnownOf(needs.get(letter)!)(context));
  const inSettings = letters.map((letter) => pedalInSettings(letter, context.newSettings, context));
  const wantedFirst = letters.map((letter) => needs.get(letter)![0]?.need.position ?? context.idle(letter));
  const describe = (pedal: number, index: number, from: Position, to: Position): PossibleMove => ({
    index,
    moment: moments.all[index]!,
    runStep: runSteps[index]!,
    from,
    to,
    placeInPause: placeInPause(letters[pedal]!),
    around: around[pedal]!,
    inSettings: inSettings[pedal]!,
    weights,
    forbidden: context.forbidden.has(index),
  });
  const choices = letters.map((letter) =>
    choicesKnownOf(needs.get(letter)!)(graph, context.idle(letter), context.pinned(letter)),
  );
  return {
    task: {
      choices,
      graph,
      footRestSeconds: weights.footRestSeconds,
      priceAt: (...move) => priceOfMove(describe(...move)),
      perMove: exactPrice(weights.move),
      priceAtStart: (pedal, position) =>
        position === wantedFirst[pedal] ? 0 : exactPrice(weights.startsElsewhere),
      restoring: exactPrice(weights.restoring),
      tooSoon: exactPrice(weights.footTooBusy),
      spacing: {
        price: exactPrice(weights.closeMoves),
        comfortableSeconds: weights.comfortableSpacingSeconds,
      },
      together: context.together ? exactPrice(weights.pedalsTogether) : null,
    },
    costOf: (...move) => costTerms(describe(...move)),
    stage: { context, choices, around, inSettings, wantedFirst },
  };
};

/** How the needs of a pedal lie in time, on the latest timelines. */
const timingKnownOf = perObject((needs: readonly PlacedNeed[]) =>
  memoize((timeline: PartTimeline) => needTimingOf(needs, timeline), areSameTimelines),
);

/** The positions that a pedal may take, the latest for some pins. */
const choicesKnownOf = perObject((needs: readonly PlacedNeed[]) =>
  memoize(
    (graph: PlayGraph, idle: Position, pinned: ReadonlyMap<number, Position>) =>
      candidatePositions(needs, graph, idle, pinned).at,
    ([graphA, idleA, pinnedA], [graphB, idleB, pinnedB]) =>
      graphA === graphB && idleA === idleB && areEqualPins(pinnedA, pinnedB),
  ),
);

/** What is paid for a move on top of its moment: for the foot's last resorts, its spacing, and what a jump asks for. */
const extraTerms = (
  task: FootTask,
  stands: readonly Int8Array[],
): ((pedal: number, move: Omit<FootMove, 'pedal'>) => CostTerm[]) => {
  const { graph } = task;
  const movesOn = (pedal: number, from: number, to: number): boolean =>
    stands[pedal]![from] !== stands[pedal]![to];
  const firstOn = (from: number, to: number): number =>
    stands.findIndex((_, pedal) => movesOn(pedal, from, to));
  const spacings = spacingsOf(graph, (from, to) => stands.some((at) => at[from] !== at[to]));
  return (pedal, { moment, manner }) => {
    const terms: CostTerm[] = [];
    const add = (name: WeightName, amount: number): void => {
      if (amount > 0) terms.push({ name, amount });
    };
    if (manner === 'too-soon') add('footTooBusy', task.tooSoon);
    if (manner === 'together') add('pedalsTogether', task.together!);
    const since = spacings.get(moment);
    if (since !== undefined && firstOn(moment - 1, moment) === pedal) {
      add('closeMoves', priceOfSpacing(task.spacing, task.footRestSeconds, since));
    }
    if (graph.into[moment]!.every(({ from }) => from >= moment || !movesOn(pedal, from, moment))) {
      add('restoring', task.restoring);
    }
    return terms;
  };
};

/** Moments that are read one after the other. */
interface Straight {
  readonly first: number;
  /** The one after the last. */
  readonly end: number;
  /** The moment before the first in the music, where one lies before it in print; else the one printed before. */
  readonly before: number;
}

const straightsOf = perObject((graph: PlayGraph): readonly Straight[] => {
  const straights: { first: number; end: number; before: number }[] = [];
  for (let moment = 0; moment < graph.moments; moment += 1) {
    const before = graph.into[moment]!.find(({ from }) => from < moment)?.from ?? moment - 1;
    const last = straights.at(-1);
    if (last === undefined || before !== moment - 1)
      straights.push({ first: moment, end: moment + 1, before });
    else last.end = moment + 1;
  }
  return straights;
});

/** Where a pedal stands at each moment once the markings there are obeyed. */
const followPedal = (
  initial: Position,
  pedal: number,
  moves: readonly FootMove[],
  graph: PlayGraph,
): Int8Array => {
  const stands = new Int8Array(graph.moments);
  const printed = moves.filter((move) => move.pedal === pedal);
  let next = 0;
  for (const { first, end, before } of straightsOf(graph)) {
    let [from, position] = [first, before < 0 ? initial : stands[before]!];
    for (; next < printed.length && printed[next]!.moment < end; next += 1) {
      stands.fill(position, from, printed[next]!.moment);
      [from, position] = [printed[next]!.moment, printed[next]!.to];
    }
    stands.fill(position, from, end);
  }
  return stands;
};

/** Needs that find the pedal elsewhere at some moment, each once. */
const unmetNeeds = (stands: Int8Array, needs: readonly PlacedNeed[]): Need[] => {
  const unmet = new Set<Need>();
  for (const { need, moment } of needs) {
    if (stands[moment] !== need.position) unmet.add(need);
  }
  return [...unmet];
};

const arrivesThere = (
  stands: Int8Array,
  move: Pick<FootMove, 'moment' | 'to'>,
  graph: PlayGraph,
): boolean => {
  const step = graph.into[move.moment]!.find((edge) => edge.from === move.moment - 1);
  return step === undefined ? move.moment === graph.start : stands[step.from] === move.to;
};

const windowOf = (
  needs: readonly PlacedNeed[],
  { moment, from }: Pick<FootMove, 'moment' | 'from'>,
  graph: PlayGraph,
): { readonly after: Need | null; readonly before: Need | null } => {
  const last = lastPlayedBefore(needs, moment, graph, ({ need }) => need.position === from);
  const next = needs[firstNeedFrom(needs, moment)];
  return { after: last?.need ?? null, before: next?.need ?? null };
};
