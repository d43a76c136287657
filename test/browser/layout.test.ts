import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { chooseFile, describePage, openChoices, openDemo, openLeverDemo } from './open-page.ts';
import { MANY_LEVERS } from './small-scores.ts';

/** How much of the document lies below the window, in px. */
const below = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollHeight - innerHeight);

describePage('a page of the score', (open) => {
  it('is drawn when it is near the window, though it was told to be far just before', async () => {
    const { page } = await open();
    await page.addInitScript(() => {
      const Real = globalThis.IntersectionObserver;
      globalThis.IntersectionObserver = class extends Real {
        constructor(call: IntersectionObserverCallback, options?: IntersectionObserverInit) {
          super(
            (entries, watch) =>
              call(
                [{ ...entries[0]!, isIntersecting: false } as IntersectionObserverEntry, ...entries],
                watch,
              ),
            options,
          );
        }
      };
    });
    await page.reload();
    await page.getByRole('button', { name: 'Show the demo piece' }).click();
    await page.locator('.sheet g.pedal-marking').first().waitFor();
  });
});

describePage('the wide layout', (open) => {
  it('fits the window: what is long scrolls in its own pane, with everything open', async () => {
    const { page } = await open();
    await page.setViewportSize({ width: 1280, height: 800 });
    await openDemo(page);
    expect(await below(page), 'the pedal harp').toBe(0);
    await openChoices(page);
    await page.getByRole('button', { name: 'Listen to the part and watch the pedals' }).click();
    await page.getByRole('button', { name: 'Close the player' }).waitFor();
    const aside = page.locator('aside');
    await expect
      .poll(() => aside.evaluate((each) => each.scrollHeight - each.clientHeight))
      .toBeGreaterThan(400);
    expect(await below(page), 'with all choices and the player').toBe(0);
    await aside.evaluate((each) => each.scrollTo(0, each.scrollHeight));
    expect(await below(page), 'scrolled to the end').toBe(0);
  });

  it('fits the window with the lever harp', async () => {
    const { page } = await open();
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.getByRole('button', { name: 'Show the lever harp demo' }).click();
    await page.locator('.paper g.lever-marking').first().waitFor();
    expect(await below(page)).toBe(0);
  });

  it('leaves room for the score where the levers of many strings change', async () => {
    const { page } = await open();
    await page.setViewportSize({ width: 1280, height: 800 });
    await chooseFile(page, 'many.musicxml', MANY_LEVERS);
    await page.locator('.sheet g.lever-marking').first().waitFor();
    await expect.poll(() => page.locator('.chart .letter').count()).toBeGreaterThan(12);
    expect(await below(page)).toBe(0);
    const height = await page.locator('.pages').evaluate((pages) => pages.clientHeight);
    expect(height).toBeGreaterThan(200);
  });
});

describePage('the narrow layout', (open) => {
  it.each(['pedal', 'lever'] as const)(
    'leaves the score its room: what is not needed of the header is folded, for the %s harp',
    async (harp) => {
      const { page } = await open({ width: 390, touch: true });
      if (harp === 'pedal') await openDemo(page);
      else await openLeverDemo(page);
      const score = (await page.locator('section.score').boundingBox())!;
      expect(score.y).toBeLessThanOrEqual(120);
      expect(await page.locator('select[name=instrument]').isVisible()).toBe(false);
      await page.getByRole('button', { name: 'About the piece' }).click();
      await page.locator('select[name=instrument]').waitFor();
      await page.getByRole('button', { name: 'Open another file' }).waitFor();
      await page.getByText(/^Difficulty: /).waitFor();
    },
  );

  it('unfolds the header into view from far down the page', async () => {
    const { page } = await open({ width: 390, touch: true });
    await openDemo(page);
    await page.getByRole('heading', { name: 'Download' }).scrollIntoViewIfNeeded();
    await page.getByRole('button', { name: 'About the piece' }).tap();
    await expect
      .poll(() =>
        page.locator('select[name=instrument]').evaluate((field) => {
          const { top, bottom } = field.getBoundingClientRect();
          return top >= 0 && bottom <= innerHeight;
        }),
      )
      .toBe(true);
  });
});
