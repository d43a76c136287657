import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { violations, violationsInBoth } from './axe.ts';
import {
  bytesOf,
  chooseFile,
  describePage,
  type OpenedPage,
  openDemo,
  openWholeDemo,
  sharePage,
} from './open-page.ts';
import { CLOSE_MOVES, longPart } from './small-scores.ts';

const SPACE = ' ';

/** Opens the demo and the player; counts the strings that are given to the browser's sound. */
const openPlayer = async (page: Page, demo = openDemo): Promise<void> => {
  await page.evaluate(() => {
    const { prototype } = AudioBufferSourceNode;
    const { start } = prototype;
    Reflect.set(globalThis, 'plucks', 0);
    prototype.start = function (...when) {
      Reflect.set(globalThis, 'plucks', Reflect.get(globalThis, 'plucks') + 1);
      start.apply(this, when);
    };
  });
  await demo(page);
  await page.getByRole('button', { name: 'Listen to the part and watch the pedals' }).click();
  await page.locator('.pedal-box').waitFor();
};

const sharedPlayer = sharePage(openPlayer);

/** The player at the start and in tempo, as one finds it who has just opened it. */
const rewound = async (): Promise<OpenedPage> => {
  const opened = await sharedPlayer();
  const { page } = opened;
  const pause = page.getByRole('button', { name: 'Pause' });
  if ((await pause.count()) > 0) await pause.click();
  await page.getByRole('button', { name: 'Back to the start' }).click();
  await page.getByLabel('Tempo').fill('100');
  await expect.poll(() => placeTold(page)).toBe('Bar 1, beat 1');
  await page.evaluate('plucks = 0');
  return opened;
};

const plucks = (page: Page): Promise<number> => page.evaluate('plucks');

/** Px of the chart at which its first bar begins. */
const START = 56;

const playheadAt = (page: Page) => page.locator('.chart .playhead').getAttribute('transform');

const placeTold = (page: Page) =>
  page.getByRole('slider', { name: 'Position' }).getAttribute('aria-valuetext');

const positionOf = (page: Page, pedal: string) =>
  page.locator(`.pedal-box [data-pedal="${pedal}"]`).getAttribute('data-position');

/** Bar 10 of the demo holds its second move: A natural at the second beat. */
const playFromSecondMove = async (page: Page): Promise<void> => {
  await page.locator('.chart [data-move="1"]').click();
  await page.getByRole('button', { name: 'From the selected bar' }).click();
};

