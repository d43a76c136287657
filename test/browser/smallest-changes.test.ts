import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { bytesOf, chooseFile, describePage, sharePage } from './open-page.ts';
import { HURRIED, IMPOSSIBLE, LONG_CHORD } from './small-scores.ts';

/** What the name of the file begins with that the thread runs which plans in other keys. */
const COMPARING = 'compare-worker';

/** Has that thread tell its steps and keep its answer to itself, so that it cannot be done before it is stopped. */
const keepAnswers = (page: Page) =>
  page.route(`**/${COMPARING}*`, async (route) => {
    const response = await route.fetch();
    const keep = `{
      const post = self.postMessage;
      self.postMessage = (told) => { if (told.kind === 'step') post.call(self, told); };
    }`;
    await route.fulfill({ response, body: `${keep}\n${await response.text()}` });
  });

const impossible = sharePage(async (page) => {
  await chooseFile(page, 'impossible.musicxml', IMPOSSIBLE);
  await page.locator('.paper g.pedal-marking').first().waitFor();
});

describePage('the smallest changes, other keys and two players on the page', (open) => {
  it('finds the smallest changes with what is heard otherwise, and tries one by planning again', async () => {
    const { page, complaints } = await impossible();
    const ask = page.getByRole('button', { name: 'Find the smallest changes' });
    // What took too long can be asked for again.
    await page.route(
      '**/v1/fixes',
      (route) =>
        route.fulfill({
          contentType: 'application/problem+json',
          body: JSON.stringify({ title: 'Too long', detail: 'It took too long.' }),
          status: 422,
        }),
      { times: 1 },
    );
    await ask.focus();
    await page.keyboard.press('Enter');
    await page.locator('.offers').getByRole('button', { name: 'Try again' }).waitFor();
    expect(await page.locator('.offers [role=status]').textContent()).toBe('It took too long.');
    await page.keyboard.press('Enter');
    const first = page.locator('.offers .fixes li').first();
    await first.waitFor();
    expect(await first.textContent()).toMatch(/Write .* for the .* Heard otherwise: nothing\./);
    await expect
      .poll(() => page.locator('.offers [role=img]').getAttribute('aria-label'))
      .toContain('1 at ♩ =');
    expect(await violations(page)).toEqual([]);
    // What stood under the finding at once has joined this list, and the finding leads to it.
    const finding = page
      .locator('.findings li')
      .filter({ has: page.locator('.finding.stop') })
      .first();
    expect(await finding.getByRole('button', { name: 'Apply' }).count()).toBe(0);
    await finding.getByRole('button', { name: /^\d+ alternatives?/ }).click();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(/^Bar 2, beat 1/);
    const attempt = first.getByRole('button', { name: 'Try it' });
    await attempt.focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('.piece').textContent()).toContain('playable by hands and feet');
    // The list stays, says what was tried, and leads back; the focus stays on the button.
    expect(await first.textContent()).toMatch(/^Tried: Write/);
    expect(await page.locator('.offers h3').first().textContent()).toContain('playable now');
    expect(await page.locator('.announced').textContent()).toMatch(
      /Write .*\. Bar 2 is playable now; nothing is left that is not\.$/,
    );
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Remove');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('.piece').textContent()).toContain('not playable as printed');
    await attempt.waitFor();
    expect(await page.locator('.decisions li').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('compares the keys for the pedal harp, with names and difficulty', async () => {
    const { page } = await impossible();
    await page.getByRole('button', { name: 'Compare the keys' }).click();
    const rows = page.locator('.compare tbody tr');
    await rows.first().waitFor();
    // Six semitones up and six down come to the same keys, told once.
    expect(await rows.count()).toBe(12);
    expect(await rows.locator('th', { hasText: 'as written: C major' }).count()).toBe(1);
  });

  it('lets a note wait for the pedal, as a decision that is told over the music', async () => {
    const { page, complaints } = await open();
    await chooseFile(page, 'long-chord.musicxml', LONG_CHORD);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await page.getByRole('button', { name: 'Find the smallest changes' }).click();
    const wait = page.locator('.offers .fixes li', { hasText: 'Play the D♯5 in bar 1 later' });
    await wait.getByRole('button', { name: 'Try it' }).click();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('playable by hands and feet');
    expect(await page.locator('.decisions li').first().textContent()).toMatch(
      /^Play the D♯5 in bar 1, beat 1 later, on beat 2/,
    );
    await page.locator('.paper text', { hasText: 'on beat 2' }).first().waitFor({ state: 'attached' });
    await page.getByRole('button', { name: /^Undo/ }).click();
    await expect.poll(() => page.locator('.decisions li').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('slows the bars about a place that has no time, as a decision that can be undone', async () => {
    const { page, complaints } = await open();
    await chooseFile(page, 'hurried.musicxml', HURRIED);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await page.getByRole('button', { name: 'Find the smallest changes' }).click();
    const slower = page.locator('.offers .fixes li', { hasText: 'no faster than' }).first();
    await slower.waitFor();
    await slower.getByRole('button', { name: 'Try it' }).click();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('playable by hands and feet');
    expect(await page.locator('.decisions li').first().textContent()).toMatch(
      /^Play no faster than ♩ = \d+ from bar 1, beat 1/,
    );
    await page.locator('.paper text', { hasText: 'no faster than' }).first().waitFor({ state: 'attached' });
    await page.getByRole('button', { name: /^Undo/ }).click();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('not playable');
    expect(complaints).toEqual([]);
  });

  it('lead from another harp to what a second one must play, and stay with the piece', async () => {
    const { page } = await open();
    await chooseFile(page, 'impossible.musicxml', IMPOSSIBLE);
    await page.getByRole('button', { name: 'Find the smallest changes' }).click();
    await page.getByRole('button', { name: 'What a second harp must play' }).first().click();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent))
      .toBe('With a second harp');
    expect(await page.locator('.piece').count()).toBe(1);
  });

  it('says what a second harp must play at the least, and leads to its bars', async () => {
    const { page } = await impossible();
    await page.getByRole('button', { name: 'Find the least that a second harp must play' }).click();
    const told = page.locator('section.second-harp');
    await expect.poll(() => told.textContent()).toMatch(/The least that the second harp must play: \d+ note/);
    expect(await told.locator('li').allTextContents()).toEqual([
      expect.stringMatching(/^First harp: .* playable\.$/),
      expect.stringMatching(/^Second harp: .* playable\.$/),
    ]);
    await told.getByRole('button', { name: /^Bar/ }).first().click();
    expect(await violations(page)).toEqual([]);
    const saved = page.waitForEvent('download');
    await told.getByRole('button', { name: 'Both parts and the score (ZIP)' }).click();
    expect(Object.keys(unzipSync(await bytesOf(await saved)))).toContain('second player.pdf');
  });

  it('tells how far the comparison is, works without the service, and stops when it is told to', async () => {
    const { page } = await open();
    await page.route('**/v1/**', (route) => route.abort());
    await keepAnswers(page);
    await chooseFile(page, 'hurried.musicxml', HURRIED);
    await page.locator('.chart').waitFor();
    const comparing = () => page.workers().filter((thread) => thread.url().includes(COMPARING));
    await page.getByRole('button', { name: 'Compare the keys' }).click();
    const bar = page.getByRole('progressbar', { name: /every key/ });
    await expect.poll(() => bar.getAttribute('max')).toBe('13');
    expect(comparing()).toHaveLength(1);
    await page.locator('.compare').getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('button', { name: 'Compare the keys' }).waitFor();
    expect(await bar.count()).toBe(0);
    await expect.poll(comparing).toEqual([]);
  });

  it('divides the part between two players and hands over a part for each and the score of both', async () => {
    const { page } = await impossible();
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'For two players (ZIP)' }).click();
    const names = Object.keys(unzipSync(await bytesOf(await saved)));
    expect(names).toEqual(['first player.pdf', 'second player.pdf', 'both players.pdf']);
  });
});
