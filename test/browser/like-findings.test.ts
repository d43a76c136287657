import { expect, it } from 'vitest';
import { SCATTERED_DOUBLES } from '../scattered-doubles.ts';
import { violations } from './axe.ts';
import { chooseFile, describePage } from './open-page.ts';

describePage('findings that are alike', (open) => {
  it('are one item, folded on a telephone, unfolded where one of them is gone to', async () => {
    const { page, complaints } = await open({ width: 390, touch: true });
    await chooseFile(page, 'doubles.musicxml', SCATTERED_DOUBLES);
    const alike = page.locator('.alike');
    await alike.waitFor();
    expect(await alike.locator('summary').textContent()).toMatch(/: 3.*bars 1, 4 and 7$/);
    expect(await alike.locator('button.finding').first().isVisible()).toBe(false);
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Next finding' }).click();
    await expect.poll(() => alike.locator('button.finding[aria-pressed=true]').isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Next finding' }).click();
    await expect
      .poll(() => alike.locator('button.finding[aria-pressed=true] .place').textContent())
      .toContain('Bar 4');
    expect(complaints).toEqual([]);
  });

  it('are mended at all their places in one step, which says what it came to and can be undone', async () => {
    const { page, complaints } = await open();
    await chooseFile(page, 'doubles.musicxml', SCATTERED_DOUBLES);
    await page.locator('.alike button.finding').first().waitFor();
    const all = page.getByRole('button', { name: 'Apply at all 3 places: Write G for the F double sharp' });
    await all.click();
    await expect.poll(() => page.locator('.alike').count()).toBe(0);
    expect(await page.locator('.decisions li .plain').count()).toBe(3);
    await expect.poll(() => page.locator('.findings .outcome').textContent()).toMatch(/^Applied/);
    await page.getByRole('button', { name: /^Undo: Write G/ }).click();
    await expect.poll(() => page.locator('.alike button.finding').count()).toBe(3);
    expect(await page.locator('.findings > .outcome').textContent()).toBe('');
    expect(await page.locator('.decisions li .plain').count()).toBe(0);
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
