import type { Page, Route } from 'playwright-core';
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
import { IMPOSSIBLE } from './small-scores.ts';

const isInView = (page: Page, selector: string): Promise<boolean> =>
  page
    .locator(selector)
    .first()
    .evaluate((element) => {
      const box = element.getBoundingClientRect();
      const host = (element.getRootNode() as ShadowRoot).host ?? element;
      const pane = host.closest('.pages, .chart-pane')!.getBoundingClientRect();
      return (
        box.left >= pane.left && box.right <= pane.right && box.top >= pane.top && box.bottom <= pane.bottom
      );
    });

const demo = sharePage(openWholeDemo);

describePage('reading the plan', (open) => {
  it('brings the marking of a move in the chart into view, from a page that was not drawn before', async () => {
    const { page } = await demo();
    expect(await page.locator('[data-page="3"] svg').count(), 'page 3 is not drawn before').toBe(0);
    await page.locator('.chart .point').last().click();
    await page.locator('g.pedal-marking.selected').waitFor();
    const label = await page.locator('g.pedal-marking.selected').getAttribute('aria-label');
    expect(label).toContain('bar 57');
    await expect.poll(() => isInView(page, 'g.pedal-marking.selected')).toBe(true);
    await expect.poll(() => page.locator('.score .count').first().textContent()).toBe('Page 3 of 3');
  });

  it('tells of a marking on the page what moves, which foot, why there and which notes ask', async () => {
    const { page, complaints } = await demo();
    await page.locator('#marking-2').focus();
    const told = await detailOf(page).textContent();
    expect(told).toContain('B♮, left foot');
    expect(told).toContain('From flat to natural. Bar 7, beat 1');
    expect(told).toMatch(/after B♭\d in bar 6.*before B\d in bar 7/);
    expect(told).toContain('a string of this letter may still ring');
    await expect.poll(() => page.locator('#b7s2e4').getAttribute('class')).toContain('asks');
    await expect.poll(() => page.locator('#b6s2e7').getAttribute('class')).not.toContain('asks');
    await expect
      .poll(() => page.locator('.chart .point.selected').getAttribute('aria-label'))
      .toMatch(/^B natural, left foot, Bar 7/);
    expect(complaints).toEqual([]);
  });

  it('shows a marking while it is pointed at, and what was chosen before when it is left', async () => {
    const { page } = await demo();
    await page.locator('#marking-2').click();
    await page.locator('#marking-4').hover();
    await expect.poll(() => detailOf(page).textContent()).toContain('A♮, right foot');
    await page.locator('.piece').hover();
    await expect.poll(() => detailOf(page).textContent()).toContain('B♮, left foot');
  });

  it('brings the move of a marking on the page into view in the chart', async () => {
    const { page } = await demo();
    await page.getByRole('button', { name: 'Next page' }).click();
    const marking = page.locator('[data-page="2"] g.pedal-change').last();
    await marking.click();
    await expect.poll(() => isInView(page, '.chart .point.selected')).toBe(true);
  });

  it('goes from marking to marking and from page to page by key, and changes the size', async () => {
    const { page } = await demo();
    await page.locator('#marking-2').focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => page.locator('g.selected').getAttribute('id')).toBe('marking-3');
    await page.keyboard.press('End');
    await expect.poll(() => page.locator('.score .count').first().textContent()).toBe('Page 3 of 3');
    await page.keyboard.press('PageUp');
    await expect.poll(() => page.locator('.score .count').first().textContent()).toBe('Page 2 of 3');
    const width = () => page.locator('.sheets').evaluate((sheets) => sheets.clientWidth);
    const before = await width();
    await page.keyboard.press('+');
    await expect.poll(() => width()).toBeGreaterThan(before * 1.2);
  });

  it('lists what cannot be played first, marks it in the chart, and leads to its notes', async () => {
    const { page } = await open();
    await chooseFile(page, 'impossible.xml', IMPOSSIBLE);
    await page.locator('.paper g.pedal-marking').first().waitFor();
    const finding = page.locator('.finding').first();
    await expect.poll(() => finding.textContent()).toMatch(/^Not playableBar 2, beat 1/);
    await expect.poll(() => page.locator('.chart .impossible').count()).toBeGreaterThan(0);
    await expect
      .poll(() => page.locator('.piece').textContent())
      .toContain('not playable as printed: the first problem is in bar 2');
    await finding.click();
    await expect.poll(() => detailOf(page).textContent()).toContain('How to fix it');
    await expect.poll(() => page.locator('g.note.asks').count()).toBeGreaterThan(0);
  });
});

