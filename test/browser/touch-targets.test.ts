import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { chooseFile, describePage, openChoices, openLeverDemo } from './open-page.ts';
import { IMPOSSIBLE, TWO_HARPS } from './small-scores.ts';

/** What a finger needs at the least, and what a control gets that is no part of a text or drawing: px. */
const LEAST = 24;
const ROOMY = 36;

/**
 * Every control in sight that is smaller than that, as its words and its size: px. A box is touched with its words beside
 * it. A move in the chart has no more room than its lane.
 */
const tooSmall = (page: Page): Promise<string[]> =>
  page.evaluate(
    ([least, roomy]) => {
      const controls = 'button, select, input, summary, a[href], [role=button], [role=menuitem]';
      return [...document.querySelectorAll(controls)].flatMap((control) => {
        if (!control.checkVisibility({ visibilityProperty: true })) return [];
        const touched = control.matches('[type=checkbox], [type=radio]')
          ? (control.closest('label') ?? control)
          : control;
        const { width, height } = touched.getBoundingClientRect();
        if (width <= 1 || height <= 1) return [];
        const isDrawn = control instanceof SVGElement;
        const isFine = width >= least! && height >= (isDrawn ? least! : roomy!);
        const name = control.getAttribute('aria-label') ?? control.textContent;
        return isFine ? [] : [`${control.localName}.${control.className} “${name}”: ${width} × ${height}`];
      });
    },
    [LEAST, ROOMY] as const,
  );

/** Every text that the ring about a control would lie on, with the control: a ring is 2 px wide, 2 px away. */
const coveredByRings = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const texts: { readonly node: Text; readonly box: DOMRect }[] = [];
    const isClipped = (at: Element | null): boolean =>
      at !== null && (getComputedStyle(at).clipPath !== 'none' || isClipped(at.parentElement));
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (
      let node = walker.nextNode() as Text | null;
      node !== null;
      node = walker.nextNode() as Text | null
    ) {
      const around = node.parentElement!;
      if (node.data.trim() === '' || !around.checkVisibility({ visibilityProperty: true })) continue;
      if (isClipped(around)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) if (box.width > 1) texts.push({ node, box });
    }
    return [...document.querySelectorAll('button, select, input, summary, a[href]')].flatMap((control) => {
      const layer = control.closest('.steps, .detail, .listen.open, dialog');
      const own = control.getBoundingClientRect();
      if (!control.checkVisibility({ visibilityProperty: true }) || own.width <= 1) return [];
      return texts.flatMap(({ node, box }) => {
        if (
          control.contains(node) ||
          node.parentElement!.closest('.steps, .detail, .listen.open, dialog') !== layer
        )
          return [];
        // The letters themselves are lower than their line by a fifth.
        const clear = box.height / 5;
        const across = Math.min(own.right + 4, box.right) - Math.max(own.left - 4, box.left);
        const down = Math.min(own.bottom + 4, box.bottom - clear) - Math.max(own.top - 4, box.top + clear);
        return across > 1 && down > 1
          ? [`“${node.data}” by ${control.localName} “${control.textContent}”`]
          : [];
      });
    });
  });

const check = async (page: Page, view: string): Promise<void> => {
  expect.soft(await tooSmall(page), view).toEqual([]);
  expect.soft(await coveredByRings(page), view).toEqual([]);
};

describePage(
  'everything that is touched has room for a finger, and no ring about it covers words,',
  (open) => {
    it('in every view of a part for the pedal harp', async () => {
      const { page } = await open({ width: 390, touch: true });
      await check(page, 'the first view');
      await chooseFile(page, 'two-harps.musicxml', TWO_HARPS);
      await page.locator('.chart .point').first().waitFor();
      const button = (name: string) => page.getByRole('button', { name });
      await button('About the piece').click();
      await openChoices(page);
      await page.getByText('Add a decision', { exact: true }).click();
      await button('Explore a setting').click();
      await button('Compare plans, keep variants').click();
      await page.locator('.other-plans select').first().waitFor();
      await check(page, 'a piece with all forms open');
      await page.locator('.chart .point').first().focus();
      await page.locator('.detail.filled').waitFor();
      await check(page, 'a move');
      await button('Listen to the part').click();
      await page.locator('.player').waitFor();
      await check(page, 'the player');
    });

    it('in findings and in a part for the lever harp', async () => {
      const { page } = await open({ width: 390, touch: true });
      await openLeverDemo(page);
      await check(page, 'the lever harp');
      await chooseFile(page, 'impossible.musicxml', IMPOSSIBLE);
      await page.locator('.finding').first().click();
      await check(page, 'a finding');
    });
  },
);
