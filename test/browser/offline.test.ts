import { expect, it } from 'vitest';
import { chooseFile, describePage, openLeverDemo, openWholeDemo } from './open-page.ts';
import { CLOSE_MOVES } from './small-scores.ts';

describePage('the page while the service is out of reach', (open) => {
  it('opens, plans, shows the chart and plays; only the pages of the score are wanting', async () => {
    const { page, complaints } = await open({ offline: true });
    await openWholeDemo(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.context().setOffline(true);
    await page.reload();
    await expect.poll(() => page.locator('.piece h1').textContent()).toBe('Lanterns at the Lock');
    await expect.poll(() => page.locator('.chart .point').count()).toBeGreaterThan(20);
    await expect.poll(() => page.locator('.score .refused').textContent()).toContain('did not answer');
    await chooseFile(page, 'close.musicxml', CLOSE_MOVES);
    await expect.poll(() => page.locator('.piece').textContent()).toContain('moves');
    await page.getByRole('button', { name: 'Listen to the part and watch the pedals' }).click();
    await page.getByRole('slider', { name: 'Position' }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('has been kept as soon as it is used, before any piece is opened, and says so', async () => {
    const { page, complaints } = await open({ offline: true, fetchedNothing: true });
    const told = page.getByText('This browser has kept the page');
    expect(await told.count()).toBe(0);
    await page.mouse.move(200, 200);
    await told.waitFor();
    await page.context().setOffline(true);
    await page.reload();
    await chooseFile(page, 'close.musicxml', CLOSE_MOVES);
    await expect.poll(() => page.locator('.chart .point').count()).toBeGreaterThan(0);
    expect(complaints).toEqual([]);
  });

  it('plans a lever part, shows its chart and plays it', async () => {
    const { page, complaints } = await open({ offline: true });
    await openLeverDemo(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    const title = await page.locator('.piece h1').textContent();
    await page.context().setOffline(true);
    await page.reload();
    await expect.poll(() => page.locator('.piece h1').textContent()).toBe(title);
    await expect.poll(() => page.locator('.piece').textContent()).toMatch(/\d+ (?:lever )?changes?/u);
    await expect.poll(() => page.locator('.chart .point').count()).toBeGreaterThan(0);
    await expect.poll(() => page.locator('.score .refused').textContent()).toContain('did not answer');
    await page.getByRole('button', { name: 'Listen to the part and watch the levers' }).click();
    await page.getByRole('slider', { name: 'Position' }).waitFor();
    expect(complaints).toEqual([]);
  });
});
