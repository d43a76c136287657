import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { describePage, openDemo, openLeverDemo, openWholeDemo, sharePage } from './open-page.ts';

const decisions = (page: Page): Promise<string[]> => page.locator('.decisions li .plain').allTextContents();

/** B flat in bar 10 of the demo; it may be made from bar 8 on. */
const B_FLAT = '.pedal-change[data-pedals="B♭"][data-bar="10"]';

const middleOf = async (page: Page, selector: string) => {
  const box = (await page.locator(selector).first().boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

const takeAndPull = async (page: Page, selector: string, target: { readonly x: number }): Promise<void> => {
  await page.locator(selector).first().scrollIntoViewIfNeeded();
  const { x, y } = await middleOf(page, selector);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move((x + target.x) / 2, y, { steps: 3 });
  await page.mouse.move(target.x, y, { steps: 3 });
};

/** Pages of an earlier plan show what is no more: their markings are not moved. */
const freshPages = (page: Page) =>
  expect.poll(() => page.locator('.pages').getAttribute('aria-busy')).toBe('false');

/** The options of what the page asks of the service from here on: of a form with a file the browser shows no body. */
const watchOptions = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const ask = window.fetch;
    window.fetch = (address, request) => {
      if (request?.body instanceof FormData)
        document.body.dataset.asked = String(request.body.get('options'));
      return ask(address, request);
    };
  });

const optionsAsked = async (page: Page): Promise<unknown> =>
  JSON.parse((await page.locator('body').getAttribute('data-asked')) ?? '{}');

const demo = sharePage(openDemo);
const leverDemo = sharePage(openLeverDemo);

describePage('a change that is dragged on the page', (open) => {
  it('goes to the note under the pointer, with the stretch shown in which it may be made', async () => {
    const { page, complaints } = await open();
    await openWholeDemo(page);
    await page.locator(B_FLAT).waitFor();
    await page.locator(B_FLAT).scrollIntoViewIfNeeded();
    // Three quarters into the bar before the one it stands in.
    const bar = (await page.locator('#b9').boundingBox())!;
    await takeAndPull(page, B_FLAT, { x: bar.x + 0.76 * bar.width });
    expect(await page.locator('.page-drag .allowed').count()).toBeGreaterThan(0);
    await expect.poll(() => page.locator('.page-drag p').textContent()).toMatch(/^B♭ in bar 9, beat [34]/);
    await page.mouse.up();
    await expect.poll(() => decisions(page)).toHaveLength(1);
    expect((await decisions(page))[0]).toMatch(/^B♭ in bar 9, beat [34]/);
    await page.locator('.pedal-change[data-pedals="B♭"][data-bar="9"]').waitFor();
    expect(complaints).toEqual([]);
  });

  it('goes no further than the notes let it, and says which note that is', async () => {
    const { page } = await demo();
    await page.locator(B_FLAT).waitFor();
    await page.locator(B_FLAT).scrollIntoViewIfNeeded();
    const bar = (await page.locator('#b12').boundingBox())!;
    await takeAndPull(page, B_FLAT, { x: bar.x + 0.9 * bar.width });
    await expect
      .poll(() => page.locator('.page-drag p').textContent())
      .toMatch(/: before B♭\d in bar \d+, the first note that needs the new one$/);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await page.locator('.page-drag').count()).toBe(0);
    expect(await decisions(page)).toEqual([]);
  });

  it('stays as it was where it is let go at its own place, on the page and in the chart: nothing is decided', async () => {
    const { page } = await demo();
    for (const marking of [B_FLAT, '.chart .point']) {
      await page.locator(marking).first().waitFor();
      await page.locator(marking).first().scrollIntoViewIfNeeded();
      const { x } = await middleOf(page, marking);
      await takeAndPull(page, marking, { x: x - 12 });
      await page.mouse.move(x, (await middleOf(page, marking)).y, { steps: 3 });
      await page.mouse.up();
      expect(await page.locator('.page-drag, .point.dragged').count()).toBe(0);
      expect(await decisions(page)).toEqual([]);
      expect(await page.getByRole('button', { name: /^Undo: / }).count()).toBe(0);
    }
  });

  it('goes by key too, its page drawn first and the focus kept, and is let go by Delete', async () => {
    const { page } = await demo();
    await page.locator(B_FLAT).waitFor();
    await page.locator(B_FLAT).first().focus();
    await watchOptions(page);
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => optionsAsked(page)).toMatchObject({ pageOfBar: 9 });
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3½']);
    await page.locator('.pedal-change[data-pedals="B♭"][data-beat="7/2"]').waitFor();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3']);
    await page.locator('.pedal-change[data-pedals="B♭"][data-beat="3"]').waitFor();
    await page.keyboard.press('Delete');
    await expect.poll(() => decisions(page)).toEqual([]);
  });
});

