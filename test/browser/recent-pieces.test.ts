import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { chooseFile, describePage, detailOf, openWholeDemo } from './open-page.ts';
import { CLOSE_MOVES, TWO_HARPS } from './small-scores.ts';

describePage('the pieces of this browser', (open) => {
  it('stay open when the page is reloaded, with what was decided, and Back leads to the one before', async () => {
    const { page, complaints } = await open();
    await chooseFile(page, 'first.musicxml', TWO_HARPS);
    await page.locator('.sheet g.note .notehead').nth(4).click();
    await detailOf(page).getByRole('button', { name: 'Leave it out' }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    await chooseFile(page, 'second.musicxml', CLOSE_MOVES);
    await expect.poll(() => page.title()).toBe('second · tringle');
    await page.reload();
    await expect.poll(() => page.locator('.piece h1').textContent()).toBe('second');
    await page.goBack();
    await expect.poll(() => page.locator('.piece h1').textContent()).toBe('first');
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    await page.reload();
    await page.getByRole('button', { name: /^Undo: / }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(0);
    await page.getByRole('button', { name: /^Redo: / }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    expect(complaints).toEqual([]);
  });

  it('are shown again at the page that was looked at', async () => {
    const { page } = await open();
    await openWholeDemo(page);
    const count = () => page.locator('.score .count').first().textContent();
    await expect.poll(count).toBe('Page 1 of 3');
    await expect.poll(() => page.locator('.pages').getAttribute('aria-busy')).toBe('false');
    await page.getByRole('button', { name: 'Next page' }).click();
    await page.locator('.pages').hover();
    await page.mouse.wheel(0, 60);
    await expect.poll(count).toBe('Page 2 of 3');
    await page.locator('.sheet[data-page="2"] g.note').first().waitFor();
    await page.locator('.pages').evaluate(() => new Promise(requestAnimationFrame));
    await page.reload();
    await expect.poll(count).toBe('Page 2 of 3');
  });

  it('lead back to the bar that was looked at before a finding led elsewhere, and forward again', async () => {
    const { page } = await open();
    await openWholeDemo(page);
    const count = () => page.locator('.score .count').first().textContent();
    const bar = () => /\/(\d+)$/.exec(page.url())?.[1] ?? null;
    await expect.poll(() => page.locator('.pages').getAttribute('aria-busy')).toBe('false');
    await page.getByRole('button', { name: 'Next page' }).click();
    await page.locator('.sheet[data-page="2"] g.note').first().waitFor();
    await page.locator('.pages').hover();
    await page.mouse.wheel(0, 60);
    await expect.poll(bar).not.toBe(null);
    const before = bar();
    const finding = page.locator('.finding').first();
    await finding.click();
    await expect.poll(bar).not.toBe(before);
    const there = bar();
    await page.goBack();
    await expect.poll(bar).toBe(before);
    await expect.poll(count).toBe('Page 2 of 3');
    await page.goForward();
    await expect.poll(bar).toBe(there);
    await page.goBack();
    await page.goBack();
    await page.getByRole('button', { name: 'Show the demo piece' }).waitFor();
    await page.goForward();
    await expect.poll(() => page.locator('.piece h1').textContent()).toBe('Lanterns at the Lock');
    await expect.poll(count).toBe('Page 2 of 3');
    expect(bar()).toBe(before);
  });

  it('are listed on the first view, gone on with, and forgotten', async () => {
    const { page } = await open();
    const start = page.url();
    await chooseFile(page, 'first.musicxml', TWO_HARPS);
    await page.locator('.chart').waitFor();
    await page.goto(start);
    await page.reload();
    const recent = page.locator('.recent');
    await expect.poll(() => recent.locator('.plain').allTextContents()).toEqual(['first']);
    expect(await violations(page), 'the first view').toEqual([]);
    await recent.getByRole('button', { name: 'first', exact: true }).click();
    await page.locator('.chart').waitFor();
    await page.goto(start);
    await page.reload();
    await recent.getByRole('button', { name: 'Remove: first' }).click();
    await expect.poll(() => recent.count()).toBe(0);
  });
});
