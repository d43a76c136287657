import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import {
  bytesOf,
  chooseFile,
  describePage,
  detailOf,
  openDemo,
  openWholeDemo,
  sharePage,
} from './open-page.ts';
import { lastOrder, watchOrders } from './orders.ts';
import { IMPOSSIBLE, longPart, RESTING_HARP } from './small-scores.ts';

const told = (page: Page): Promise<string | null> => page.locator('.announced').textContent();

const decisions = (page: Page): Promise<string[]> => page.locator('.decisions li .plain').allTextContents();

const point = (page: Page, move: number) => page.locator(`.chart [data-move="${move}"]`);

/** In the demo the third move is B flat, at the fourth beat of bar 10; it may be made from bar 8 on. */
const B_FLAT = 2;

/** Takes a move with the mouse and pulls it so many px. */
const pull = async (page: Page, move: number, px: number): Promise<void> => {
  const box = (await point(page, move).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + px / 2, y, { steps: 3 });
  await page.mouse.move(x + px, y, { steps: 3 });
};

const openWatched = async (page: Page, demo = openDemo): Promise<void> => {
  await demo(page);
  await watchOrders(page);
};

const watchedDemo = sharePage(openWatched);

describePage('moving a move', (open) => {
  it('goes by mouse to an allowed moment: the window is shown, the plan changes, the pages follow', async () => {
    const { page, complaints } = await watchedDemo();
    await pull(page, B_FLAT, -12);
    await expect.poll(() => page.locator('.chart .window').count()).toBe(1);
    expect((await page.locator('.chart .allowed').getAttribute('d'))!.split('M').length).toBeGreaterThan(5);
    await page.mouse.up();
    await expect.poll(() => told(page)).toBe('B♭ in bar 10, beat 3.');
    await expect
      .poll(() => point(page, B_FLAT).getAttribute('aria-label'))
      .toBe('B flat, left foot, Bar 10, beat 3, pinned by you');
    await expect.poll(() => point(page, B_FLAT).locator('.frame').count()).toBe(1);
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3']);
    await expect.poll(() => detailOf(page).textContent()).toContain('You pinned this move here.');
    await expect
      .poll(() => lastOrder(page))
      .toMatchObject({
        pins: [{ kind: 'move', pedal: 'B', position: 'flat', at: { barIndex: 9, beat: '3' } }],
      });
    await page.locator('[data-beat="3"][data-bar="10"].pedal-change[data-pedals="B♭"]').waitFor();
    expect(complaints).toEqual([]);
  });

  it('stays where it was when Escape is pressed on the way', async () => {
    const { page } = await watchedDemo();
    const before = await told(page);
    await pull(page, B_FLAT, -24);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    await expect.poll(() => told(page)).toBe(before);
    await expect
      .poll(() => point(page, B_FLAT).getAttribute('aria-label'))
      .toBe('B flat, left foot, Bar 10, beat 4');
  });

  it('goes by key, keeps the focus, is let go by Delete, and is undone and done again by name', async () => {
    const { page } = await watchedDemo();
    await point(page, B_FLAT).focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect
      .poll(() => point(page, B_FLAT).getAttribute('aria-label'))
      .toContain('beat 3½, pinned by you');
    await page.keyboard.press('Shift+ArrowLeft');
    await expect
      .poll(() => point(page, B_FLAT).getAttribute('aria-label'))
      .toContain('beat 3, pinned by you');
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3']);
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-move'))).toBe('2');
    await page.keyboard.press('Delete');
    await expect.poll(() => point(page, B_FLAT).getAttribute('aria-label')).toMatch(/beat 4$/);
    await page.keyboard.press('Control+z');
    await expect.poll(() => told(page)).toBe('Undone: Removed: B♭ in bar 10, beat 3.');
    await page.keyboard.press('Control+z');
    await expect.poll(() => told(page)).toBe('Undone: B♭ in bar 10, beat 3.');
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(() => told(page)).toBe('Redone: B♭ in bar 10, beat 3.');
    await page.getByRole('button', { name: 'Undo: B♭ in bar 10, beat 3' }).click();
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3½']);
  });

  it('leaves the pages where they were while they are drawn anew', async () => {
    const { page } = await open();
    await openWatched(page);
    await page.getByRole('button', { name: 'Larger' }).click();
    await point(page, B_FLAT).focus();
    await page.locator('g.pedal-marking.selected').waitFor();
    await page.locator('.pages').evaluate((pages) => pages.scrollBy(40, 70));
    const place = () =>
      page.locator('.pages').evaluate((pages) => [pages.scrollTop, pages.scrollHeight, pages.scrollWidth]);
    const before = await place();
    await point(page, B_FLAT).press('Shift+ArrowLeft');
    await page.locator('.pages.stale').waitFor();
    await expect.poll(() => place()).toEqual(before);
    await page.locator('.pages:not(.stale)').waitFor();
    await expect.poll(() => place()).toEqual(before);
  });
});

