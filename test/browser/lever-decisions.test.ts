import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { bytesOf, describePage, openLeverDemo, sharePage } from './open-page.ts';

const point = (page: Page, change: number) => page.locator(`.chart .point[data-move="${change}"]`);

/** What the chart says of a change. */
const labelOf = (page: Page, change: number) => point(page, change).getAttribute('aria-label');

const decisions = (page: Page) => page.locator('.decisions li .plain').allTextContents();

const told = (page: Page) => page.locator('.announced').textContent();

const pull = async (page: Page, change: number, px: number): Promise<void> => {
  const box = (await point(page, change).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + px / 2, y, { steps: 3 });
  await page.mouse.move(x + px, y, { steps: 3 });
};

const leverDemo = sharePage(openLeverDemo);

describePage('deciding about levers', (open) => {
  it('goes by mouse to an allowed moment, and is undone and done again', async () => {
    const { page, complaints } = await leverDemo();
    const before = await labelOf(page, 0);
    expect(before).toContain('bar 9, beat 4');
    // 12 px a quarter note.
    await pull(page, 0, -6);
    await page.locator('.chart .point.dragged').waitFor();
    await page.mouse.up();
    await expect.poll(() => decisions(page)).toEqual(['F4 lever up in bar 9, beat 3']);
    await expect.poll(() => labelOf(page, 0)).toContain('bar 9, beat 3, pinned');
    await page.getByRole('button', { name: /^Undo: F4 lever up/ }).click();
    await expect.poll(() => labelOf(page, 0)).toBe(before);
    await expect.poll(() => decisions(page)).toEqual([]);
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(() => labelOf(page, 0)).toContain('beat 3, pinned');
    expect(complaints).toEqual([]);
  });

  it('goes by keys, and is let go', async () => {
    const { page } = await leverDemo();
    await point(page, 0).focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => labelOf(page, 0)).toMatch(/pinned$/);
    await point(page, 0).focus();
    await page.keyboard.press('Delete');
    await expect.poll(() => labelOf(page, 0)).not.toMatch(/pinned$/);
    await expect.poll(() => told(page)).toContain('Removed: F4 lever up');
  });

  it('gives a change to the other hand, and tells when that hand is away', async () => {
    const { page } = await leverDemo();
    await point(page, 0).click();
    await expect.poll(() => page.locator('.detail').textContent()).toMatch(/The left hand is away/);
    await page.getByRole('button', { name: 'Give it to the right hand' }).click();
    await expect.poll(() => decisions(page)).toEqual(['F4 lever up in bar 9, beat 4, by the right hand']);
    await expect.poll(() => labelOf(page, 0)).toContain('right hand');
    await page.locator('.chart .point[data-move="0"] circle').first().waitFor();
  });

  it('keeps a lever where it is, and says what a note makes impossible', async () => {
    const { page } = await leverDemo();
    await point(page, 0).click();
    await page.getByRole('button', { name: 'to its next change' }).click();
    await expect.poll(() => page.locator('.chart .kept').count()).toBe(1);
    await page.getByRole('button', { name: /^Undo/ }).click();
    await point(page, 0).click();
    await page.getByRole('button', { name: 'to the end', exact: true }).click();
    await expect.poll(() => told(page)).toMatch(/Not followed in bar \d+: F4 lever up cannot be pinned here/);
  });

  it('allows no changes in bars that are chosen over their numbers', async () => {
    const { page } = await leverDemo();
    const strip = (await page.locator('.chart .strip').boundingBox())!;
    const bars = await page.locator('.chart .point').first().boundingBox();
    await page.mouse.move(bars!.x - 6, strip.y + 8);
    await page.mouse.down();
    await page.mouse.move(bars!.x + 6, strip.y + 8, { steps: 3 });
    await page.mouse.up();
    await page.getByRole('button', { name: 'No moves here' }).click();
    await expect.poll(() => page.locator('.chart .forbidden').count()).toBe(1);
    await expect.poll(() => labelOf(page, 0)).not.toContain('bar 9, beat 4');
  });

  it('holds a lever by the form, and takes every decision back', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await page.getByText('Add a decision', { exact: true }).click();
    await page.getByLabel('Lever', { exact: true }).selectOption('G3');
    await page.locator('fieldset', { hasText: 'Hold a lever in place' }).getByText('Add').click();
    await expect.poll(() => decisions(page)).toEqual(['G3 lever up from bar 1, beat 1 until the end']);
    await page.getByRole('button', { name: 'Start over' }).click();
    await expect.poll(() => decisions(page)).toEqual([]);
  });

  it('is kept by the browser and in the file', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await point(page, 0).focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => labelOf(page, 0)).toMatch(/pinned$/);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Your file with markings' }).click(),
    ]);
    expect((await bytesOf(file)).toString('utf8')).toMatch(/<\?tringle-decisions \{.*"lever-move"/);
    await page.reload();
    await page.locator('.paper g.lever-marking').first().waitFor();
    await expect.poll(() => labelOf(page, 0)).toMatch(/pinned$/);
    await expect.poll(() => page.locator('.restored').textContent()).toContain('restored your decision');
  });

  it('waits while the part is planned for the pedal harp, and is there again for the lever harp', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await point(page, 0).focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => labelOf(page, 0)).toMatch(/pinned$/);
    await page.locator('select[name=instrument]').selectOption('concert-harp');
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await page.locator('select[name=instrument]').selectOption('lever-harp-34');
    await page.locator('.paper g.lever-marking').first().waitFor();
    await expect.poll(() => labelOf(page, 0)).toMatch(/pinned$/);
  });
});

describePage('listening to a part for the lever harp', (open) => {
  it('shows every string in its colour with its lever, and what is set next', async () => {
    const { page, complaints } = await open();
    await openLeverDemo(page);
    await page.getByRole('button', { name: 'Listen to the part and watch the levers' }).click();
    const board = page.locator('.lever-board');
    await board.waitFor();
    expect(await board.locator('.string').count()).toBe(34);
    expect(await board.locator('.string.red').count()).toBe(5);
    expect(await board.locator('[data-lever="up"]').count()).toBe(3);
    expect(await board.getAttribute('aria-label')).toBe('Levers up: A3, A4, A5.');
    // To the bar of the first change, and over it.
    for (let bar = 1; bar < 9; bar += 1) {
      await page.getByRole('button', { name: 'Forward one bar' }).click();
    }
    await expect.poll(() => board.locator('[data-string="F4"]').getAttribute('class')).toContain('next');
    await expect.poll(() => page.locator('.pedal-line').textContent()).toContain('F4 lever up');
    await page.getByRole('button', { name: 'Forward one bar' }).click();
    await expect.poll(() => board.locator('[data-string="F4"]').getAttribute('data-lever')).toBe('up');
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it('plays: the line in the chart goes on, notes are marked, levers go over', async () => {
    const { page, complaints } = await open();
    await openLeverDemo(page);
    await page.getByRole('button', { name: 'Listen to the part and watch the levers' }).click();
    const board = page.locator('.lever-board');
    await board.waitFor();
    for (let bar = 1; bar < 9; bar += 1) {
      await page.getByRole('button', { name: 'Forward one bar' }).click();
    }
    expect(await board.locator('[data-string="F4"]').getAttribute('data-lever')).toBe('down');
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(() => page.locator('.sounding').count()).toBeGreaterThan(0);
    await expect
      .poll(() => board.locator('[data-string="F4"]').getAttribute('data-lever'), { timeout: 10_000 })
      .toBe('up');
    await page.getByRole('button', { name: 'Pause', exact: true }).click();
    expect(complaints).toEqual([]);
  });
});