/** D natural in bar 41 of the demo, at the head of the fifth page in the large notes of a narrow screen; it may be made in bar 40 too. */
const D_NATURAL = '.pedal-change[data-pedals="D♮"][data-bar="41"]';

/** Shows the fifth page of the demo in large notes, with the end of the fourth above it. */
const showEdge = async (page: Page): Promise<void> => {
  await page.locator('.pages').scrollIntoViewIfNeeded();
  await page.locator('.sheet').nth(4).scrollIntoViewIfNeeded();
  await page.locator(D_NATURAL).waitFor();
  await page.locator('.pages').evaluate((pane) => {
    const sheet = pane.querySelectorAll('.sheet')[4]!.getBoundingClientRect();
    pane.scrollTop += sheet.top - pane.getBoundingClientRect().top - 0.55 * pane.clientHeight;
  });
};

/** Three quarters into bar 40, on the page before. */
const inBarForty = async (page: Page) => {
  const bar = (await page.locator('#b40').boundingBox())!;
  return { x: bar.x + 0.8 * bar.width, y: bar.y + bar.height / 2 };
};

describePage('a change that is dragged over the edge of its page', (open) => {
  it('goes to a note of the page before, by mouse', async () => {
    const { page, complaints } = await open({ width: 390 });
    await openWholeDemo(page);
    await page.locator('.sheet').nth(5).waitFor({ state: 'attached' });
    await freshPages(page);
    await showEdge(page);
    const from = await middleOf(page, D_NATURAL);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x, from.y - 30, { steps: 3 });
    // What is taken hold of is looked at, and comes wholly into view by that.
    const to = await inBarForty(page);
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await expect.poll(() => page.locator('.page-drag p').textContent()).toMatch(/^D♮ in bar 40/);
    await page.mouse.up();
    await expect.poll(() => decisions(page)).toHaveLength(1);
    expect((await decisions(page))[0]).toMatch(/^D♮ in bar 40/);
    expect(complaints).toEqual([]);
  });

  it('goes there by finger too, and the pages do not scroll away under it', async () => {
    const { page, complaints } = await open({ width: 390, touch: true });
    await openWholeDemo(page);
    await page.locator('.sheet').nth(5).waitFor({ state: 'attached' });
    await freshPages(page);
    await showEdge(page);
    const [from, to] = [await middleOf(page, D_NATURAL), await inBarForty(page)];
    const touch = await page.context().newCDPSession(page);
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]) =>
      touch.send('Input.dispatchTouchEvent', { type, touchPoints: points });
    await send('touchStart', [from]);
    for (const share of [0.2, 0.5, 0.8, 1]) {
      await send('touchMove', [{ x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) }]);
    }
    await expect.poll(() => page.locator('.page-drag p').textContent()).toMatch(/^D♮ in bar 40/);
    await send('touchEnd', []);
    await expect.poll(() => decisions(page)).toHaveLength(1);
    expect(complaints).toEqual([]);
  });
});

describePage('a key on pages that are being redrawn', () => {
  it('steps the change that is looked at from where it is by now', async () => {
    const { page } = await demo();
    await page.locator(B_FLAT).first().focus();
    for (let times = 0; times < 2; times += 1) await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3']);
  });

  it('is answered in words where it can do nothing', async () => {
    const { page } = await demo();
    await page.locator('.paper g.pedal-marking[data-kind="setting"]').first().focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await page.getByText('This marking stays where it is.').waitFor();
  });
});

