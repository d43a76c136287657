import { expect, it } from 'vitest';
import { writeLongPart } from '../bench/long-part.ts';
import { isThorough } from '../thorough.ts';
import { chooseFile, describePage } from './open-page.ts';
import { IMPOSSIBLE } from './small-scores.ts';

const BARS = isThorough ? 930 : 310;

/** Notes what is there when the first page comes. Run by the page: this process draws meanwhile. */
const WATCH_FIRST_PAGE = `
  const watch = new MutationObserver(() => {
    const sheets = document.querySelectorAll('.sheet').length;
    if (sheets === 0) return;
    const bar = document.querySelector('.score progress');
    globalThis.firstSight = { sheets, ready: bar?.value ?? null, of: bar?.max ?? null };
    watch.disconnect();
  });
  watch.observe(document.body, { subtree: true, childList: true });
`;

describePage('a score of many pages', (open) => {
  it('shows the first page before the others are laid out, and draws those that come into view', {
    timeout: 240_000,
  }, async () => {
    const { page, complaints } = await open();
    page.setDefaultTimeout(180_000);
    await page.evaluate(`{${WATCH_FIRST_PAGE}}`);
    await chooseFile(page, 'long.musicxml', writeLongPart(BARS));
    await page.getByRole('progressbar', { name: 'Laying out the pages …' }).waitFor();
    const markings = page.locator('.sheet .paper g.pedal-marking');
    await markings.first().waitFor();
    await page.getByText(/pages are ready/).waitFor();
    const { sheets, ready, of } =
      await page.evaluate<Record<'sheets' | 'ready' | 'of', number | null>>('firstSight');
    expect([sheets, ready]).toEqual([1, 1]);
    expect(of).toBeGreaterThan(BARS / 25);
    expect(await page.locator('.score progress').count()).toBe(0);
    const pages = await page.locator('.sheet').count();
    expect(pages).toBeGreaterThan(BARS / 20);
    const drawn = (): Promise<number> =>
      page
        .locator('.sheet .paper')
        .evaluateAll((sheets) => sheets.filter((sheet) => sheet.shadowRoot?.querySelector('svg')).length);
    await expect.poll(() => drawn()).toBeLessThan(8);
    await page.locator('.sheet').last().scrollIntoViewIfNeeded();
    await page.locator('.sheet').last().locator('.paper svg').first().waitFor();
    await expect.poll(() => drawn()).toBeLessThan(14);
    expect(complaints).toEqual([]);
  });
});

describePage('a file that is dropped on the page', (open) => {
  it('is opened wherever it falls, and so is the next one', async () => {
    const { page } = await open();
    const drop = async (name: string, text: string): Promise<void> => {
      const transfer = await page.evaluateHandle(
        ([fileName, content]) => {
          const data = new DataTransfer();
          data.items.add(new File([content!], fileName!));
          return data;
        },
        [name, text],
      );
      await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
    };
    await drop('first.xml', IMPOSSIBLE);
    await page.locator('.chart .point').first().waitFor();
    await drop('second.xml', 'no score at all');
    await expect.poll(() => page.getByRole('alert').first().textContent()).toContain('second.xml');
  });
});