describePage('deciding', (open) => {
  it('applies a fix of a finding and takes it back', async () => {
    const { page } = await open();
    await chooseFile(page, 'impossible.xml', IMPOSSIBLE);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await watchOrders(page);
    const stops = page.locator('.finding.stop');
    const before = await stops.count();
    expect(before).toBeGreaterThan(0);
    const apply = page
      .locator('.findings .fixes')
      .getByRole('button', { name: /^Apply: / })
      .first();
    const name = (await apply.getAttribute('aria-label'))!.replace('Apply: ', '').replace(/\.$/, '');
    await apply.click();
    await expect.poll(() => stops.count()).toBe(before - 1);
    await expect.poll(() => told(page)).toContain(name);
    await expect.poll(() => decisions(page)).toHaveLength(1);
    await expect
      .poll(async () => {
        const order = await lastOrder(page);
        return [order?.respell, order?.omit].flat().length;
      })
      .toBe(1);
    await page.getByRole('button', { name: /^Undo/ }).click();
    await expect.poll(() => stops.count()).toBe(before);
    await expect.poll(() => decisions(page)).toEqual([]);
  });

  it('forbids bars that are chosen over their numbers, and says what cannot be granted', async () => {
    const { page } = await watchedDemo();
    const strip = (await page.locator('.chart .strip').boundingBox())!;
    // 12 px a quarter note, bars of four: bars 6 to 9.
    await page.mouse.move(strip.x + 4 + 5.5 * 48, strip.y + 8);
    await page.mouse.down();
    await page.mouse.move(strip.x + 4 + 8.5 * 48, strip.y + 8, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => page.locator('.span-tools').textContent()).toContain('Bars 6–9');
    await page.getByRole('button', { name: 'No moves here' }).click();
    await expect.poll(() => decisions(page)).toEqual(['No moves from bar 6, beat 1 until bar 10, beat 1']);
    await expect.poll(() => page.locator('.chart .forbidden').count()).toBe(1);
    // B natural is needed in bar 7, B flat in bar 6: the move cannot be elsewhere.
    await expect
      .poll(() => told(page))
      .toMatch(/Not followed in bar \d+: B♮ has to be set here, where you allow no moves/);
    await expect
      .poll(() => page.locator('.findings').textContent())
      .toContain('B♮ has to be set here, where you allow no moves');
    await page
      .getByRole('button', { name: 'Remove: No moves from bar 6, beat 1 until bar 10, beat 1' })
      .click();
    await expect.poll(() => page.locator('.findings').textContent()).not.toContain('forbidden');
  });

  it('keeps a position, drops a setting, prints another, and leads to each decision', async () => {
    const { page } = await open();
    await openWatched(page, openWholeDemo);
    await point(page, B_FLAT).click();
    await page.getByRole('button', { name: 'to its next move' }).click();
    expect((await decisions(page))[0]).toMatch(/^B♭ from bar 10, beat 4 until bar \d+, beat \d/);
    await page.getByRole('button', { name: 'Print a full setting here' }).click();
    await page.locator('#marking-1').click();
    await page.getByRole('button', { name: 'Do not print this setting' }).click();
    await expect
      .poll(async () => (await lastOrder(page))?.fullSettings)
      .toEqual([
        { barIndex: 9, beat: '4', print: true },
        { barIndex: 0, beat: '1', print: false },
      ]);
    await page.locator('.pages:not(.stale)').waitFor();
    await expect.poll(() => page.locator('[data-page="1"] g.pedal-setting[data-bar="10"]').count()).toBe(1);
    await expect.poll(() => page.locator('[data-page="1"] g.pedal-setting[data-bar="1"]').count()).toBe(0);
    await page.locator('.pages').evaluate((pages) => pages.scrollTo(0, 99_999));
    await page.getByRole('button', { name: /^Go to: B♭ from/ }).click();
    await expect.poll(() => page.locator('.score .count').first().textContent()).toBe('Page 1 of 3');
  });

  it('says what the planner cannot grant: a pedal cannot stay sharp under a natural note', async () => {
    const { page } = await open();
    await chooseFile(page, 'impossible.xml', IMPOSSIBLE);
    await page.locator('.chart').waitFor();
    await page.getByText('Add a decision', { exact: true }).click();
    await page.getByLabel('Pedal', { exact: true }).selectOption('C');
    await page.getByLabel('stays').selectOption('sharp');
    const form = page.locator('fieldset', { hasText: 'Hold a pedal in place' });
    await form.getByRole('button', { name: 'Add' }).click();
    await expect.poll(() => told(page)).toMatch(/C♯ from.*Not followed in bar \d+: C♯ cannot be pinned/);
    await expect.poll(() => page.locator('.findings').textContent()).toContain('C♯ cannot be pinned');
  });

  it('cues another part before the harp comes in, or none, by the form', async () => {
    const { page } = await open();
    await chooseFile(page, 'resting.xml', RESTING_HARP);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await watchOrders(page);
    await page.getByText('Add a decision', { exact: true }).click();
    const form = page.locator('fieldset', { hasText: 'Cue after a rest' });
    expect(await form.getByLabel('Entry').locator('option').allTextContents()).toEqual([
      'bar 4, after 2 bars of rest',
    ]);
    await form.getByLabel('Part to cue').selectOption('Oboe');
    await form.getByRole('button', { name: 'Show this part' }).click();
    await expect
      .poll(async () => (await lastOrder(page))?.cueParts)
      .toEqual([{ barIndex: 3, beat: '1', part: 'P3' }]);
    const name = page.locator('.paper g.dir', { hasText: 'Oboe' });
    await name.first().waitFor();
    await form.getByRole('button', { name: 'No cue here' }).click();
    await expect
      .poll(async () => (await lastOrder(page))?.cueParts)
      .toEqual([{ barIndex: 3, beat: '1', part: null }]);
    await name.first().waitFor({ state: 'detached' });
  });

  it('respells a note that asks for a move', async () => {
    const { page } = await open();
    await chooseFile(page, 'impossible.xml', IMPOSSIBLE);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await watchOrders(page);
    await page
      .locator('.chart .point', { has: page.locator('rect, circle') })
      .last()
      .click();
    await page.getByRole('button', { name: 'Play A♯4 as B♭4' }).click();
    await expect.poll(() => decisions(page)).toEqual(['Write B♭4 for the A♯4 in bar 3, beat 1']);
    await expect
      .poll(async () => (await lastOrder(page))?.respell)
      .toEqual([{ barIndex: 2, beat: '1', pitch: 'A♯4', to: 'B♭4' }]);
  });
});

