/**
 * Planning time: against reading the same part, as parts grow, against an integer programme, and for free spelling.
 * Run: npx tsx test/bench/plan.ts
 */

import { findFootSchedule } from '../../engine/pedals/course/foot-schedule.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../engine/pedals/options.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { chooseSpelling } from '../../engine/pedals/spelling/spelling.ts';
import { DEFAULT_WEIGHTS } from '../../engine/pedals/weights.ts';
import { openScore } from '../../engine/score/open.ts';
import { otherStrings } from '../../engine/sounding/needs.ts';
import { HARP_SCORES, hasScores, readScoreFile } from '../corpus/harp-scores.ts';
import { solveByIntegerProgramme } from '../engine/pedals/course/integer-programme.ts';
import { randomTask, seededRandom } from '../engine/pedals/course/random-task.ts';
import { writeLongPart } from './long-part.ts';
import { milliseconds, quickest, warmTime } from './stopwatch.ts';

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

benchGrowth();
if (hasScores) benchCorpus();
await benchProgramme();
benchSpelling();
benchFreePlan();