describePage('what is taken away', (open) => {
  const download = async (page: Page, button: string) => {
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: button }).click(),
    ]);
    return { name: file.suggestedFilename(), bytes: await bytesOf(file) };
  };

  it('is a PDF, a study edition, a card, SVG pages, the table of moves, the file with markings, and the chart', async () => {
    const { page, complaints } = await open();
    await openWholeDemo(page);
    const pdf = await download(page, 'PDF');
    expect(pdf.name).toBe('Lanterns at the Lock - Harp.pdf');
    expect(pdf.bytes.subarray(0, 5).toString()).toBe('%PDF-');
    const study = await download(page, 'Study edition');
    expect(study.name).toBe('Lanterns at the Lock - Harp - study edition.pdf');
    expect(study.bytes.length).toBeGreaterThan(pdf.bytes.length);
    const card = await download(page, 'Summary card (PNG)');
    expect(card.name).toBe('Lanterns at the Lock - Harp - card.png');
    expect(card.bytes.subarray(1, 4).toString()).toBe('PNG');
    const zip = await download(page, 'Pages as SVG');
    expect(zip.bytes.subarray(0, 2).toString()).toBe('PK');
    const table = (await download(page, 'Table of moves (CSV)')).bytes.toString('utf8').split('\r\n');
    expect(table).toHaveLength(1 + 31 + 1);
    expect(table[1]).toMatch(/^7,1,left foot,B,flat,natural,B♮,/);
    const own = await download(page, 'Your file with markings');
    expect(own.name).toBe('Lanterns at the Lock - Harp - with markings.musicxml');
    expect(own.bytes.toString('utf8')).toContain('<pedal-tuning>');
    const picture = await download(page, 'Save as picture');
    expect(picture.name).toBe('Lanterns at the Lock - Harp - chart.svg');
    const chart = picture.bytes.toString('utf8');
    expect(chart).toMatch(/^<svg [^>]*xmlns="http:\/\/www.w3.org\/2000\/svg"/);
    expect(chart).toContain('.chart .course');
    expect(complaints).toEqual([]);
  });

  it('is told and stopped by itself where several are made at once, and none is begun twice', async () => {
    const { page, complaints } = await open();
    await openDemo(page);
    const asked: Route[] = [];
    await page.route('**/v1/annotate*', async (route) => {
      if (route.request().headers().accept !== 'application/pdf') return route.continue();
      asked.push(route);
    });
    const study = page.getByRole('button', { name: 'Study edition', exact: true });
    const lines = page.locator('.study-files .making p');
    await study.click();
    await page.getByRole('button', { name: 'Exercise with solution', exact: true }).click();
    await expect.poll(() => lines.count()).toBe(2);
    expect(await study.getAttribute('aria-disabled')).toBe('true');
    await study.click({ force: true });
    await page.getByRole('button', { name: 'Stop: Study edition' }).click();
    await expect
      .poll(() => lines.allTextContents())
      .toEqual(['Study edition: given up.', 'Preparing: Exercise with solution …']);
    const saved = page.waitForEvent('download');
    await asked[1]!.fulfill({ contentType: 'application/pdf', body: '%PDF-' });
    expect((await saved).suggestedFilename()).toContain('exercise');
    await expect
      .poll(() => lines.allTextContents())
      .toEqual(['Study edition: given up.', 'Exercise with solution was saved to your downloads.']);
    expect(await study.getAttribute('aria-disabled')).toBe('false');
    expect(asked).toHaveLength(2);
    expect(complaints).toEqual([]);
  });

  it('looks as chosen, and so it does at the next visit', async () => {
    const { page } = await open();
    const start = page.url();
    await openDemo(page);
    await expect.poll(() => page.locator('g.pedal-setting path').count()).toBeGreaterThan(0);
    await watchOrders(page);
    await page.getByLabel('Note names').selectOption('German');
    await expect.poll(() => lastOrder(page)).toMatchObject({ naming: 'german' });
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await page.goto(start);
    await page.reload();
    await watchOrders(page);
    await openDemo(page);
    await expect.poll(() => lastOrder(page)).toMatchObject({ naming: 'german' });
    await expect.poll(() => page.getByLabel('Note names').inputValue()).toBe('german');
  });
});