describePage('work that is kept', (open) => {
  it('comes back after loading the page again, says so, and can be begun afresh', async () => {
    const { page } = await open();
    await openDemo(page);
    await point(page, B_FLAT).press('Shift+ArrowLeft');
    await expect.poll(() => decisions(page)).toHaveLength(1);
    await page.reload();
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await expect
      .poll(() => page.locator('.restored').textContent())
      .toContain('This browser has restored your decision from last time.');
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3½']);
    await expect.poll(() => point(page, B_FLAT).getAttribute('aria-label')).toContain('pinned by you');
    await page.locator('.restored').getByRole('button', { name: 'Start over' }).click();
    await expect.poll(() => decisions(page)).toEqual([]);
    await expect.poll(() => page.locator('.restored').count()).toBe(0);
    await page.keyboard.press('Control+z');
    await expect.poll(() => decisions(page)).toHaveLength(1);
  });

  it('stays, with all its steps, when another harp is chosen: it is no work of last time', async () => {
    const { page } = await open();
    await chooseFile(page, 'one-move.xml', longPart(2));
    await point(page, 0).press('Shift+ArrowLeft');
    await expect.poll(() => decisions(page)).toHaveLength(1);
    for (const [harp, drawn] of [
      ['pedal-harp-46', 'g.pedal-marking'],
      ['lever-harp-36', 'g.lever-marking'],
      ['concert-harp', 'g.pedal-marking'],
    ] as const) {
      await page.locator('select[name=instrument]').selectOption(harp);
      await page.locator(`.paper ${drawn}`).first().waitFor();
      await expect.poll(() => page.locator('.restored').count()).toBe(0);
    }
    await expect.poll(() => decisions(page)).toEqual(['C♯ in bar 1, beat 3½']);
    await page.getByRole('button', { name: 'Undo: C♯ in bar 1, beat 3½' }).click();
    await expect.poll(() => decisions(page)).toEqual([]);
    await page.getByRole('button', { name: 'Redo: C♯ in bar 1, beat 3½' }).click();
    await expect.poll(() => decisions(page)).toHaveLength(1);
  });

  it('travels in the file: another browser takes it up again', async () => {
    const { page } = await open();
    await openDemo(page);
    await point(page, B_FLAT).press('Shift+ArrowLeft');
    await page.locator('.pages.stale').waitFor();
    await page.locator('.pages:not(.stale)').waitFor();
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Your file with markings' }).click(),
    ]);
    const marked = await bytesOf(file);
    const other = await open();
    await chooseFile(other.page, file.suggestedFilename(), marked);
    await other.page.locator('.paper g.pedal-marking').first().waitFor();
    await expect
      .poll(() => other.page.locator('.restored[role=status]').textContent())
      .toContain('The plan again follows the decision saved in your file');
    await expect.poll(() => decisions(other.page)).toEqual(['B♭ in bar 10, beat 3½']);
  });
});
