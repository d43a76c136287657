/**
 * Planning time: against reading the same part, as parts grow, against an integer programme, for free spelling, once more
 * after a small change, and of a bar that is written anew.
 * Run: npx tsx test/bench/plan.ts
 */

import { LETTERS } from '../../engine/music/pitch.ts';
import { rational, toNumber } from '../../engine/music/rational.ts';
import { findFootSchedule } from '../../engine/pedals/course/foot-schedule.ts';
import { keepAsPlanned } from '../../engine/pedals/keep-planned.ts';
import type { Plan } from '../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../engine/pedals/options.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { createReplanner } from '../../engine/pedals/replan.ts';
import { chooseSpelling } from '../../engine/pedals/spelling/spelling.ts';
import { DEFAULT_WEIGHTS } from '../../engine/pedals/weights.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { otherStrings } from '../../engine/sounding/needs.ts';
import { HARP_SCORES, hasScores, readScoreFile } from '../corpus/harp-scores.ts';
import { solveByIntegerProgramme } from '../engine/pedals/course/integer-programme.ts';
import { randomTask, seededRandom } from '../engine/pedals/course/random-task.ts';
import { joinBars, writeBars, writeLongPart } from './long-part.ts';
import { median, milliseconds, processorTime, quickest, warmTime } from './stopwatch.ts';

const benchGrowth = (): void => {
  for (const bars of [50, 500, 2500]) {
    const bytes = new TextEncoder().encode(writeLongPart(bars));
    const opened = openScore(bytes);
    if (!opened.ok) throw new Error(opened.problem.code);
    const runs = bars < 1000 ? 5 : 2;
    const reading = quickest(runs, () => openScore(bytes));
    const planning = quickest(runs, () => planPedals(opened.value));
    console.log(
      `${bars} bars: reading ${milliseconds(reading)}, planning ${milliseconds(planning)} ` +
        `(${(planning / reading).toFixed(2)} of reading, ${((planning / bars) * 1000).toFixed(0)} µs a bar)`,
    );
  }
};

/** Each real score is read and planned, in processor time of a warm process; all of them together weigh by their size. */
const benchCorpus = (): void => {
  let [reading, planning] = [0, 0];
  for (const { file, part } of HARP_SCORES) {
    const bytes = readScoreFile(file);
    const options = part === undefined ? {} : { part };
    const opened = openScore(bytes, options);
    if (!opened.ok) throw new Error(opened.problem.code);
    const ofScore = {
      reading: warmTime(5, () => openScore(bytes, options)),
      planning: warmTime(5, () => planPedals(opened.value)),
    };
    console.log(
      `${file}: reading ${milliseconds(ofScore.reading)}, planning ${milliseconds(ofScore.planning)} ` +
        `(${(ofScore.planning / ofScore.reading).toFixed(2)} of reading)`,
    );
    reading += ofScore.reading;
    planning += ofScore.planning;
  }
  console.log(
    `${HARP_SCORES.length} real scores: reading ${milliseconds(reading)}, planning ${milliseconds(planning)} ` +
      `(${(planning / reading).toFixed(2)} of reading)`,
  );
};

const benchProgramme = async (): Promise<void> => {
  for (const seed of [1, 2, 3]) {
    const task = randomTask(30, seed);
    const start = performance.now();
    await solveByIntegerProgramme(task);
    const integer = performance.now() - start;
    const ours = quickest(5, () => findFootSchedule(task));
    console.log(
      `30 moments of one foot: integer programme ${milliseconds(integer)}, ours ${milliseconds(ours)} (${Math.round(integer / ours)} times faster)`,
    );
  }
};

const benchSpelling = (): void => {
  const random = seededRandom(7);
  const moments = Array.from({ length: 2000 }, (_, i) => ({ seconds: i * 0.3 }));
  const choices = moments.flatMap((_, moment) =>
    [0, 1].map(() => {
      const letter = (['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const)[Math.floor(random() * 7)]!;
      const written = { letter, octave: 4, alter: random() < 0.8 ? 0 : Math.floor(random() * 3) - 1 };
      return { moment, written, strings: [written, ...otherStrings(written)] };
    }),
  );
  const time = quickest(3, () => chooseSpelling(choices, moments, DEFAULT_WEIGHTS));
  console.log(`free spelling of 2,000 onsets: ${milliseconds(time)}`);
};

const benchFreePlan = (): void => {
  const opened = openScore(new TextEncoder().encode(writeLongPart(100)));
  if (!opened.ok) throw new Error(opened.problem.code);
  for (const spelling of ['keep', 'free', 'suggest'] as const) {
    const time = quickest(2, () => planPedals(opened.value, { ...DEFAULT_PLAN_OPTIONS, spelling }));
    console.log(`100 bars, spelling ${spelling}: ${milliseconds(time)}`);
  }
};

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

/** A bar of a long part is written anew, or added at its end, and it is read and planned with some bars around it. */
const benchComposing = (): void => {
  const bars = writeBars(300, 1);
  const others = writeBars(300, 2);
  const plan = planPedals(openWritten(joinBars(bars)));
  for (const around of AROUND) {
    const times: number[] = [];
    let alike = 0;
    for (let turn = 0; turn < PINS_TO_WARM + PINS; turn += 1) {
      const changed = turn % 2 === 0 ? 300 : 10 + ((37 * turn) % 280);
      const [first, last] = [changed - around, changed + around];
      const written = bars.toSpliced(changed, 1, others[turn % 300]!);
      const text = joinBars(written.slice(first, last + 1));
      const pins = [first, last].flatMap((bar) =>
        bar < 300
          ? keepAsPlanned(
              plan,
              { from: rational(4 * bar), until: rational(4 * bar + 4) },
              rational(4 * (bar - first)),
            )
          : [],
      );
      let between: Plan | undefined;
      const time = processorTime(() => {
        between = planPedals(openWritten(text), { ...DEFAULT_PLAN_OPTIONS, pins });
      });
      if (turn < PINS_TO_WARM) continue;
      times.push(time);
      const anew = movesFrom(planPedals(openWritten(joinBars(written))));
      const spliced = [
        ...movesFrom(plan).filter(({ at }) => at <= 4 * first || at >= 4 * last + 4),
        ...movesFrom(between!, 4 * first).filter(({ at }) => at > 4 * first && at < 4 * last + 4),
      ];
      if (textOf(spliced) === textOf(anew)) alike += 1;
    }
    times.sort((a, b) => a - b);
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

benchGrowth();
if (hasScores) benchCorpus();
await benchProgramme();
benchSpelling();
benchFreePlan();
benchReplanning();
benchComposing();
