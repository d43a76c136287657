import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { bytesOf, chooseFile, describePage, detailOf } from './open-page.ts';

/** Three tunes in the order of the file; the second has a lever change, and the third strings to retune. */
const BOOK = `X:1
T:Up the Lane
M:2/4
L:1/8
K:G
GABd|F2G2|]

X:2
T:Down the Lane
M:2/4
L:1/8
K:Eb
E2F2|^F4|G4|E4|]

X:3
T:Across
M:2/4
L:1/8
K:Db
D2G2|F4|D4|]
`;

const openBook = async (page: Page): Promise<void> => {
  await chooseFile(page, 'lane.abc', BOOK);
  await page.getByRole('heading', { name: 'Which tune?' }).waitFor();
};

const headingOf = (page: Page) => page.locator('.piece h1').textContent();

const titlesOf = (page: Page) => page.locator('.book tbody th').allTextContents();

/** What stands in the header, and which two of it lie over each other by what is seen of them. */
const overlapsInHeader = (page: Page): Promise<readonly string[]> =>
  page.locator('.workspace > header').evaluate((header) => {
    const boxes = [...header.querySelectorAll('h1, .piece > p, summary, .count, button, select')]
      .filter((part) => part.checkVisibility())
      .map((part) => {
        const seen = document.createRange();
        seen.selectNodeContents(part);
        const isField = part.matches('button, select');
        return { name: part.textContent, box: (isField ? part : seen).getBoundingClientRect() };
      });
    return boxes.flatMap(({ name, box }, i) =>
      boxes
        .slice(i + 1)
        .filter(
          ({ box: other }) =>
            box.left < other.right &&
            other.left < box.right &&
            box.top < other.bottom &&
            other.top < box.bottom,
        )
        .map((other) => `${name} and ${other.name}`),
    );
  });

describePage('a tune by itself on the page', (open) => {
  it('is opened for the lever harp, on another harp if the user says so, and stays as it was left', async () => {
    const { page, complaints } = await open();
    await chooseFile(page, 'lane.abc', BOOK.split('\n\n')[1]!);
    const harp = page.locator('select[name=instrument]');
    await page.locator('.paper g.lever-marking').first().waitFor();
    expect(await harp.inputValue()).toBe('lever-harp-34');
    await harp.selectOption('concert-harp');
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await page.reload();
    await page.locator('.paper g.pedal-marking').first().waitFor();
    expect(complaints).toEqual([]);
  });
});

