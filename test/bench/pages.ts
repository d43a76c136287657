import { planPart } from '../../engine/plan-part.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { type Annotator, createAnnotator } from '../../render/annotate.ts';
import type { EngravingChoice } from '../../render/engraving-options.ts';
import { startBareVerovio } from './bare-verovio.ts';
import { writeLongPart } from './long-part.ts';
import { median } from './stopwatch.ts';

/**
 * What pages cost beside bare Verovio drawing the same part, by how long the part is.
 *
 * `node test/bench/built.mjs pages [bars,bars… [rounds]]`: processor time, medians; each round has music of its own, so that
 * nothing of it was drawn before, and all of a round are taken in turns. “First page” is from the planned score to the
 * first page; beside it what bare Verovio takes for a part of that page's bars alone.
 */

const [lengths = '60,300,1200', rounds = '5'] = process.argv.slice(2);

/** Milliseconds of the processor so far. */
const spent = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const timed = async (work: () => unknown): Promise<number> => {
  const start = spent();
  await work();
  return spent() - start;
};

const read = (text: string): Score => {
  const opened = openScore(new TextEncoder().encode(text), {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

interface Told {
  readonly first: number;
  readonly all: number;
  readonly pages: readonly string[];
  /** When the page with a bar came, as it stays. */
  readonly withBar: number;
}

/** Draws page by page. @param bar index of a bar whose page is waited for */
const tell = async (
  annotator: Annotator,
  score: Score,
  choice: EngravingChoice,
  bar: number,
): Promise<Told> => {
  const plan = planPart(score, {});
  const start = spent();
  const pages: string[] = [];
  let [first, withBar] = [0, 0];
  const drawing = annotator.engravePageByPage(score, plan, choice);
  let step = await drawing.next();
  for (; step.done !== true; step = await drawing.next()) {
    const { number, svg } = step.value;
    pages[number - 1] = svg;
    first ||= spent() - start;
    if (svg.includes(`id="${score.bars[bar]!.id}"`)) withBar = spent() - start;
  }
  return { first, all: spent() - start, pages, withBar };
};

const round = async (annotator: Annotator, bare: (text: string) => void, bars: number, seed: number) => {
  const text = writeLongPart(bars, seed);
  const alone = await timed(() => bare(text));
  const score = read(text);
  const middle = bars >> 1;
  const drawn = await tell(annotator, score, {}, middle);
  const ofPage = writeLongPart(Math.ceil(bars / drawn.pages.length), seed);
  const page = await timed(() => bare(ofPage));
  const { at, bar } = { at: score.bars[middle]!.onset, bar: middle };
  const moved = await tell(annotator, score, { fullSettings: [{ at, bar, print: true }] }, middle);
  const look = await timed(() => annotator.engrave(score, planPart(score, {}), { naming: 'german' }, 'svg'));
  const other = read(writeLongPart(bars, seed + 1000));
  const pdf = await timed(() => annotator.engrave(other, planPart(other, {}), {}, 'pdf'));
  return {
    bare: alone,
    'all pages / bare': drawn.all / alone,
    'PDF / bare': pdf / alone,
    'first page': drawn.first,
    'bare, of that page alone': page,
    'first page / bare page': drawn.first / page,
    'first page of its own part': (await tell(annotator, read(ofPage), {}, 0)).first,
    'changed page / bare page': moved.withBar / page,
    'other names / all pages': look / drawn.all,
  };
};

const [bare, annotator] = [await startBareVerovio(), await createAnnotator()];
await round(annotator, bare, 60, 500);
for (const bars of lengths.split(',').map(Number)) {
  const times: Awaited<ReturnType<typeof round>>[] = [];
  for (let i = 0; i < Number(rounds); i += 1) times.push(await round(annotator, bare, bars, 1 + i));
  const names = Object.keys(times[0]!) as (keyof (typeof times)[0])[];
  const told = names.map((name) => {
    const value = median(times.map((each) => each[name]));
    return `${name} ${name.includes('/') ? value.toFixed(2) : `${value.toFixed(0)} ms`}`;
  });
  console.info(`${bars} bars: ${told.join('; ')}`);
}
