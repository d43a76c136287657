import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { bytesOf, chooseFile, describePage, detailOf } from './open-page.ts';

/** Three tunes in the order of the file; the second has a lever change, and the third strings to retune. */
const BOOK = `X:1
T:Up the Lane
M:2/4
L:1/8
K:G
GABd|F2G2|]

X:2
T:Down the Lane
M:2/4
L:1/8
K:Eb
E2F2|^F4|G4|E4|]

X:3
T:Across
M:2/4
L:1/8
K:Db
D2G2|F4|D4|]
`;

const openBook = async (page: Page): Promise<void> => {
  await chooseFile(page, 'lane.abc', BOOK);
  await page.getByRole('heading', { name: 'Which tune?' }).waitFor();
};

const headingOf = (page: Page) => page.locator('.piece h1').textContent();

const titlesOf = (page: Page) => page.locator('.book tbody th').allTextContents();

describePage('a tune book on the page', (open) => {
  it('leads from tune to tune and back to the list, and remembers the place and what was decided', async () => {
    const { page, complaints } = await open();
    await openBook(page);
    await page.getByRole('button', { name: '1 Up the Lane' }).click();
    await expect.poll(() => headingOf(page)).toBe('Up the Lane');
    await page.locator('.sheet g.note .notehead').nth(1).click();
    await detailOf(page).getByRole('button', { name: 'Leave it out' }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    const next = page.getByRole('button', { name: 'Next tune' });
    await next.click();
    await expect.poll(() => headingOf(page)).toBe('Down the Lane');
    expect(await page.locator('.decisions li .plain').count()).toBe(0);
    await expect.poll(() => next.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(await page.locator('.book-steps .count').textContent()).toBe('Tune 2 of 3');
    await page.getByRole('button', { name: 'Previous tune' }).click();
    await expect.poll(() => headingOf(page)).toBe('Up the Lane');
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    await next.click();
    await expect.poll(() => headingOf(page)).toBe('Down the Lane');
    await page.getByRole('button', { name: 'All tunes' }).click();
    const last = page.getByRole('button', { name: '2 Down the Lane' });
    await expect.poll(() => last.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('leads back to the list by the browser’s Back, and stays in the tune when it is reloaded', async () => {
    const { page } = await open();
    await openBook(page);
    await page.getByRole('button', { name: '3 Across' }).click();
    await page.locator('.sheet g.note').first().waitFor();
    await page.reload();
    await expect.poll(() => headingOf(page)).toBe('Across');
    await expect.poll(() => page.locator('.book-steps .count').textContent()).toBe('Tune 3 of 3');
    expect(await page.getByRole('button', { name: 'Next tune' }).getAttribute('aria-disabled')).toBe('true');
    await page.goBack();
    await page.getByRole('heading', { name: 'Which tune?' }).waitFor();
    await page.context().close();
  });

  it('shows what each tune asks of a lever harp, sorted and filtered, and opens tunes in that order', async () => {
    const { page, complaints } = await open();
    await openBook(page);
    await page.getByRole('button', { name: 'Show what each tune asks of the levers' }).click();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Down the Lane', 'Across']);
    expect(await violations(page), 'the table of a book').toEqual([]);
    await page.getByRole('button', { name: 'Changes', exact: true }).click();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Across', 'Down the Lane']);
    expect(await page.locator('th[aria-sort]').textContent()).toContain('Changes');
    await page.getByLabel('no string to retune').check();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Down the Lane']);
    await page.getByLabel('at most so many changes').fill('0');
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane']);
    await page.getByLabel('no string to retune').uncheck();
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Table (CSV)' }).click();
    const csv = (await bytesOf(await saved)).toString();
    expect(csv.split('\r\n').map((line) => line.split(',')[2])).toEqual([
      'title',
      'Up the Lane',
      'Across',
      undefined,
    ]);
    await page.getByRole('button', { name: 'Across' }).click();
    // It is opened for the harp of the table.
    await expect.poll(() => page.locator('select[name=instrument]').inputValue()).toBe('lever-harp-34');
    expect(await page.locator('.book-steps .count').textContent()).toBe('Tune 2 of 2');
    await page.getByRole('button', { name: 'All tunes' }).click();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Across']);
    await page.getByLabel('Find').fill('lane');
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane']);
    await page.getByRole('button', { name: 'Back to the plain list' }).click();
    await expect.poll(() => page.locator('.book li').count()).toBe(2);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
