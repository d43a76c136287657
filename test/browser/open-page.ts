import { existsSync } from 'node:fs';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { type PageService, startPageService } from './page-service.ts';

const CHROMIUM = '/usr/bin/chromium';

const QUIET = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // The last such switch holds, so that what playwright switches off is named again: requests to others, and upgrades of http.
  `--disable-features=${[
    // Two pages of the browser's own, under its address bar, that it would start anew with every window.
    'WebUIOmniboxPopup',
    'WebUIOmniboxAimPopup',
    'AimEnabled',
    'DestroyProfileOnBrowserClose',
    'HttpsFirstBalancedModeAutoEnable',
    'HttpsUpgrades',
    'LensOverlay',
    'MediaRouter',
    'NetworkTimeServiceQuerying',
    'OptimizationHints',
    'PaintHolding',
    'PreconnectToSearch',
  ].join(',')}`,
];

interface Started {
  readonly service: PageService;
  readonly browser: Browser;
}

let started: Promise<Started> | null = null;

/** One browser and one service for all that a file describes. */
const start = (): Promise<Started> => {
  started ??= Promise.all([
    startPageService(),
    chromium.launch({ executablePath: CHROMIUM, args: QUIET }),
  ]).then(([service, browser]) => ({ service, browser }));
  return started;
};

const stop = async (): Promise<void> => {
  const both = await started;
  await both?.browser.close();
  await both?.service.close();
};

// Each file of tests has this module for itself.
afterAll(stop);

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
  const present = existsSync(CHROMIUM);
  describe.skipIf(!present)(present ? name : `${name} (skipped: ${CHROMIUM} is not installed)`, () => {
    let service: PageService;
    let browser: Browser;
    beforeAll(async () => {
      ({ service, browser } = await start());
    });
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
      await page.goto(service.url);
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

export const openDemo = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Show the demo piece' }).click();
  await page.locator('.paper g.pedal-marking').first().waitFor();
};

export const detailOf = (page: Page) => page.locator('.detail');

/** Opens every group of the choices. */
export const openChoices = (page: Page): Promise<void> =>
  page.locator('.choices details').evaluateAll((groups) => {
    for (const group of groups) group.setAttribute('open', '');
  });
