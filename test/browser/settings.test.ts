import { expect, it } from 'vitest';
import { violationsInBoth } from './axe.ts';
import { describePage, openDemo } from './open-page.ts';

const explore = 'Explore a setting';

describePage('the view of settings', (open) => {
  it('is reached from the first page: scales, chords and doubled strings of a setting, and the way to it', async () => {
    const { page, complaints } = await open();
    await page.getByRole('button', { name: explore }).click();
    const view = page.locator('.setting-explorer');
    await view.getByRole('button', { name: 'C major', exact: true }).waitFor();
    expect(await view.locator('.pedal-box .pedal').count()).toBe(7);
    expect(await view.locator('.strings-picture .string').count()).toBe(8);
    await view.getByRole('combobox', { name: 'B pedal' }).selectOption('B♭');
    await view.getByRole('combobox', { name: 'E pedal' }).selectOption('E♭');
    await view.getByRole('button', { name: 'B♭ major', exact: true }).waitFor();
    await expect
      .poll(() => view.locator('.way').textContent())
      .toBe(
        '2 moves at the same moment: B♭ (left foot) + E♭ (right foot). No way is shorter: a foot makes one move at a time.',
      );
    await view.getByRole('combobox', { name: 'E pedal' }).selectOption('E♮');
    await view.getByRole('combobox', { name: 'B pedal' }).selectOption('B♯');
    await expect.poll(() => view.textContent()).toContain('Same pitch: C♮ = B♯.');
    expect(await view.locator('.strings-picture .same').count()).toBe(1);
    expect(complaints).toEqual([]);
  });

  it('shows the strings of a chord in the picture', async () => {
    const { page } = await open();
    await page.getByRole('button', { name: explore }).click();
    const view = page.locator('.setting-explorer');
    await view.locator('summary', { hasText: 'chords' }).click();
    await view.getByRole('button', { name: 'G dominant seventh', exact: true }).click();
    const marked = await view
      .locator('.strings-picture .marked')
      .evaluateAll((strings) => strings.map((string) => string.getAttribute('data-letter')));
    expect(marked).toEqual(['D', 'F', 'G', 'B']);
  });

  it('begins where the pedals stand at the bar that is looked at, and finds a sound from there', async () => {
    const { page } = await open();
    await openDemo(page);
    await page.locator('.chart .point').first().click();
    await page.getByRole('button', { name: explore }).click();
    const view = page.locator('.setting-explorer');
    await expect
      .poll(() => view.locator('.origin').textContent())
      .toBe('Where the pedals stand at bar 7: D♮ C♮ B♮ | E♭ F♮ G♮ A♭');
    await view.getByLabel('Chord, scale or notes').fill('C whole tone');
    await view.getByLabel('Chord, scale or notes').press('Enter');
    await view.getByRole('status').filter({ hasText: 'Notes: C D E F♯ G♯ A♯.' }).waitFor();
    const nearest = view.locator('.found-settings button').first();
    await nearest.click();
    await expect.poll(() => view.locator('.way').textContent()).toMatch(/^\d moves, .*No way is shorter/);
    await page.locator('.chart .point').last().click();
    await view.getByRole('button', { name: /^Take the setting of bar/ }).click();
    await expect.poll(() => view.locator('.origin').textContent()).not.toContain('bar 7');
  });

  it('says of a sound that nobody knows what could be asked', async () => {
    const { page } = await open();
    await page.getByRole('button', { name: explore }).click();
    await page.getByLabel('Chord, scale or notes').fill('C wobbly');
    await page.getByRole('button', { name: 'Find settings' }).click();
    await page.getByText('“C wobbly” is not a chord, a scale or a list of notes that is known.').waitFor();
  });

  it('has nothing that axe finds, open with a search, in light and in dark', async () => {
    const { page } = await open();
    await openDemo(page);
    await page.getByRole('button', { name: explore }).click();
    await page.getByLabel('Chord, scale or notes').fill('Eb major triad');
    await page.getByRole('button', { name: 'Find settings' }).click();
    await page.locator('.found-settings').first().waitFor();
    for (const details of await page.locator('.setting-explorer summary').all()) await details.click();
    expect(await violationsInBoth(page)).toEqual([]);
  });
});
