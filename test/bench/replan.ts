/**
 * Planning once more after a small change, in processor time: a pin that goes elsewhere, and a bar that is written anew.
 * Run as the program is shipped: node test/bench/built.mjs replan
 */

import { LETTERS } from '../../engine/music/pitch.ts';
import { rational, toNumber } from '../../engine/music/rational.ts';
import { keepAsPlanned } from '../../engine/pedals/keep-planned.ts';
import type { Plan } from '../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../engine/pedals/options.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { createReplanner } from '../../engine/pedals/replan.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { joinBars, writeBars, writeLongPart } from './long-part.ts';
import { median, milliseconds, processorTime } from './stopwatch.ts';

/** So many until JavaScript has compiled what is run often: a user who drags a pin asks as often in some seconds. */
const PINS_TO_WARM = 150;
const PINS = 60;

/** A pin goes from bar to bar and from pedal to pedal, as a user drags it. */
const benchReplanning = (): void => {
  const opened = openScore(new TextEncoder().encode(writeLongPart(300)));
  if (!opened.ok) throw new Error(opened.problem.code);
  const replan = createReplanner(opened.value);
  const optionsOf = (turn: number): PlanOptions => ({
    ...DEFAULT_PLAN_OPTIONS,
    pins: [
      {
        kind: 'position',
        letter: LETTERS[turn % 7]!,
        position: 0,
        from: rational(4 * ((37 * turn) % 300)),
        until: rational(4 * ((37 * turn) % 300) + 1),
      },
    ],
  });
  const timesOf = (plan: (options: PlanOptions) => unknown, first: number, turns: number): number[] =>
    Array.from({ length: turns }, (_, turn) => processorTime(() => plan(optionsOf(first + turn)))).sort(
      (a, b) => a - b,
    );
  timesOf(replan, 1_000, PINS_TO_WARM);
  const again = timesOf(replan, 0, PINS);
  const afresh = timesOf((options) => planPedals(opened.value, options), 0, PINS);
  console.log(
    `300 bars, one pin goes elsewhere: afresh ${milliseconds(median(afresh))}, again ${milliseconds(median(again))} ` +
      `(processor time, median of ${PINS}; slowest ${milliseconds(again.at(-1)!)})`,
  );
};

/** Bars on either side of the one that is written anew; the outermost stay as they were planned. */
const AROUND = [2, 4] as const;

/** A bar of a long part that is written anew, or added at its end, and what is planned of it. */
interface Composed {
  /** The bars of the whole part as they are now. */
  readonly written: readonly string[];
  /** Of those that are read and planned; the outermost stay as they were planned. */
  readonly first: number;
  readonly last: number;
}

/**
 * A bar is written anew, or added at the end, and it is read and planned with some bars around it, one change after the
 * other. Whether that is what the whole part comes to is looked at afterwards: whole plans in between, which nobody asks
 * for who writes, leave the small ones nothing in the processor's caches, and more than double their time.
 */
const benchComposing = (): void => {
  const bars = writeBars(300, 1);
  const others = writeBars(300, 2);
  const plan = planPedals(openWritten(joinBars(bars)));
  const compose = (turn: number, around: number): Composed => {
    const changed = turn % 2 === 0 ? 300 : 10 + ((37 * turn) % 280);
    const written = bars.toSpliced(changed, 1, others[turn % 300]!);
    return { written, first: changed - around, last: changed + around };
  };
  const planBetween = ({
    written,
    first,
    last,
  }: Composed): { readonly between: Plan; readonly time: number } => {
    const text = joinBars(written.slice(first, last + 1));
    const pins = [first, last]
      .filter((bar) => bar < 300)
      .flatMap((bar) =>
        keepAsPlanned(
          plan,
          { from: rational(4 * bar), until: rational(4 * bar + 4) },
          rational(4 * (bar - first)),
        ),
      );
    let between = plan;
    const time = processorTime(() => {
      between = planPedals(openWritten(text), { ...DEFAULT_PLAN_OPTIONS, pins });
    });
    return { between, time };
  };
  const isAsAnew = ({ written, first, last }: Composed, between: Plan): boolean => {
    const spliced = [
      ...movesFrom(plan).filter(({ at }) => at <= 4 * first || at >= 4 * last + 4),
      ...movesFrom(between, 4 * first).filter(({ at }) => at > 4 * first && at < 4 * last + 4),
    ];
    return textOf(spliced) === textOf(movesFrom(planPedals(openWritten(joinBars(written)))));
  };
  for (const around of AROUND) {
    const turns = Array.from({ length: PINS_TO_WARM + PINS }, (_, turn) => {
      const composed = compose(turn, around);
      return { composed, ...planBetween(composed) };
    }).slice(PINS_TO_WARM);
    const times = turns.map(({ time }) => time).sort((a, b) => a - b);
    const alike = turns.filter(({ composed, between }) => isAsAnew(composed, between)).length;
    console.log(
      `a bar of 300 written anew or added, ${around} bars around it read and planned again: ${milliseconds(median(times))} ` +
        `(processor time, median of ${PINS}; slowest ${milliseconds(times.at(-1)!)}), ` +
        `${alike} of ${PINS} as the whole part is planned anew`,
    );
  }
};

const openWritten = (text: string): Score => {
  const opened = openScore(new TextEncoder().encode(text));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const movesFrom = ({ moves }: Plan, begins = 0) =>
  moves.map(({ letter, to, at }) => ({ letter, to, at: toNumber(at) + begins }));

const textOf = (moves: ReturnType<typeof movesFrom>): string =>
  moves
    .map(({ letter, to, at }) => `${letter}${to} ${at}`)
    .sort()
    .join(' ');

benchReplanning();
benchComposing();