describePage('the player', (open) => {
  it('is not fetched before it is opened', async () => {
    const { page } = await open();
    const fetched: string[] = [];
    page.on('request', (request) => fetched.push(request.url()));
    await openDemo(page);
    await page.waitForLoadState('networkidle');
    const before = fetched.length;
    await page.getByRole('button', { name: 'Listen to the part and watch the pedals' }).click();
    await page.locator('.pedal-box').waitFor();
    expect(fetched.slice(before).filter((url) => url.endsWith('.js')).length).toBeGreaterThan(0);
  });

  it('plays: strings are plucked, the line in the chart goes on, notes are marked, pedals move', async () => {
    const { page, complaints } = await rewound();
    await playFromSecondMove(page);
    await expect.poll(() => positionOf(page, 'A')).toBe('-1');
    await expect.poll(() => page.locator('.pedal-line').textContent()).toContain('Next: A♮, right foot, in');
    const before = await playheadAt(page);
    await expect.poll(() => playheadAt(page)).not.toBe(before);
    await expect.poll(() => plucks(page)).toBeGreaterThan(3);
    await expect.poll(() => page.locator('.sounding').count()).toBeGreaterThan(0);
    await expect.poll(() => positionOf(page, 'A')).toBe('0');
    expect(complaints).toEqual([]);
  });

  it('stands still when paused, and says where and how the pedals stand', async () => {
    const { page } = await rewound();
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(() => plucks(page)).toBeGreaterThan(1);
    await expect.poll(() => page.locator('.said').textContent()).toBe('');
    await page.getByRole('button', { name: 'Pause' }).click();
    await expect
      .poll(() => page.locator('.said').textContent())
      .toMatch(/^Stopped\. Bar 1, beat \d\. The pedals: D natural C natural B flat/);
    const [line, count] = [await playheadAt(page), await plucks(page)];
    await page.waitForTimeout(400);
    await expect.poll(() => playheadAt(page)).toBe(line);
    await expect.poll(() => plucks(page)).toBe(count);
  });

  it('goes where a note, a bar or the chart is clicked, and the pedals stand as they stand there', async () => {
    const { page } = await rewound();
    await page.locator('#b8s2e1 .notehead').click();
    await expect.poll(() => placeTold(page)).toBe('Bar 8, beat 1');
    await expect.poll(() => positionOf(page, 'B')).toBe('0');
    await expect.poll(() => page.locator('.sounding').count()).toBeGreaterThan(0);
    await page.locator('.chart').click({ position: { x: 60, y: 60 } });
    await expect.poll(() => placeTold(page)).toMatch(/^Bar 1, beat \d/);
    await expect.poll(() => positionOf(page, 'B')).toBe('-1');
  });

  it('brings what is played into view when it starts, wherever the pages were scrolled to', async () => {
    const { page } = await rewound();
    const pane = page.locator('.pages');
    await pane.evaluate((element) => element.scrollTo({ top: 900 }));
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(() => pane.evaluate((element) => element.scrollTop)).toBeLessThan(300);
  });

  it('turns the page to the place that is played', async () => {
    const { page } = await open();
    await openPlayer(page, openWholeDemo);
    await page.getByRole('slider', { name: 'Position' }).fill('200');
    await expect.poll(() => page.locator('.score .count').first().textContent()).toBe('Page 3 of 3');
    await expect.poll(() => page.locator('[data-page="3"] .sounding').count()).toBeGreaterThan(0);
  });

  it('plays slower and faster', async () => {
    const { page } = await rewound();
    const tempo = page.getByLabel('Tempo');
    expect([await tempo.getAttribute('min'), await tempo.getAttribute('max')]).toEqual(['25', '150']);
    const beatsIn = async (percent: string): Promise<number> => {
      await page.getByRole('button', { name: 'Back to the start' }).click();
      await tempo.fill(percent);
      await page.getByRole('button', { name: 'Play', exact: true }).click();
      await page.waitForTimeout(1000);
      await page.getByRole('button', { name: 'Pause' }).click();
      return Number(/\((\S+) /.exec((await playheadAt(page))!)![1]);
    };
    const [slow, fast] = [await beatsIn('25'), await beatsIn('150')];
    expect(fast - START).toBeGreaterThan(3 * (slow - START));
  });

  it('counts a bar before, beats on, and lets the pedals be heard without the strings', async () => {
    const { page } = await open();
    await openPlayer(page);
    await page.evaluate(() => {
      const { prototype } = OscillatorNode;
      const { start } = prototype;
      Reflect.set(globalThis, 'strokes', []);
      prototype.start = function (...when) {
        Reflect.get(globalThis, 'strokes').push(this.frequency.value);
        start.apply(this, when);
      };
    });
    const hertz = (): Promise<readonly number[]> => page.evaluate('strokes');
    const heard = page.getByRole('group', { name: 'What is heard' });
    await heard.getByLabel('Strings').uncheck();
    await heard.getByLabel('Pedals as they move').check();
    await heard.getByLabel('Beats').check();
    await heard.getByLabel('One bar counted before').check();
    await playFromSecondMove(page);
    await expect.poll(() => placeTold(page)).toBe('Counting to: Bar 10, beat 1');
    await expect.poll(async () => (await hertz()).filter((each) => each > 1000).length).toBeGreaterThan(3);
    expect(await plucks(page)).toBe(0);
    await expect.poll(async () => (await hertz()).filter((each) => each < 200)).toEqual([165]);
  });

  it('lights up moves that are too close at this tempo, with a sign and in words', async () => {
    const { page } = await open();
    await chooseFile(page, 'close.xml', CLOSE_MOVES);
    await page.locator('.chart').waitFor();
    await page.getByRole('button', { name: 'Listen to the part and watch the pedals' }).click();
    await page.locator('.pedal-box').waitFor();
    await expect.poll(() => page.locator('.pedal-box .sign').count()).toBe(0);
    await page.getByLabel('Tempo').fill('150');
    await page.locator('.pedal-box .sign').first().waitFor();
    await expect
      .poll(() => page.locator('.pedal-line').textContent())
      .toContain('Moves too close together for the left foot');
    await page.getByLabel('Tempo').fill('50');
    await expect.poll(() => page.locator('.pedal-box .sign').count()).toBe(0);
  });

  it('can be worked by keys alone', async () => {
    const { page } = await open();
    await openPlayer(page);
    const focused = () => page.evaluate(() => document.activeElement?.textContent);
    await expect.poll(() => focused()).toBe('Play');
    await page.keyboard.press('Enter');
    await expect.poll(() => plucks(page)).toBeGreaterThan(0);
    await expect.poll(() => focused()).toBe('Pause');
    await page.keyboard.press('Enter');
    await page.getByRole('slider', { name: 'Position' }).focus();
    const before = await page.getByRole('slider', { name: 'Position' }).inputValue();
    await page.keyboard.press('ArrowRight');
    expect(Number(await page.getByRole('slider', { name: 'Position' }).inputValue())).toBe(
      Number(before) + 1,
    );
    await page.locator('.pages').focus();
    await page.keyboard.press(SPACE);
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await page.keyboard.press(SPACE);
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
    await page.getByRole('button', { name: 'Close the player' }).focus();
    await page.keyboard.press(SPACE);
    await expect.poll(() => page.locator('.pedal-box').count()).toBe(0);
    await expect.poll(() => focused()).toBe('Listen to the part and watch the pedals');
    await expect.poll(() => page.locator('.chart .playhead').count()).toBe(0);
  });

  it('has nothing that axe objects to, in light and in dark', async () => {
    const { page } = await open();
    await chooseFile(page, 'close.xml', CLOSE_MOVES);
    await page.getByRole('button', { name: 'Listen to the part and watch the pedals' }).click();
    await page.locator('.pedal-box').waitFor();
    expect(await violationsInBoth(page), 'the open player').toEqual([]);
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(() => page.locator('.pedal-line').textContent()).toContain('Next: ');
    await page.getByRole('button', { name: 'Pause' }).click();
    expect(await violationsInBoth(page), 'a move that is announced').toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await violationsInBoth(page), 'on a phone').toEqual([]);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
  });
});

