import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { bytesOf, chooseFile, describePage, detailOf, openDemo } from './open-page.ts';

const markings = (page: Page) => page.locator('.paper g.pedal-marking');

const bottomOf = async (page: Page, at: number): Promise<number> => {
  const { y, height } = (await markings(page).nth(at).boundingBox())!;
  return y + height;
};

const topOfDetails = async (page: Page): Promise<number> => (await detailOf(page).boundingBox())!.y;

/** Bars of the first line that is wholly in the pane of the pages, by the numbers that stand over lines. */
const barsInView = (page: Page): Promise<string[]> =>
  page.locator('.pages').evaluate((pane) => {
    const view = pane.getBoundingClientRect();
    const roots = [...pane.querySelectorAll('.paper')].flatMap(({ shadowRoot }) => shadowRoot ?? []);
    return roots
      .flatMap((root) => [...root.querySelectorAll('g.measure')])
      .filter((bar) => {
        const { top, bottom } = bar.getBoundingClientRect();
        return top >= view.top && bottom <= view.bottom;
      })
      .map(({ id }) => id);
  });

describePage('what is told of a marking', (open) => {
  it('never covers it on a telephone, and is left by its button', async () => {
    const { page, complaints } = await open({ width: 390, touch: true });
    await openDemo(page);
    for (const at of [1, 3, 5]) {
      await markings(page).nth(at).tap();
      await expect.poll(() => detailOf(page).getAttribute('class')).toContain('filled');
      await expect
        .poll(async () => (await bottomOf(page, at)) - (await topOfDetails(page)))
        // A part of a pixel is not seen.
        .toBeLessThan(1);
    }
    await detailOf(page).getByRole('button', { name: 'Close the details' }).tap();
    await expect.poll(() => detailOf(page).getAttribute('class')).not.toContain('filled');
    expect(await markings(page).nth(5).getAttribute('aria-pressed')).toBe('false');
    expect(complaints).toEqual([]);
  });

  it('is left with Escape, but not where Escape gives up a drag', async () => {
    const { page } = await open();
    await openDemo(page);
    await markings(page).nth(1).click();
    const { x, y, width, height } = (await markings(page).nth(1).boundingBox())!;
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.mouse.down();
    await page.mouse.move(x - 30, y + height / 2, { steps: 4 });
    await page.locator('.page-drag').first().waitFor();
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await detailOf(page).getAttribute('class')).toContain('filled');
    // Away from the pages, where what is pointed at is told.
    await page.mouse.move(5, 5);
    await page.keyboard.press('Escape');
    await expect.poll(() => detailOf(page).getAttribute('class')).not.toContain('filled');
  });
});

describePage('another size of the notes on a telephone', (open) => {
  it('shows the bars that were shown', async () => {
    const { page } = await open({ width: 390, touch: true });
    await openDemo(page);
    const sheets = () => page.locator('.sheet').count();
    const large = await sheets();
    const pane = page.locator('.pages');
    await pane.evaluate((element) => element.scrollTo({ top: element.scrollHeight * 0.6 }));
    await expect.poll(async () => (await barsInView(page)).length).toBeGreaterThan(0);
    const [before] = await barsInView(page);
    await page.getByRole('button', { name: 'Large notes' }).tap();
    await expect.poll(sheets).not.toBe(large);
    await expect.poll(() => barsInView(page)).toContain(before);
  });
});

describePage('a file that was marked here before', (open) => {
  it('says how right its markings are', async () => {
    const { page } = await open();
    await openDemo(page);
    const [saved] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Your file with markings' }).click(),
    ]);
    await chooseFile(page, 'marked.musicxml', await bytesOf(saved));
    await page
      .locator('section.proof')
      .getByText(/markings: they are right\./u)
      .waitFor();
  });
});
