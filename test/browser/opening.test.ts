import { readFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { chooseFile, describePage } from './open-page.ts';
import { lastOrder, watchOrders } from './orders.ts';
import { IMPOSSIBLE, SILENT_HARP, TWO_HARPS, TWO_MOVEMENTS, TWO_PARTS } from './small-scores.ts';
import { tellPage } from './told-page.ts';

const demo = (ending: string): Buffer =>
  readFileSync(new URL(`../../server/demo/lanterns-at-the-lock.${ending}`, import.meta.url));

const compressed = (): Uint8Array =>
  zipSync({
    'META-INF/container.xml': strToU8(
      '<container><rootfiles><rootfile full-path="lanterns.xml"/></rootfiles></container>',
    ),
    'lanterns.xml': demo('musicxml'),
  });

describePage('opening a score', (open) => {
  it.each([
    ['MusicXML', 'lanterns.musicxml', () => demo('musicxml')],
    ['compressed MusicXML', 'lanterns.mxl', compressed],
    ['MEI', 'lanterns.mei', () => demo('mei')],
  ])('shows %s with its pages, pedals and findings', async (_format, name, bytes) => {
    const { page, complaints } = await open();
    await chooseFile(page, name, bytes());
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await expect
      .poll(() => page.getByRole('heading', { level: 1 }).textContent())
      .toBe('Lanterns at the Lock');
    await expect.poll(() => page.locator('.sheet').count()).toBe(3);
    await expect.poll(() => page.locator('.chart .point').count()).toBe(31);
    await expect.poll(() => page.locator('.finding').count()).toBe(2);
    expect(complaints).toEqual([]);
  });

  it('tells where broken XML breaks and what to do, and takes the next file', async () => {
    const { page } = await open();
    await chooseFile(page, 'torn.musicxml', demo('musicxml').subarray(0, 5000));
    const refusal = page.getByRole('alert');
    await refusal.waitFor();
    await expect
      .poll(() => refusal.textContent())
      .toMatch(/torn\.musicxml cannot be used.*broken at line \d+.*Export/s);
    await chooseFile(page, 'whole.xml', IMPOSSIBLE);
    await page.locator('.chart').waitFor();
    await expect.poll(() => refusal.count()).toBe(0);
  });

  it('hands the keyboard on: to the heading of what was opened, and to one tab stop of the chart', async () => {
    const { page } = await open();
    await page.getByRole('button', { name: 'Show the demo piece' }).focus();
    await page.keyboard.press('Enter');
    await page.locator('.paper g.pedal-marking').first().waitFor();
    const focused = () => page.evaluate(() => document.activeElement?.tagName);
    await expect.poll(focused).toBe('H1');
    const stops = await page
      .locator('.chart .point')
      .evaluateAll((points) => points.map((point) => point.getAttribute('tabindex')));
    expect(stops.filter((stop) => stop === '0')).toHaveLength(1);
    expect(stops.length).toBeGreaterThan(5);
    await page.locator('.chart-pane').focus();
    await page.keyboard.press('Tab');
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('data-move'))).toBe('0');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.closest('.chart'))).toBeNull();
  });

  it('asks which part is the harp where the score does not say', async () => {
    const { page } = await open();
    await chooseFile(page, 'brook.xml', TWO_PARTS);
    await page.getByRole('button', { name: 'Lower brook (1 staff, 8 notes)' }).click();
    await page.locator('.paper g.pedal-marking').first().waitFor();
    // F sharp, then F natural: the one move of the lower part.
    const move = page.locator('.chart .point');
    await expect.poll(() => move.getAttribute('aria-label')).toMatch(/^F natural, right foot/);
  });

  it('names the harp that has no notes beside the parts that have some', async () => {
    const { page } = await open();
    await chooseFile(page, 'silent.musicxml', SILENT_HARP);
    const choice = page.locator('.parts');
    await choice.waitFor();
    expect(await choice.textContent()).toContain('The part Harp has no notes');
    expect(await choice.getByRole('button').allTextContents()).toEqual(['Lower brook (1 staff, 4 notes)']);
  });

  it('offers each harp of a score that has several, and keeps what was decided for each', async () => {
    const { page } = await open();
    const point = page.locator('.chart .point');
    const decided = page.locator('.decisions li .plain');
    await chooseFile(page, 'two-harps.xml', TWO_HARPS);
    const choice = page.locator('select[name=part]');
    await choice.waitFor();
    await expect
      .poll(() => choice.locator('option').allTextContents())
      .toEqual(['Harp, no. 1', 'Harp, no. 2']);
    await expect.poll(() => point.getAttribute('aria-label')).toMatch(/^F sharp/);
    await point.press('Shift+ArrowLeft');
    await expect.poll(() => decided.count()).toBe(1);
    await choice.selectOption('Harp, no. 2');
    await expect.poll(() => point.getAttribute('aria-label')).toMatch(/^C sharp/);
    await expect.poll(() => choice.locator('option:checked').textContent()).toBe('Harp, no. 2');
    await expect.poll(() => decided.count()).toBe(0);
    await page.locator('.sheet g.pedal-change[data-pedals="C♯"]').waitFor();
    await choice.selectOption('Harp, no. 1');
    await expect.poll(() => decided.allTextContents()).toEqual([expect.stringMatching(/^F♯ in/)]);
    // After another visit too.
    await page.reload();
    await chooseFile(page, 'two-harps.xml', TWO_HARPS);
    await expect.poll(() => decided.allTextContents()).toEqual([expect.stringMatching(/^F♯ in/)]);
    await choice.selectOption('Harp, no. 2');
    await expect.poll(() => point.getAttribute('aria-label')).toMatch(/^C sharp/);
    await expect.poll(() => decided.count()).toBe(0);
  });

  it('offers each movement of a file that has several, and asks for the pages of the one that is chosen', async () => {
    const { page } = await open();
    const point = page.locator('.chart .point');
    await watchOrders(page);
    await chooseFile(page, 'tides.mei', TWO_MOVEMENTS);
    const choice = page.locator('select[name=movement]');
    await choice.waitFor();
    await expect
      .poll(() => choice.locator('option').allTextContents())
      .toEqual(['all, the first is shown', '1. Ebb', '2. Flood']);
    await expect.poll(() => point.getAttribute('aria-label')).toMatch(/^F sharp/);
    await choice.selectOption('2. Flood');
    await expect.poll(() => point.getAttribute('aria-label')).toMatch(/^C sharp/);
    await expect.poll(async () => (await lastOrder(page))?.movement).toBe('2');
    await choice.selectOption('1. Ebb');
    await expect.poll(() => point.getAttribute('aria-label')).toMatch(/^F sharp/);
    await expect.poll(async () => (await lastOrder(page))?.movement).toBe('1');
    await choice.selectOption('all, the first is shown');
    await expect.poll(async () => (await lastOrder(page))?.movement).toBeUndefined();
    expect(await point.getAttribute('aria-label')).toMatch(/^F sharp/);
  });

  it('offers no choice of the part where one part is the harp', async () => {
    const { page } = await open();
    await chooseFile(page, 'small.xml', IMPOSSIBLE);
    await page.locator('.chart').waitFor();
    await expect.poll(() => page.locator('select[name=part]').count()).toBe(0);
  });

  it('keeps the plan and says so when the pages cannot be had', async () => {
    const { page } = await open();
    await page.route('**/v1/annotate*', (route) => route.abort());
    await chooseFile(page, 'small.xml', IMPOSSIBLE);
    await expect.poll(() => page.getByRole('alert').textContent()).toContain('plan below is still complete');
    await expect.poll(() => page.locator('.chart .point').count()).toBeGreaterThan(0);
    await page.unroute('**/v1/annotate*');
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.locator('.paper g.pedal-marking').first().waitFor();
  });

  it('draws a page without what could act: scripts, foreign content, event attributes, outside addresses', async () => {
    const { page } = await open();
    const evil =
      '<svg xmlns="http://www.w3.org/2000/svg" xmlns:x="http://www.w3.org/1999/xlink" width="210mm" height="297mm" onload="acted=1">' +
      '<script>acted=1</script><foreignObject><p>out</p></foreignObject><style>*{display:none}</style>' +
      '<use href="http://127.0.0.1:9/a.svg#b"/><a x:href="javascript:acted=1"><text>link</text></a>' +
      '<g id="kept" onclick="acted=1"><path d="M0 0h9" style="fill:url(http://127.0.0.1:9/)"/></g></svg>';
    await page.route('**/v1/annotate*', (route) => tellPage(route, evil));
    await chooseFile(page, 'small.xml', IMPOSSIBLE);
    await page.locator('.sheet .paper #kept').waitFor({ state: 'attached' });
    const drawn = await page.locator('.sheet .paper').evaluate((paper) => paper.shadowRoot!.innerHTML);
    expect(drawn).toContain('M0 0h9');
    expect(drawn).not.toMatch(/script|foreign|style|onload|onclick|127\.0\.0\.1|<a\b/i);
    await expect.poll(() => page.evaluate('typeof acted')).toBe('undefined');
  });
});

describePage('the first view', (open) => {
  it('shows what is done with a part, and weighs less than 100 kB', async () => {
    const { page, complaints } = await open({ fetchedNothing: true });
    const pictures = page.locator('.first-picture img');
    await expect
      .poll(() =>
        pictures.evaluateAll((all) => all.map((each) => (each as HTMLImageElement).naturalWidth > 0)),
      )
      .toEqual([true, true]);
    await page.waitForLoadState('networkidle');
    const bytes = await page.evaluate(() =>
      [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')]
        .map((entry) => (entry as PerformanceResourceTiming).transferSize)
        .reduce((sum, each) => sum + each, 0),
    );
    expect(bytes).toBeGreaterThan(10_000);
    expect(bytes).toBeLessThan(100_000);
    expect(complaints).toEqual([]);
  });

  it('is kept for good by the browser where the name tells the content, and asked for anew elsewhere', async () => {
    const { page } = await open();
    const caching = async (path: string): Promise<string | undefined> =>
      (await page.request.get(path)).headers()['cache-control'];
    const script = await page.locator('script[type=module]').getAttribute('src');
    expect(await caching(`${page.url()}${script}`)).toBe('public, max-age=31536000, immutable');
    expect(await caching(page.url())).toBe('no-cache');
  });
});
