import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { textWidth } from '../../render/text/glyphs.ts';
import { describePage, openDemo } from './open-page.ts';

const DEMO = readFileSync(new URL('../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url));
const TITLE = 'Lanterns at the Lock';

/** Opens the first page of the demo as the service sends it, with the policy that it sends, as a document of its own. */
const openDrawing = async (page: Page): Promise<void> => {
  const { origin } = new URL(page.url());
  const answer = await page.request.post(`${origin}/v1/annotate`, {
    headers: { 'content-type': 'application/octet-stream', accept: 'image/svg+xml' },
    data: DEMO,
  });
  expect(answer.status()).toBe(200);
  const headers = answer.headers();
  const policy = headers['content-security-policy']!;
  expect(policy).toContain("default-src 'none'");
  await page.route('**/drawing.svg', async (route) =>
    route.fulfill({
      headers: { 'content-type': headers['content-type']!, 'content-security-policy': policy },
      body: await answer.body(),
    }),
  );
  await page.goto(`${origin}/drawing.svg`);
};

/** The width of a word as set, in ems. */
const emsOf = (page: Page, words: string): Promise<number> =>
  page.locator('text', { hasText: words }).evaluateAll((texts, wanted) => {
    const spans = texts.flatMap((text) => [...text.querySelectorAll('tspan')]);
    const span = spans.findLast((each) => each.textContent?.trim() === wanted)!;
    return span.getComputedTextLength() / Number.parseFloat(getComputedStyle(span).fontSize);
  }, words);

const EMS = textWidth(TITLE, { style: 'regular', sizeUnits: 1 });

describePage('the words of a drawn page, on a machine with whatever fonts', (open) => {
  it('stand in the letters that the page brings, each face of them', async () => {
    const { page, complaints } = await open();
    await openDrawing(page);
    const faces = await page.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].map(({ family, style, weight, status }) => [family, style, weight, status]);
    });
    expect(faces).toEqual([
      ['Tinos', 'normal', '400', 'loaded'],
      ['Tinos', 'normal', '700', 'loaded'],
      ['Tinos', 'italic', '400', 'loaded'],
    ]);
    await expect.poll(() => emsOf(page, TITLE)).toBeCloseTo(EMS, 1);
    expect(complaints).toEqual([]);
  });

  it('have the same width in the program', async () => {
    const { page, complaints } = await open();
    await openDemo(page);
    const loaded = await page.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].filter(({ status }) => status === 'loaded').map(({ family }) => family);
    });
    expect(loaded).toEqual(['Tinos', 'Tinos', 'Tinos']);
    await expect.poll(() => emsOf(page, TITLE)).toBeCloseTo(EMS, 1);
    expect(complaints).toEqual([]);
  });
});
