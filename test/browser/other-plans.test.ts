import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { describePage, detailOf, openDemo, openLeverDemo, openWholeDemo } from './open-page.ts';

describePage('other plans of a piece', (open) => {
  it('are compared in a table, in a list that leads to places, in the chart and in the score', async () => {
    const { page, complaints } = await open();
    await openWholeDemo(page);
    await page.locator('.paper g.pedal-marking').nth(1).click();
    await detailOf(page).getByRole('button', { name: 'Earlier' }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    const section = page.locator('.other-plans');
    await section.getByRole('button', { name: 'Compare plans, keep variants' }).click();
    await section.getByLabel('Compare the plan with').selectOption('the plan without your decisions');
    const difference = section.locator('.differences button');
    await expect.poll(() => difference.count()).toBe(1);
    expect(await difference.textContent()).toMatch(/: here .*, there /u);
    expect(await section.locator('tbody tr').first().locator('td').allTextContents()).toEqual(['31', '31']);
    // The other plan's move, and round the user's own a ring; its name on the page is framed.
    await expect.poll(() => page.locator('.chart .other circle:not(.own)').count()).toBe(1);
    await expect.poll(() => page.locator('.chart .other .own').count()).toBe(1);
    await expect.poll(() => page.locator('.other-moves span').count()).toBe(1);
    await expect.poll(() => page.locator('.paper g.only-here').count()).toBe(1);
    await difference.click();
    expect(await violations(page)).toEqual([]);
    await section.getByRole('button', { name: 'Close the comparison' }).click();
    await expect.poll(() => page.locator('.chart .other circle').count()).toBe(0);
    expect(await page.locator('.paper g.only-here').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('are kept under a name over a reload, gone back to, and that is undone', async () => {
    const { page, complaints } = await open();
    await openDemo(page);
    const decisions = page.locator('.decisions li .plain');
    await page.locator('.paper g.pedal-marking').nth(1).click();
    await detailOf(page).getByRole('button', { name: 'Pin it here' }).click();
    await expect.poll(() => decisions.count()).toBe(1);
    const section = page.locator('.other-plans');
    const openSection = () => section.getByRole('button', { name: 'Compare plans, keep variants' }).click();
    await openSection();
    await section.getByLabel('Name of the variant').fill('pinned');
    await page.keyboard.press('Enter');
    await section.getByText('Kept as “pinned”.').waitFor();
    await page.getByRole('button', { name: /^Undo/u }).click();
    await expect.poll(() => decisions.count()).toBe(0);
    await page.reload();
    await page.locator('.chart').waitFor();
    await openSection();
    await section.getByRole('button', { name: 'Go back to “pinned”' }).click();
    await expect.poll(() => decisions.count()).toBe(1);
    await page.getByRole('button', { name: /^Undo/u }).click();
    await expect.poll(() => decisions.count()).toBe(0);
    await section.getByRole('button', { name: 'Remove “pinned”' }).click();
    await expect.poll(() => section.locator('.variants li').count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});

describePage('other plans for the lever harp', (open) => {
  it('are those in other tunings too, compared in a table, a list, the chart and the score', async () => {
    const { page, complaints } = await open();
    await openLeverDemo(page);
    const section = page.locator('.other-plans');
    await section.getByRole('button', { name: 'Compare plans, keep variants' }).click();
    await section.getByLabel('Compare the plan with').selectOption('the plan tuned in C♭ major');
    const rows = section.locator('tbody tr');
    await expect.poll(() => rows.count()).toBe(6);
    expect(await rows.first().locator('td').allTextContents()).toEqual(['5', '7']);
    const differences = section.locator('.differences button');
    expect(await differences.first().textContent()).toBe('F♯4: only in this plan, bar 9, beat 4');
    await expect.poll(() => page.locator('.other-moves span').count()).toBeGreaterThan(0);
    await expect.poll(() => page.locator('.chart .other circle').count()).toBeGreaterThan(0);
    await differences.first().click();
    expect(await violations(page)).toEqual([]);
    await section.getByLabel('Name of the variant').fill('as it came');
    await page.keyboard.press('Enter');
    await section.getByText('Kept as “as it came”.').waitFor();
    expect(complaints).toEqual([]);
  });
});
