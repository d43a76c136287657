import { expect, it } from 'vitest';
import { buildHarp, note, words } from '../engine/score/musicxml/musicxml-builder.ts';
import { violationsInBoth } from './axe.ts';
import { chooseFile, describePage, detailOf, openChoices, openDemo } from './open-page.ts';
import { IMPOSSIBLE, TWO_PARTS } from './small-scores.ts';

/** One string would have to be F♮ and F♯ at once, and a marking of the file names the wrong pedal. */
const MARKED_AND_IMPOSSIBLE = buildHarp(
  words('D♮ C♮ B♮ E♮ F♮ G♮ A♮') + note('F4', 4) + note('F#4', 4, { chord: true }),
  words('C♭') + note('C#4', 4),
);

const TWO_TUNES = 'X:1\nT:Lane\nM:2/4\nL:1/8\nK:G\nGABd|]\n\nX:2\nT:Across\nM:2/4\nL:1/8\nK:Db\nD2G2|]\n';

describePage('the page for everyone', (open) => {
  it('has nothing that axe objects to, in light and in dark', async () => {
    const { page } = await open();
    expect(await violationsInBoth(page), 'the first view').toEqual([]);
    await chooseFile(page, 'not-a-score.xml', '<html></html>');
    await page.getByRole('alert').waitFor();
    expect(await violationsInBoth(page), 'a refusal').toEqual([]);
    await chooseFile(page, 'brook.xml', TWO_PARTS);
    await page.locator('.parts').waitFor();
    expect(await violationsInBoth(page), 'the choice of a part').toEqual([]);
    await chooseFile(page, 'impossible.xml', IMPOSSIBLE);
    await page.locator('.paper g.pedal-marking').first().focus();
    await page.locator('.finding').first().click();
    expect(await violationsInBoth(page, { withDrawings: true }), 'a finding at an impossible place').toEqual(
      [],
    );
    await chooseFile(page, 'again.xml', IMPOSSIBLE);
    await page.setViewportSize({ width: 390, height: 844 });
    await page.locator('.chart .point').first().focus();
    await page.locator('.chart .point').first().press('Shift+ArrowLeft');
    await page.locator('.decisions li').waitFor();
    await page.getByText('Add a decision', { exact: true }).click();
    await openChoices(page);
    await page.locator('select[name=paper]').selectOption('custom size');
    expect(await violationsInBoth(page), 'on a phone, with a decision, all forms and choices open').toEqual(
      [],
    );
    await page.setViewportSize({ width: 1280, height: 900 });
    await page.reload();
    await chooseFile(page, 'again.xml', IMPOSSIBLE);
    await page.locator('.restored').waitFor();
    await page.locator('.chart .strip').click({ position: { x: 30, y: 8 } });
    await page.locator('.span-tools').waitFor();
    expect(await violationsInBoth(page), 'with work taken up again, and chosen bars').toEqual([]);
  });

  it('has nothing that axe objects to with every other view open, in dark and light, on wide screen and phone', async () => {
    const { page } = await open();
    await chooseFile(page, 'marked.musicxml', MARKED_AND_IMPOSSIBLE);
    const button = (name: string) => page.getByRole('button', { name });
    await button('Explore a setting').click();
    await button('Compare plans, keep variants').click();
    await button('Compare the keys').click();
    await page.locator('.other-plans select').first().selectOption({ index: 1 });
    await button('Find the smallest changes').click();
    await page.locator('.offers .fixes li').first().waitFor();
    await button('Find the least that a second harp must play').click();
    await button('Listen to the part').click();
    await page.locator('.second-harp ul').waitFor();
    await page.locator('.proof input[type=checkbox]').first().waitFor();
    await page.locator('.paper g.pedal-marking').first().waitFor();
    expect(await violationsInBoth(page), 'settings, plans, keys, two harps, repair').toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await violationsInBoth(page), 'the same on a phone').toEqual([]);
    await button('Mark as a pupil’s attempt').first().click();
    await page.locator('.marked-pages .paper').first().waitFor();
    expect(await violationsInBoth(page), 'a marked attempt').toEqual([]);
    await page.keyboard.press('Escape');
    await chooseFile(page, 'lane.abc', TWO_TUNES);
    await button('Show what each tune asks of the levers').click();
    await page.locator('.book tbody th').first().waitFor();
    await page.locator('.book tbody input[type=checkbox]').first().check();
    expect(await violationsInBoth(page), 'the table of a book, with a set').toEqual([]);
  });

  it('needs no scrolling to the side, from phone to wide screen', async () => {
    const { page } = await open();
    await openDemo(page);
    for (const width of [320, 390, 820, 1440]) {
      await page.setViewportSize({ width, height: 900 });
      await page.locator('#marking-2').focus();
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over, `at ${width} px`).toBeLessThanOrEqual(0);
      const right = await page.locator('main').evaluate((main) => main.getBoundingClientRect().right);
      expect(right, `at ${width} px`).toBeLessThanOrEqual(width);
    }
  });

  it('can be worked by keys alone: open, go to a marking, move a move, go to a finding, undo, save', async () => {
    const { page } = await open();
    const tabTo = async (wanted: RegExp): Promise<void> => {
      for (let i = 0; i < 40; i += 1) {
        await page.keyboard.press('Tab');
        const name = await page.evaluate(() => {
          let at: Element | null = document.activeElement;
          while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
          return at?.getAttribute('aria-label') ?? at?.textContent ?? '';
        });
        if (wanted.test(name)) return;
      }
      throw new Error(`Tab does not lead to ${wanted}`);
    };
    await tabTo(/^Show the demo/);
    await page.keyboard.press('Enter');
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await tabTo(/^Full setting, bar 1:/);
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => detailOf(page).textContent()).toContain('B♮, left foot');
    await tabTo(/^B natural, left foot/);
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => detailOf(page).textContent()).toContain('right foot');
    await page.keyboard.press('Shift+ArrowLeft');
    await page.locator('.decisions li').waitFor();
    await tabTo(/^Note/);
    await page.keyboard.press('Enter');
    await expect.poll(() => detailOf(page).textContent()).toContain('Note, bar');
    await tabTo(/^Remove: A♮ in bar/);
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+z');
    await expect.poll(() => page.locator('.announced').textContent()).toMatch(/^Undone: Removed: A♮ in bar/);
    await tabTo(/^Table of moves/);
    const [file] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    expect(file.suggestedFilename()).toBe('Lanterns at the Lock - Harp - moves.csv');
  });
});
