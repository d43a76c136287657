import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { chooseFile, describePage, detailOf, openDemo, openWholeDemo } from './open-page.ts';
import { TWO_HARPS } from './small-scores.ts';

describePage('a note on the page', (open) => {
  it('tells its string, which foot set its pedal when, and what waits for it; and leads there', async () => {
    const { page, complaints } = await open();
    await chooseFile(page, 'harps.musicxml', TWO_HARPS);
    const sharp = page.locator('.sheet g.note .notehead').nth(4);
    await sharp.click();
    const detail = detailOf(page);
    await expect.poll(() => detail.locator('h2').textContent()).toBe('Note F♯4');
    await expect.poll(() => detail.textContent()).toContain('the string of F♯4, F pedal in sharp');
    expect(await violations(page), 'a note').toEqual([]);
    await detail.getByRole('button', { name: /^F♯, right foot, bar/ }).click();
    await expect.poll(() => page.locator('.chart .point.selected').count()).toBe(1);
    await expect.poll(() => detail.locator('h2').textContent()).toBe('F♯, right foot');
    await detail.getByRole('button', { name: 'F♯4, bar 2' }).click();
    await expect.poll(() => detail.locator('h2').textContent()).toBe('Note F♯4');
    expect(complaints).toEqual([]);
  });

  it('goes to another string, is left out and played again', async () => {
    const { page } = await open();
    await chooseFile(page, 'harps.musicxml', TWO_HARPS);
    await page.locator('.sheet g.note .notehead').nth(4).click();
    const detail = detailOf(page);
    await detail.getByRole('button', { name: 'Play F♯4 as G♭4' }).click();
    await expect.poll(() => detail.textContent()).toContain('the string of G♭4, G pedal in flat');
    await detail.getByRole('button', { name: 'Leave it out' }).click();
    await expect.poll(() => detail.textContent()).toContain('You leave this note out.');
    await detail.getByRole('button', { name: 'Play it again' }).click();
    await expect.poll(() => detail.textContent()).toContain('F pedal in sharp');
  });
});

describePage('the chart', (open) => {
  it('is folded away for the score, and shows the whole piece where that is wished', async () => {
    const { page } = await open();
    await openDemo(page);
    const heightOf = async (): Promise<number> => (await page.locator('.pages').boundingBox())!.height;
    const before = await heightOf();
    await page.getByRole('button', { name: 'Pedals', exact: true }).click();
    await expect.poll(async () => (await heightOf()) - before).toBeGreaterThan(120);
    await page.getByRole('button', { name: 'Pedals', exact: true }).click();
    await page.getByRole('button', { name: 'Whole piece' }).click();
    await expect
      .poll(() => page.locator('.chart-pane').evaluate((pane) => pane.scrollWidth - pane.clientWidth))
      .toBeLessThanOrEqual(0);
  });

  it('goes along when the score is scrolled', async () => {
    const { page } = await open();
    await openWholeDemo(page);
    await page.locator('.pages').hover();
    await page.mouse.wheel(0, 1500);
    await expect
      .poll(() => page.locator('.chart-pane').evaluate((pane) => pane.scrollLeft))
      .toBeGreaterThan(100);
  });
});
