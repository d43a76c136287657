/**
 * The web page in a browser: how soon a new plan is shown after a move was dragged in a part of 300 bars, and how
 * evenly frames come while the pages are laid out and drawn anew; and the longest task of its main thread while a part of
 * 1,200 bars opens, as it goes by and in processor time, which says more on a machine that has other things to do.
 * Run: npm run build && npx tsx test/bench/page.ts
 */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Locator, type Page } from 'playwright-core';
import { startPageService } from '../browser/page-service.ts';
import { CHROMIUM, CHROMIUM_ARGUMENTS } from '../chromium.ts';
import { writeLongPart } from './long-part.ts';
import { median, milliseconds } from './stopwatch.ts';

const BARS = 300;
const DRAGS = 8;

/** A part as long as an opera’s. */
const LONGEST = 1200;

/** Notes when a pointer is let go, when the chart has changed after it, and when that is painted. Run by the page. */
const WATCH_DROPS = `
  globalThis.dropTimes = [];
  const chart = document.querySelector('svg.chart');
  const courses = () => [...chart.querySelectorAll('.course')].map((each) => each.getAttribute('d')).join();
  let dropped = null;
  let known = '';
  addEventListener('pointerup', () => {
    known = courses();
    dropped = performance.now();
  });
  new MutationObserver(() => {
    if (dropped === null || courses() === known) return;
    const from = dropped;
    dropped = null;
    const shown = performance.now() - from;
    requestAnimationFrame(() => setTimeout(() => dropTimes.push({ shown, painted: performance.now() - from })));
  }).observe(chart, { subtree: true, attributes: true, childList: true });
`;

/** Notes how long after a file was chosen its moves stand in the chart. Run by the page: this process lays pages out meanwhile. */
const WATCH_OPENING = `
  let chosen = 0;
  document.querySelector('input[type=file]').addEventListener('change', () => { chosen = performance.now(); });
  const watch = new MutationObserver(() => {
    if (document.querySelector('.chart .point') === null) return;
    globalThis.openedAfter = performance.now() - chosen;
    watch.disconnect();
  });
  watch.observe(document.body, { subtree: true, childList: true });
`;

/**
 * Notes the tasks of the main thread that take longer than 50 ms (W3C Long Tasks), from when a file is chosen until all of its
 * pages are there. Run by the page.
 */
const WATCH_TASKS = `
  globalThis.longTasks = [];
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) longTasks.push({ startTime, duration });
  }).observe({ type: 'longtask' });
`;

/** Notes the length of every frame. Run by the page. */
const WATCH_FRAMES = `
  globalThis.frames = [];
  let last = performance.now();
  const tick = () => {
    const now = performance.now();
    frames.push(now - last);
    last = now;
    requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
`;

/** Brings a part of the chart into view. @returns the moves that are drawn within the pane, by their numbers */
const showMoves = async (page: Page, share: number): Promise<readonly string[]> => {
  await page.evaluate(
    `{ const pane = document.querySelector('.chart-pane'); pane.scrollLeft = ${share} * (pane.scrollWidth - pane.clientWidth); }`,
  );
  await page.waitForTimeout(300);
  return page.evaluate<string[]>(`{
    const pane = document.querySelector('.chart-pane').getBoundingClientRect();
    const isInPane = (point) => {
      const { left, right } = point.getBoundingClientRect();
      return left > pane.left + 120 && right < pane.right - 20;
    };
    [...document.querySelectorAll('.chart .point')].filter(isInPane).map((point) => point.dataset.move);
  }`);
};

/** Some moves stand as early as they may: the next one is tried then. */
const MOST_TRIED = 6;

/** Drags one of the moves in a part of the chart, once the pages of the plan before are laid out, so that the plan changes. */
const dragOne = async (page: Page, share: number): Promise<void> => {
  await page.getByText(/pages are ready/).waitFor({ timeout: 60_000 });
  const before = await page.evaluate<number>('dropTimes.length');
  const moves = await showMoves(page, share);
  for (const move of moves.slice(0, MOST_TRIED)) {
    await dragMove(page, page.locator(`.chart [data-move="${move}"]`));
    if ((await page.evaluate<number>('dropTimes.length')) > before) return;
  }
};

/** Drags a move to the left, as far as it may go. */
const dragMove = async (page: Page, point: Locator): Promise<void> => {
  const box = (await point.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 8, y);
  await page.mouse.move(x - 60, y, { steps: 4 });
  await page.mouse.up();
  await page.waitForTimeout(600);
};

