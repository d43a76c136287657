import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { bytesOf, chooseFile, describePage, openDemo, openWholeDemo } from './open-page.ts';
import { longPart } from './small-scores.ts';

/** In the demo the third move is B flat, at the fourth beat of bar 10; it may be made from bar 8 on. */
const B_FLAT = '.chart [data-move="2"]';

interface Place {
  readonly x: number;
  readonly y: number;
}

/** A finger that goes from a place to the left or right, in steps, and is lifted. */
const drag = async (page: Page, from: Place, px: number): Promise<void> => {
  const finger = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number) =>
    finger.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: type === 'touchEnd' ? [] : [{ ...from, x }],
    });
  await touch('touchStart', from.x);
  for (let step = 1; step <= 12; step += 1) await touch('touchMove', from.x + (px * step) / 12);
  await touch('touchEnd', from.x + px);
};

const middleOf = async (page: Page, selector: string): Promise<Place> => {
  const { x, y, width, height } = (await page.locator(selector).boundingBox())!;
  return { x: x + width / 2, y: y + height / 2 };
};

const scrolled = (page: Page): Promise<number> =>
  page.locator('.chart-pane').evaluate((pane) => pane.scrollLeft);

/** Two fingers about a place that go from so many px apart to so many. */
const pinch = async (page: Page, { x, y }: Place, from: number, to: number): Promise<void> => {
  const fingers = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', apart: number) =>
    fingers.send('Input.dispatchTouchEvent', {
      type,
      touchPoints:
        type === 'touchEnd'
          ? []
          : [
              { x, y: y - apart / 2, id: 0 },
              { x, y: y + apart / 2, id: 1 },
            ],
    });
  await touch('touchStart', from);
  for (let step = 1; step <= 6; step += 1) await touch('touchMove', from + ((to - from) * step) / 6);
  await touch('touchEnd', to);
};

describePage('two fingers on the pages', (open) => {
  it('make them larger about where they are, and what stands about them keeps its size', async () => {
    const { page, complaints } = await open({ width: 390, touch: true });
    await openDemo(page);
    const percent = async () => Number.parseInt((await page.locator('.percent').textContent())!, 10);
    const middle = () => middleOf(page, '#b3');
    await expect.poll(() => page.locator('.pages').getAttribute('aria-busy')).toBe('false');
    await page.locator('#b3').waitFor();
    const before = await middle();
    await pinch(page, before, 80, 160);
    await expect.poll(percent).toBe(200);
    const after = await middle();
    expect(Math.hypot(after.x - before.x, after.y - before.y)).toBeLessThan(4);
    expect(await page.evaluate(() => visualViewport!.scale)).toBe(1);
    await pinch(page, after, 160, 40);
    await expect.poll(percent).toBe(50);
    expect(complaints).toEqual([]);
  });
});

describePage('a finger on the chart', (open) => {
  it('drags a move further than a browser waits before it scrolls, and the pane stays', async () => {
    const { page, complaints } = await open({ width: 900, touch: true });
    await openDemo(page);
    await page.locator(B_FLAT).scrollIntoViewIfNeeded();
    const before = await scrolled(page);
    await drag(page, await middleOf(page, B_FLAT), -60);
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    await expect.poll(() => page.locator('.chart .point .frame').count()).toBe(1);
    expect(await scrolled(page)).toBe(before);
    expect(complaints).toEqual([]);
  });

  it('chooses bars along their numbers', async () => {
    const { page } = await open({ width: 390, touch: true });
    await openDemo(page);
    await page.locator('.chart-pane').scrollIntoViewIfNeeded();
    const strip = (await page.locator('.chart .strip').boundingBox())!;
    await drag(page, { x: strip.x + 60, y: strip.y + strip.height / 2 }, 90);
    await expect.poll(() => page.locator('.span-tools strong').textContent()).toBe('Bars 2–4');
  });

  it('scrolls the chart from anywhere else', async () => {
    const { page } = await open({ width: 390, touch: true });
    await openDemo(page);
    await page.locator('.chart-pane').scrollIntoViewIfNeeded();
    const pane = (await page.locator('.chart-pane').boundingBox())!;
    await drag(page, { x: pane.x + pane.width - 40, y: pane.y + pane.height - 30 }, -120);
    await expect.poll(() => scrolled(page)).toBeGreaterThan(40);
  });
});

describePage('on a telephone', (open) => {
  it('the score comes in short lines of large notes, and what is downloaded is as it prints', async () => {
    const { page } = await open({ width: 390, touch: true });
    await openWholeDemo(page);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    const large = page.getByRole('button', { name: 'Large notes' });
    await expect.poll(() => large.getAttribute('aria-pressed')).toBe('true');
    const pages = () => page.locator('.sheet').count();
    const shown = await pages();
    const [saved] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Pages as SVG' }).click(),
    ]);
    expect(Object.keys(unzipSync(await bytesOf(saved)))).toHaveLength(3);
    await large.click();
    await expect.poll(pages).toBe(3);
    expect(shown).toBeGreaterThan(3);
  });

  it('what was done last can be taken back while the chart is looked at', async () => {
    const { page } = await open({ width: 390, touch: true });
    await openDemo(page);
    await page.locator(B_FLAT).focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    await page.locator('.take').scrollIntoViewIfNeeded();
    await page.getByRole('button', { name: /^Undo: / }).tap();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(0);
  });
});

const A4_POINTS = [595, 842];

describePage('what the browser prints', (open) => {
  it('is the pages of the score, each on its paper, those too that were never in view', async () => {
    const { page } = await open({ width: 900 });
    await chooseFile(page, 'long.musicxml', longPart(200));
    await page.locator('.paper g.pedal-marking').first().waitFor();
    const pages = await page.locator('.sheet').count();
    expect(pages).toBeGreaterThan(2);
    const paper = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    const boxes = [...paper.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
    expect(boxes.map(([, width, height]) => [Math.round(Number(width)), Math.round(Number(height))])).toEqual(
      Array.from({ length: pages }, () => A4_POINTS),
    );
    const drawn = await page
      .locator('.sheet .paper')
      .evaluateAll((sheets) => sheets.map((sheet) => sheet.shadowRoot!.querySelectorAll('g.measure').length));
    expect(drawn.every((bars) => bars > 0)).toBe(true);
  });
});
