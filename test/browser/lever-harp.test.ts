import { unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { violations, violationsInBoth } from './axe.ts';
import { bytesOf, chooseFile, describePage, openChoices, openLeverDemo, sharePage } from './open-page.ts';

const leverDemo = sharePage(openLeverDemo);

describePage('the page for the lever harp', (open) => {
  it('knows the harp by the name of the part, and shows the tuning, the levers and every change', async () => {
    const { page, complaints } = await leverDemo();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('playable as printed');
    const told = await page.locator('.piece').textContent();
    expect(told).toContain('5 lever changes');
    expect(told).toContain('Tuned in E♭ major, levers up: A♮3, A♮4, A♮5');
    await expect.poll(() => page.locator('select[name=instrument]').inputValue()).toBe('lever-harp-34');
    // The strings that change are the lanes, the highest first.
    await expect.poll(() => page.locator('.chart .letter').allTextContents()).toEqual(['A5', 'F4', 'E3']);
    await expect.poll(() => page.locator('.chart .point').count()).toBe(5);
    expect(complaints).toEqual([]);
  });

  it('goes from the chart to the marking in the score and back, by keys too', async () => {
    const { page } = await leverDemo();
    await page.locator('.chart .point').first().click();
    await page.locator('.paper g.lever-marking.selected').waitFor();
    await expect.poll(() => page.locator('.detail').textContent()).toContain('F♯4');
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => page.locator('.detail').textContent()).toContain('F♮4');
    await page.locator('.paper g.lever-marking').nth(3).click();
    await expect.poll(() => page.locator('.detail').textContent()).toContain('E♮3');
  });

  it('tells of a note its string and what set its lever, and leaves it out', async () => {
    const { page, complaints } = await leverDemo();
    await page.locator('.chart .point').first().click();
    await page.locator('.paper g.note.asks').first().waitFor();
    await page.locator('.paper g.note.asks .notehead').first().click();
    const detail = page.locator('.detail');
    await expect.poll(() => detail.locator('h2').textContent()).toBe('Note F♯4');
    expect(await detail.textContent()).toContain('the F4 string, lever up');
    await detail.getByRole('button', { name: /^F♯4, left hand/u }).click();
    await expect.poll(() => detail.locator('h2').textContent()).toBe('F♯4');
    await page.locator('.paper g.note.asks .notehead').first().click();
    expect(await violations(page)).toEqual([]);
    await detail.getByRole('button', { name: 'Leave it out' }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    await detail.getByText('You leave this note out.').waitFor();
    await detail.getByRole('button', { name: 'Play it again' }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('has the size, page and marking keys of all pages', async () => {
    const { page } = await leverDemo();
    await expect.poll(() => page.locator('.score h2').textContent()).toBe('Score');
    await expect
      .poll(() => page.locator('.score .count').allTextContents())
      .toEqual(['Page 1 of 1', '100 %']);
    const width = () => page.locator('.sheets').evaluate((sheets) => sheets.clientWidth);
    const before = await width();
    await page.locator('.pages').focus();
    await page.keyboard.press('+');
    await expect.poll(() => width()).toBeGreaterThan(before * 1.2);
    await page.getByRole('button', { name: 'Smaller' }).click();
    await expect.poll(() => width()).toBe(before);
    await page.locator('#marking-2').focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => page.locator('.detail').textContent()).toContain('F♮4');
    await page.keyboard.press('End');
    await expect.poll(() => page.locator('.detail').textContent()).toContain('A♭5');
  });

  it('is taken away as PDF, SVG pages, a table of changes and the file with markings', async () => {
    const { page, complaints } = await leverDemo();
    const download = async (button: string) => {
      const [file] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: button }).click(),
      ]);
      return { name: file.suggestedFilename(), bytes: await bytesOf(file) };
    };
    const pdf = await download('PDF');
    expect([pdf.name, pdf.bytes.subarray(0, 5).toString()]).toEqual([
      'The Ribbon Stall - Lever harp.pdf',
      '%PDF-',
    ]);
    const pages = unzipSync((await download('Pages as SVG')).bytes);
    expect(Object.keys(pages)).toEqual(['page 1.svg']);
    expect(Buffer.from(pages['page 1.svg']!).toString('utf8')).toContain('lever-marking');
    const table = (await download('Table of changes (CSV)')).bytes.toString('utf8').split('\r\n');
    expect(table).toHaveLength(1 + 5 + 1);
    expect(table[1]).toMatch(/^9,4,left hand,F4,up,F♯4,"F\d?.*","F♯4, 10"$/);
    const own = await download('Your file with markings');
    expect(own.name).toBe('The Ribbon Stall - Lever harp - with markings.musicxml');
    expect(complaints).toEqual([]);
  });

  it('plans in another tuning that the user chooses, and back', async () => {
    const { page } = await leverDemo();
    await page.getByRole('button', { name: 'Tune in A flat major' }).click();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('Tuned in A♭ major');
    await page.getByRole('button', { name: 'Back to the suggested tuning' }).click();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('Tuned in E♭ major');
  });

  it('keeps what it showed where the service fails, says why, and tries again on request', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await page.route('**/v1/annotate*', (route) => route.abort());
    await page.getByRole('button', { name: 'Tune in A flat major' }).click();
    const alert = page.locator('.score').getByRole('alert');
    await alert.getByText('The server did not answer').waitFor();
    await expect.poll(() => page.locator('.chart .point').count()).toBe(5);
    await expect.poll(() => page.locator('.paper g.lever-marking').count()).toBeGreaterThan(0);
    await page.unroute('**/v1/annotate*');
    await alert.getByRole('button', { name: 'Try again' }).click();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('Tuned in A♭ major');
    await alert.waitFor({ state: 'detached' });
  });

  it('leaves the keyboard on the choice of the harp, from one harp to the other and back', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('name'));
    const choice = page.locator('select[name=instrument]');
    await choice.focus();
    await choice.selectOption('concert-harp');
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await expect.poll(() => focused()).toBe('instrument');
    await choice.selectOption('lever-harp-34');
    await page.locator('.paper g.lever-marking').first().waitFor();
    await expect.poll(() => focused()).toBe('instrument');
  });

  it('names the string of a note that is played on another, or leaves it plain on request', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    const columns = await page.locator('.tunings thead th').allTextContents();
    const others = columns.indexOf('On next string');
    const row = page.locator('.tunings tbody tr', { hasText: 'B♭ major' });
    await expect.poll(() => row.locator('th, td').nth(others).textContent()).toBe('1');
    await page.getByRole('button', { name: 'Tune in B flat major' }).click();
    await page.locator('.paper g.dir', { hasText: /= [A-G]/ }).waitFor();
    await expect
      .poll(() => page.locator('.findings').textContent())
      .toMatch(/is played on the [A-G]\d string/);
    await openChoices(page);
    await page.locator('select[name=respelledLook]').selectOption('plain');
    await page.locator('.paper g.dir', { hasText: /= [A-G]/ }).waitFor({ state: 'detached' });
  });

  it('shows the changes as small notes where the user wants them so', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await page.locator('select[name=leverLook]').selectOption('notes');
    await page.locator('.paper g.lever-note').first().waitFor();
    await page.locator('.chart .point').first().click();
    await page.locator('.paper g.lever-note.selected').waitFor();
  });

  it('plans the same part for a pedal harp where the user names one, and a pedal part for levers', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await page.locator('select[name=instrument]').selectOption('concert-harp');
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await page.locator('select[name=instrument]').selectOption('lever-harp-36');
    await page.locator('.paper g.lever-marking').first().waitFor();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('lever harp, 36 strings');
  });

  it('tells how the part goes on both harps', async () => {
    const { page } = await leverDemo();
    await page.getByRole('button', { name: 'Compare the harps' }).click();
    const rows = page.locator('.compare tbody tr');
    await rows.first().waitFor();
    const told = await rows.allTextContents();
    expect(told[0]).toContain('concert harp');
    expect(told[1]).toMatch(/lever harp.*playable.*5.*E♭ major/s);
  });

  it('has nothing that axe objects to, in light and in dark', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await page.locator('.chart .point').first().focus();
    expect(await violationsInBoth(page), 'the demo').toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
  });

  it('tells of a file that cannot be planned, in words', async () => {
    const { page } = await open();
    await openLeverDemo(page);
    await chooseFile(page, 'not-a-score.xml', '<html></html>');
    await page.getByRole('alert').waitFor();
  });
});