describePage('a tune book on the page', (open) => {
  it('leads from tune to tune and back to the list, and remembers the place and what was decided', async () => {
    const { page, complaints } = await open();
    await openBook(page);
    await page.getByRole('button', { name: '1 Up the Lane' }).click();
    await expect.poll(() => headingOf(page)).toBe('Up the Lane');
    // The harp that is chosen here stays for the tunes after it.
    await page.locator('select[name=instrument]').selectOption('concert-harp');
    await page.locator('.chart .lane').first().waitFor();
    await page.locator('.sheet g.note .notehead').nth(1).click();
    await detailOf(page).getByRole('button', { name: 'Leave it out' }).click();
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    const next = page.getByRole('button', { name: 'Next tune' });
    await next.click();
    await expect.poll(() => headingOf(page)).toBe('Down the Lane');
    expect(await page.locator('.decisions li .plain').count()).toBe(0);
    await expect.poll(() => next.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(await page.locator('.book-steps .count').textContent()).toBe('Tune 2 of 3');
    await page.getByRole('button', { name: 'Previous tune' }).click();
    await expect.poll(() => headingOf(page)).toBe('Up the Lane');
    await expect.poll(() => page.locator('.decisions li .plain').count()).toBe(1);
    await next.click();
    await expect.poll(() => headingOf(page)).toBe('Down the Lane');
    await page.getByRole('button', { name: 'All tunes' }).click();
    const last = page.getByRole('button', { name: '2 Down the Lane' });
    await expect.poll(() => last.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(complaints).toEqual([]);
  });

  it('leads back to the list by the browser’s Back, and stays in the tune when it is reloaded', async () => {
    const { page } = await open();
    await openBook(page);
    await page.getByRole('button', { name: '3 Across' }).click();
    await page.locator('.sheet g.note').first().waitFor();
    await page.reload();
    await expect.poll(() => headingOf(page)).toBe('Across');
    await expect.poll(() => page.locator('.book-steps .count').textContent()).toBe('Tune 3 of 3');
    expect(await page.getByRole('button', { name: 'Next tune' }).getAttribute('aria-disabled')).toBe('true');
    await page.goBack();
    await page.getByRole('heading', { name: 'Which tune?' }).waitFor();
  });

  it('leaves the title and the difficulty of a tune their width beside all that can be opened', async () => {
    const { page } = await open();
    await openBook(page);
    await page.getByRole('button', { name: '2 Down the Lane' }).click();
    await page.locator('.book-steps').waitFor();
    for (const width of [1280, 1100]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await overlapsInHeader(page), `${width} px`).toEqual([]);
      const difficulty = page.locator('.difficulty');
      const cut = await difficulty.evaluate((line) => line.scrollWidth - line.clientWidth);
      expect(cut, `what is cut off of the difficulty at ${width} px`).toBe(0);
      expect((await difficulty.boundingBox())!.height, `one line at ${width} px`).toBeLessThan(30);
    }
  });

  it('brings the table into view on a telephone, where it stands below what it is asked for with', async () => {
    const { page } = await open({ width: 390, touch: true });
    await chooseFile(page, 'book.abc', BOOK);
    await page.getByRole('button', { name: 'Show what each tune asks of the levers' }).click();
    await page.locator('.book table').waitFor();
    const top = () => page.locator('.book table').evaluate((table) => table.getBoundingClientRect().top);
    await expect.poll(top).toBeLessThan(450);
  });

  it('shows what each tune asks of a lever harp, sorted and filtered, and opens tunes in that order', async () => {
    const { page, complaints } = await open();
    await openBook(page);
    await page.getByRole('button', { name: 'Show what each tune asks of the levers' }).click();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Down the Lane', 'Across']);
    expect(await violations(page), 'the table of a book').toEqual([]);
    await page.getByRole('button', { name: 'Changes', exact: true }).click();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Across', 'Down the Lane']);
    expect(await page.locator('th[aria-sort]').textContent()).toContain('Changes');
    await page.getByLabel('no string to retune').check();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Down the Lane']);
    await page.getByLabel('no more changes than').fill('0');
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane']);
    await page.getByLabel('no string to retune').uncheck();
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Table (CSV)' }).click();
    const csv = (await bytesOf(await saved)).toString();
    expect(csv.split('\r\n').map((line) => line.split(',')[2])).toEqual([
      'title',
      'Up the Lane',
      'Across',
      undefined,
    ]);
    await page.getByRole('button', { name: 'Across' }).click();
    // It is opened for the harp of the table.
    await expect.poll(() => page.locator('select[name=instrument]').inputValue()).toBe('lever-harp-34');
    expect(await page.locator('.book-steps .count').textContent()).toBe('Tune 2 of 2');
    await page.getByRole('button', { name: 'All tunes' }).click();
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane', 'Across']);
    await page.getByLabel('Find').fill('lane');
    await expect.poll(() => titlesOf(page)).toEqual(['Up the Lane']);
    await page.getByRole('button', { name: 'Back to the plain list' }).click();
    await expect.poll(() => page.locator('.book li').count()).toBe(2);
    expect(complaints).toEqual([]);
  });

  it('opens a tune of the plain list on the lever harp that is named above it', async () => {
    const { page } = await open();
    await openBook(page);
    await page.getByLabel('Lever harp').selectOption('lever-harp-27');
    await page.getByRole('button', { name: '1 Up the Lane' }).click();
    await expect.poll(() => page.locator('select[name=instrument]').inputValue()).toBe('lever-harp-27');
  });

  it('puts a set in the order with the fewest changes, by keyboard, says what to set, and prints it', async () => {
    const { page, complaints } = await open({ width: 390 });
    await openBook(page);
    await page.getByRole('button', { name: 'Show what each tune asks of the levers' }).click();
    const set = page.getByRole('region', { name: 'A set' });
    await set.waitFor();
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth),
      'nothing beside a narrow screen',
    ).toBe(390);
    for (const title of ['Up the Lane', 'Down the Lane']) {
      await page.getByRole('checkbox', { name: `Take ${title} into the set` }).focus();
      await page.keyboard.press('Space');
    }
    await set.getByText('2 tunes marked').waitFor();
    await set.getByRole('button', { name: 'Find the best order' }).focus();
    await page.keyboard.press('Enter');
    await set.getByText('between the tunes: no order needs fewer.').waitFor();
    // It stands below the tunes that are marked, and what is found comes into view.
    const edges = (name: string) =>
      page.locator(name).evaluate((part) => part.getBoundingClientRect().toJSON());
    expect((await edges('.set')).top).toBeGreaterThanOrEqual((await edges('.book table')).bottom);
    await expect.poll(async () => (await edges('.set ol')).bottom).toBeLessThanOrEqual(900);
    expect((await edges('.set ol')).top).toBeGreaterThanOrEqual(0);
    expect(await set.locator('ol button').allTextContents()).toEqual(['Down the Lane', 'Up the Lane']);
    // The second tune finds F4 up, as the first left it.
    expect(await set.locator('ol .before').allTextContents()).toEqual(['Levers up: A♮4, B♮4', 'Set nothing']);
    expect(await violations(page), 'a set').toEqual([]);
    const print = async (): Promise<Buffer> => {
      const saved = page.waitForEvent('download');
      await set.getByRole('button', { name: 'Set to print (PDF)' }).click();
      return bytesOf(await saved);
    };
    const table = await print();
    expect(table.subarray(0, 5).toString()).toBe('%PDF-');
    await set.getByLabel('Music of the tunes').selectOption({ label: 'their first bars' });
    // Music takes much more than the words of the table.
    expect((await print()).length).toBeGreaterThan(1.5 * table.length);
    // Another tune makes another set; what was found for the first is no longer shown.
    await page.getByRole('checkbox', { name: 'Take Across into the set' }).check();
    expect(await set.locator('ol').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('opens a tune of a set in the tuning of the set, and leads on in its order', async () => {
    const { page } = await open();
    await openBook(page);
    await page.getByRole('button', { name: 'Show what each tune asks of the levers' }).click();
    const set = page.getByRole('region', { name: 'A set' });
    for (const title of ['Up the Lane', 'Across'])
      await page.getByRole('checkbox', { name: `Take ${title} into the set` }).check();
    const tunings = set.getByLabel('Strings tuned in').locator('option');
    const tuning = (await tunings.allTextContents()).find((name) => !/^as |E♭ major/u.test(name))!;
    await set.getByLabel('Strings tuned in').selectOption(tuning);
    await set.getByRole('button', { name: 'Find the best order' }).click();
    const order = set.locator('ol button');
    await order.first().waitFor();
    const titles = await order.allTextContents();
    await order.first().click();
    await expect.poll(() => headingOf(page)).toBe(titles[0]);
    await expect.poll(() => page.locator('.piece').textContent()).toContain(`Tuned in ${tuning}`);
    expect(await page.locator('.book-steps .count').textContent()).toBe('Tune 1 of 2');
    await page.getByRole('button', { name: 'Next tune' }).click();
    await expect.poll(() => headingOf(page)).toBe(titles[1]);
    await expect.poll(() => page.locator('.piece').textContent()).toContain(`Tuned in ${tuning}`);
    // A tune of the list has the tuning that suits it.
    await page.getByRole('button', { name: 'All tunes' }).click();
    await page.locator('.book tbody').getByRole('button', { name: 'Up the Lane' }).click();
    await expect.poll(() => page.locator('.piece').textContent()).toContain('Tuned in E♭ major');
  });

  it('offers tunes that fit together as a set', async () => {
    const { page } = await open();
    await chooseFile(page, 'lane.abc', `${BOOK}\nX:4\nT:By the Lane\nM:2/4\nL:1/8\nK:G\nGABd|F4|]\n`);
    await page.getByRole('button', { name: 'Show what each tune asks of the levers' }).click();
    const set = page.getByRole('region', { name: 'A set' });
    await set.getByText('Tunes that fit together').click();
    await set.getByText('Up the Lane; By the Lane').waitFor();
    await set.getByRole('button', { name: 'Take these' }).click();
    await set.getByText('2 tunes marked').waitFor();
    await set.getByRole('button', { name: 'Find the best order' }).click();
    await set.getByText('0 lever changes between the tunes').waitFor();
  });
});