/** Lengths of frames in a span of time, while the page answers a pointer that moves over the chart. */
const watchFrames = async (page: Page, seconds: number): Promise<readonly number[]> => {
  const box = (await page.locator('.chart-pane').boundingBox())!;
  await page.evaluate(`{${WATCH_FRAMES}}`);
  const until = Date.now() + seconds * 1000;
  for (let i = 0; Date.now() < until; i += 1) {
    await page.mouse.move(box.x + 40 + ((i * 37) % (box.width - 80)), box.y + 40 + ((i * 13) % 150));
    await page.waitForTimeout(16);
  }
  return page.evaluate<number[]>('frames');
};

const service = await startPageService();
const browser = await chromium.launch({
  executablePath: CHROMIUM,
  args: [...CHROMIUM_ARGUMENTS],
});

const folder = mkdtempSync(join(tmpdir(), 'tringle-bench-'));

const newPage = async (): Promise<Page> => {
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  await page.goto(service.url);
  await page.evaluate(`{${WATCH_OPENING}${WATCH_TASKS}}`);
  return page;
};

/** Opens a long part, and tells when its plan was shown. */
const openPart = async (page: Page, bars: number): Promise<void> => {
  // From the disk, as a user does: to hand the bytes over would take the page half a second.
  const file = join(folder, 'long.musicxml');
  writeFileSync(file, writeLongPart(bars));
  await page.locator('input[type=file]').setInputFiles(file);
  await page.locator('.chart .point').first().waitFor({ timeout: 120_000 });
  const planShown = await page.evaluate<number>('openedAfter');
  console.log(`${bars} bars: plan shown ${milliseconds(planShown)} after the file was chosen`);
};

/** What Chromium traces of a task, in microseconds; `tdur` is processor time. */
interface TracedTask {
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly tdur?: number;
  readonly args: { readonly name?: string };
}

/** As Chromium names what its main thread does in one go. */
const TASKS = new Set(['ThreadControllerImpl::RunTask', 'BlinkScheduler_PerformMicrotaskCheckpoint']);

/** Milliseconds of processor time of each task of a page’s main thread while something is done. */
const traceTasks = async (page: Page, work: () => Promise<void>): Promise<readonly number[]> => {
  const session: CDPSession = await page.context().newCDPSession(page);
  const traced: TracedTask[] = [];
  session.on('Tracing.dataCollected', ({ value }) => void traced.push(...(value as unknown as TracedTask[])));
  await session.send('Tracing.start', {
    traceConfig: { recordMode: 'recordAsMuchAsPossible', includedCategories: ['toplevel'] },
  });
  await work();
  const complete = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.end');
  await complete;
  const threadOf = ({ pid, tid }: TracedTask): string => `${pid} ${tid}`;
  const main = new Set(
    traced.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain').map(threadOf),
  );
  return traced
    .filter((each) => TASKS.has(each.name) && main.has(threadOf(each)))
    .map(({ tdur = 0 }) => tdur / 1000);
};

const longest = await newPage();
const inProcessor = await traceTasks(longest, async () => {
  await openPart(longest, LONGEST);
  await longest.getByText(/pages are ready/).waitFor({ timeout: 600_000 });
});
const tasks = await longest.evaluate<{ duration: number }[]>('longTasks');
console.log(
  `${LONGEST} bars: longest task of the main thread until all pages were there ` +
    `${milliseconds(Math.max(0, ...tasks.map(({ duration }) => duration)))}, ${tasks.length} longer than 50 ms; ` +
    `in processor time ${milliseconds(Math.max(0, ...inProcessor))}`,
);
await longest.close();

const page = await newPage();
await openPart(page, BARS);
await page.locator('.sheet').first().waitFor({ timeout: 240_000 });
console.log(`${await page.locator('.sheet').count()} pages`);
await page.evaluate(`{${WATCH_DROPS}}`);
for (let drag = 0; drag < DRAGS; drag += 1) {
  await dragOne(page, (drag + 0.5) / DRAGS);
}
const drops = await page.evaluate<{ shown: number; painted: number }[]>('dropTimes');
if (drops.length === 0) throw new Error('no drag changed the plan');
const told = (name: 'shown' | 'painted'): string => {
  const values = drops.map((each) => each[name]);
  return `${milliseconds(median(values))} (at most ${milliseconds(Math.max(...values))})`;
};
console.log(
  `from drop to the new plan in the chart: ${told('shown')}, painted ${told('painted')}; ${drops.length} drags`,
);
const frames = (await watchFrames(page, 12)).slice(2);
const late = frames.filter((each) => each > 50);
console.log(
  `frames while the pages are laid out and drawn anew: median ${milliseconds(median(frames))}, longest ${milliseconds(Math.max(...frames))}, ` +
    `${late.length} of ${frames.length} longer than 50 ms`,
);
await browser.close();
await service.close();
rmSync(folder, { recursive: true });
process.exit(0);