describePage('the list of moves for paper', (open) => {
  it('holds the start, every move with its reason, and the findings; and is on paper alone', async () => {
    const { page, complaints } = await open();
    await openWholeDemo(page);
    // B flat goes half a beat earlier than planned.
    await page.locator('.chart [data-move="2"]').press('Shift+ArrowLeft');
    await page.locator('.decisions li').waitFor();
    await page.evaluate(() => {
      // Printing waits for a person: it is only noted.
      globalThis.print = () => document.body.setAttribute('data-printed', 'yes');
    });
    await page.getByRole('button', { name: 'List of moves to print' }).click();
    await page.locator('body[data-printed]').waitFor();
    const list = page.locator('.move-list');
    expect(await list.isVisible(), 'on the screen').toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await list.isVisible(), 'on paper').toBe(true);
    expect(await page.locator('#page').isVisible(), 'the rest on paper').toBe(false);
    await expect.poll(() => list.locator('h1').textContent()).toBe('Pedal moves: Lanterns at the Lock');
    await expect.poll(() => list.textContent()).toContain('Before the first note: D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
    await expect.poll(() => list.locator('tbody tr').count()).toBe(31);
    const first = await list.locator('tbody tr').first().locator('th, td').allTextContents();
    expect(first.slice(0, 6)).toEqual(['7', '1', 'left foot', 'B', 'flat', 'natural']);
    expect(first[6]).toMatch(/^needed by B\d in bar 7$/);
    await expect
      .poll(() => list.locator('tbody tr').nth(2).locator('th, td').allTextContents())
      .toEqual(expect.arrayContaining(['10', '3½', 'left foot', 'B']));
    await expect.poll(() => list.locator('li').count()).toBe(2);
    expect(await violations(page), 'what is printed').toEqual([]);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await expect.poll(() => list.count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});

describePage('the chart of a long part', (open) => {
  it('draws what is near the view, keeps the letters in sight, and goes to its far end by key', async () => {
    const { page } = await open();
    await page.route('**/v1/annotate*', (route) => route.abort());
    await chooseFile(page, 'long.xml', longPart(2000));
    await page.locator('.chart').waitFor();
    const points = page.locator('.chart .point');
    const moves = Number(/(\d+) moves/.exec((await page.locator('.chart').getAttribute('aria-label'))!)![1]);
    expect(moves).toBeGreaterThan(1900);
    await expect.poll(() => points.count()).toBeLessThan(600);
    await points.first().focus();
    await page.keyboard.press('End');
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-move')))
      .toBe(`${moves - 1}`);
    await expect
      .poll(() => page.locator('.chart-pane').evaluate((pane) => pane.scrollLeft))
      .toBeGreaterThan(90_000);
    await expect.poll(() => points.count()).toBeGreaterThan(50);
    await expect.poll(() => points.count()).toBeLessThan(600);
    const [pane, names] = await Promise.all(
      ['.chart-pane', '.lane-names'].map((each) => page.locator(each).boundingBox()),
    );
    expect(names!.x).toBeCloseTo(pane!.x, 0);
    const [picture] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as picture' }).click(),
    ]);
    expect(picture.suggestedFilename()).toBe('long - Harp - chart.svg');
    const svg = (await bytesOf(picture)).toString('utf8');
    expect(svg.match(/data-move=/g)).toHaveLength(moves);
  });
});

describePage('some bars again and again', (open) => {
  it('are played round and round, each time a little faster', async () => {
    const { page, complaints } = await open();
    await chooseFile(page, 'close.musicxml', CLOSE_MOVES);
    await page.getByRole('button', { name: 'Listen to the part and watch the pedals' }).click();
    await page.getByRole('checkbox', { name: 'Repeat some bars' }).check();
    await page.getByRole('combobox', { name: 'from bar' }).selectOption('2');
    await page.getByRole('checkbox', { name: /a little faster/ }).check();
    const tempo = page.getByRole('slider', { name: 'Tempo' });
    await expect.poll(() => tempo.inputValue()).toBe('70');
    await tempo.fill('60');
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(() => tempo.inputValue(), { timeout: 30_000 }).toBe('100');
    expect(await placeTold(page)).toMatch(/^Bar 2/);
    expect(await violations(page), 'the loop').toEqual([]);
    expect(complaints).toEqual([]);
  });
});