describePage('what can be done with something on the page', () => {
  it('stands beside it at a click of the other button: a move later, a note left out', async () => {
    const { page } = await demo();
    await page.locator(B_FLAT).first().click({ button: 'right' });
    const atHand = page.getByRole('dialog', { name: 'What can be done here' });
    await atHand.getByRole('button', { name: 'Earlier' }).click();
    await expect.poll(() => decisions(page)).toEqual(['B♭ in bar 10, beat 3½']);
    expect(await atHand.count()).toBe(0);
    await page.locator('.pedal-change[data-pedals="B♭"][data-beat="7/2"]').waitFor();
    await page.locator('#b8s2e1 .notehead').first().click({ button: 'right' });
    await atHand.waitFor();
    await page.keyboard.press('Escape');
    expect(await atHand.count()).toBe(0);
  });
});

/** The first lever change of the demo, F sharp in bar 9. */
const LEVER = '.paper g.lever-marking[data-onset]:not([data-onset="0"])';

describePage('a change of a lever that is dragged on the page', () => {
  it('goes to the note under the pointer, with the stretch shown in which it may be made', async () => {
    const { page, complaints } = await leverDemo();
    await page.locator(LEVER).first().scrollIntoViewIfNeeded();
    const { x } = await middleOf(page, LEVER);
    await takeAndPull(page, LEVER, { x: x - 30 });
    expect(await page.locator('.page-drag .allowed').count()).toBeGreaterThan(0);
    await expect.poll(() => page.locator('.page-drag p').textContent()).toMatch(/bar [89], beat/i);
    await page.mouse.up();
    await expect.poll(() => decisions(page)).toHaveLength(1);
    expect((await decisions(page))[0]).toMatch(/^F4 lever up in bar [89], beat/);
    expect(complaints).toEqual([]);
  });

  it('tells before it is let go what could not be played there', async () => {
    const { page } = await leverDemo();
    await page.locator('.chart .point').first().scrollIntoViewIfNeeded();
    const { x, y } = await middleOf(page, '.chart .point');
    await page.mouse.move(x, y);
    await page.mouse.down();
    const trouble = page.locator('.pedals .tools .stop');
    // To every moment of the stretch, until the hand that sets the lever is at the strings.
    for (let by = 4; by <= 40 && (await trouble.count()) === 0; by += 4) {
      await page.mouse.move(x - by, y);
      // Planned in another thread, and gone again once the pointer has gone on.
      await trouble.waitFor({ timeout: 1_500 }).catch(() => {});
    }
    expect(await trouble.textContent()).toMatch(/^ ?Not playable there: /u);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await decisions(page)).toEqual([]);
  });

  it('stays where it was when Escape is pressed on the way', async () => {
    const { page } = await leverDemo();
    await page.locator(LEVER).first().scrollIntoViewIfNeeded();
    const { x } = await middleOf(page, LEVER);
    await takeAndPull(page, LEVER, { x: x - 30 });
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await page.locator('.page-drag').count()).toBe(0);
    expect(await decisions(page)).toEqual([]);
  });

  it('goes by key to another moment, is undone by name, and is let go by Delete', async () => {
    const { page } = await leverDemo();
    await freshPages(page);
    await page.locator(LEVER).first().focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => decisions(page)).toHaveLength(1);
    await page.getByRole('button', { name: /^Undo: / }).click();
    await expect.poll(() => decisions(page)).toEqual([]);
    await freshPages(page);
    await page.locator(LEVER).first().focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => decisions(page)).toHaveLength(1);
    await freshPages(page);
    await page.locator(LEVER).first().focus();
    await page.keyboard.press('Delete');
    await expect.poll(() => decisions(page)).toEqual([]);
  });

  it('has what can be done with it beside it at a click of the other button', async () => {
    const { page } = await leverDemo();
    await page.locator(LEVER).first().click({ button: 'right' });
    const atHand = page.getByRole('dialog', { name: 'What can be done here' });
    await atHand.getByRole('button', { name: 'Give it to the right hand' }).click();
    await expect.poll(() => decisions(page)).toEqual(['F4 lever up in bar 9, beat 4, by the right hand']);
    expect(await atHand.count()).toBe(0);
  });
});
