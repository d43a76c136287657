import { buffer } from 'node:stream/consumers';
import { type Browser, chromium, type Download, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, inject } from 'vitest';
import { CHROMIUM } from '../chromium.ts';

export interface OpenedPage {
  readonly page: Page;
  /** What the browser complained of: errors of scripts, and what the page's policy refused. */
  readonly complaints: readonly string[];
}

export type OpenPage = (look?: {
  readonly scheme?: 'light' | 'dark';
  readonly width?: number;
  /** On a screen that is touched. */
  readonly touch?: boolean;
  /** The browser keeps the page for when the service is out of reach. */
  readonly offline?: boolean;
}) => Promise<OpenedPage>;

/** Describes the page in a real browser; skipped, saying so, where Debian's chromium is not installed. */
export const describePage = (name: string, tell: (open: OpenPage) => void): void => {
  const shared = inject('sharedPage');
  const skipped = `${name} (skipped: ${CHROMIUM} is not installed)`;
  describe.skipIf(shared === null)(shared === null ? skipped : name, () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await chromium.connect(shared!.browser);
    });
    afterAll(() => browser.close());
    tell(async ({ scheme = 'light', width = 1280, touch = false, offline = false } = {}) => {
      const context = await browser.newContext({
        viewport: { width, height: 900 },
        colorScheme: scheme,
        reducedMotion: 'reduce',
        hasTouch: touch,
        serviceWorkers: offline ? 'allow' : 'block',
      });
      const page = await context.newPage();
      page.setDefaultTimeout(30_000);
      const complaints: string[] = [];
      page.on('pageerror', (error) => complaints.push(String(error)));
      page.on('console', (message) => {
        // A refused request is told by the page itself.
        const { type, text } = { type: message.type(), text: message.text() };
        if (type === 'error' && !text.startsWith('Failed to load resource')) complaints.push(text);
      });
      await page.goto(shared!.service);
      return { page, complaints };
    });
  });
};

export const chooseFile = (page: Page, name: string, content: Uint8Array | string): Promise<void> =>
  page.locator('input[type=file]').setInputFiles({
    name,
    mimeType: 'application/octet-stream',
    buffer: Buffer.from(content),
  });

/** What was downloaded; it comes from the shared browser, whose files are not at hand. */
export const bytesOf = async (file: Download): Promise<Buffer> => buffer(await file.createReadStream());

export const openDemo = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Show the demo piece' }).click();
  await page.locator('.paper g.pedal-marking').first().waitFor();
};

export const openLeverDemo = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Show the lever harp demo' }).click();
  await page.locator('.paper g.lever-marking').first().waitFor();
};

export const detailOf = (page: Page) => page.locator('.detail');

/** Opens every group of the choices. */
export const openChoices = (page: Page): Promise<void> =>
  page.locator('.choices details').evaluateAll((groups) => {
    for (const group of groups) group.setAttribute('open', '');
  });
