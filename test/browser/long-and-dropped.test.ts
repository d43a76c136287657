import { expect, it } from 'vitest';
import { writeLongPart } from '../bench/long-part.ts';
import { chooseFile, describePage } from './open-page.ts';
import { IMPOSSIBLE } from './small-scores.ts';

const BARS = 930;

describePage('a score of fifty pages and more', (open) => {
  it('draws the pages that come into view, and no others', { timeout: 240_000 }, async () => {
    const { page, complaints } = await open();
    page.setDefaultTimeout(180_000);
    await chooseFile(page, 'long.musicxml', writeLongPart(BARS));
    const markings = page.locator('.sheet .paper g.pedal-marking');
    await markings.first().waitFor();
    const pages = await page.locator('.sheet').count();
    expect(pages).toBeGreaterThanOrEqual(50);
    const drawn = (): Promise<number> =>
      page
        .locator('.sheet .paper')
        .evaluateAll((sheets) => sheets.filter((sheet) => sheet.shadowRoot?.querySelector('svg')).length);
    await expect.poll(() => drawn()).toBeLessThan(8);
    await page.locator('.sheet').last().scrollIntoViewIfNeeded();
    await page.locator('.sheet').last().locator('.paper svg').first().waitFor();
    await expect.poll(() => drawn()).toBeLessThan(14);
    expect(complaints).toEqual([]);
    await page.context().close();
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
    await page.context().close();
  });
});
