import { buffer } from 'node:stream/consumers';
import { type Browser, type BrowserContext, chromium, type Download, type Page } from 'playwright-core';
import { afterAll, afterEach, describe, expect, inject } from 'vitest';
import { CHROMIUM } from '../chromium.ts';
import { demoBeginning } from '../demo-score.ts';

export interface OpenedPage {
  readonly page: Page;
  /** What the browser complained of: errors of scripts, and what the page's policy refused. */
  readonly complaints: readonly string[];
}

interface Look {
  readonly width?: number;
  /** On a screen that is touched. */
  readonly touch?: boolean;
  /** The browser keeps the page for when the service is out of reach. */
  readonly offline?: boolean;
  /** In a browser that has fetched nothing of it before. */
  readonly fetchedNothing?: boolean;
}

/** Opens the page as one who comes for the first time; what is open in the same test is another person's browser. */
export type OpenPage = (look?: Look) => Promise<OpenedPage>;

/**
 * One person's browser. It is handed to the next claim of the same look with nothing kept but what a browser fetches and
 * compiles, which is half of the work of opening a piece.
 */
interface Visitor {
  readonly context: BrowserContext;
  readonly forget: () => Promise<void>;
}

const newVisitor = async (
  browser: Browser,
  service: string,
  { width = 1280, touch = false, offline = false }: Look,
): Promise<Visitor> => {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    colorScheme: 'light',
    reducedMotion: 'reduce',
    hasTouch: touch,
    serviceWorkers: offline ? 'allow' : 'block',
  });
  const blank = await context.newPage();
  const storage = await context.newCDPSession(blank);
  const { origin } = new URL(service);
  return {
    context,
    forget: async () => {
      await Promise.all(context.pages().map((page) => page !== blank && page.close()));
      await context.setOffline(false);
      await storage.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
    },
  };
};

const watchComplaints = (page: Page): readonly string[] => {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    // A refused request is told by the page itself.
    const { type, text } = { type: message.type(), text: message.text() };
    if (type === 'error' && !text.startsWith('Failed to load resource')) complaints.push(text);
  });
  return complaints;
};

/** The browser of this worker and who is not at the page; files that share a worker share them. */
let connection: Promise<Browser> | null = null;
const idle = new Map<string, Visitor[]>();

interface Visit {
  readonly opened: OpenedPage;
  /** Ends it; the browser serves the next visit of the same look. */
  readonly end: () => Promise<void>;
}

const visit = async (wish: Look): Promise<Visit> => {
  const shared = inject('sharedPage')!;
  connection ??= chromium.connect(shared.browser);
  const look = JSON.stringify(wish);
  const known = wish.fetchedNothing ? undefined : idle.get(look)?.pop();
  const visitor = known ?? (await newVisitor(await connection, shared.service, wish));
  const page = await visitor.context.newPage();
  page.setDefaultTimeout(30_000);
  const complaints = watchComplaints(page);
  await page.goto(shared.service);
  return {
    opened: { page, complaints },
    end: async () => {
      await visitor.forget();
      idle.set(look, [...(idle.get(look) ?? []), visitor]);
    },
  };
};

/** Describes the page in a real browser; skipped, saying so, where Debian's chromium is not installed. */
export const describePage = (name: string, tell: (open: OpenPage) => void): void => {
  const shared = inject('sharedPage');
  const skipped = `${name} (skipped: ${CHROMIUM} is not installed)`;
  describe.skipIf(shared === null)(shared === null ? skipped : name, () => {
    const busy: Visit[] = [];
    afterEach(async () => {
      for (const each of busy.splice(0)) await each.end();
    });
    tell(async (wish = {}) => {
      const begun = await visit(wish);
      busy.push(begun);
      return begun.opened;
    });
  });
};

/** Takes back what a claim decided, and looks where one looks who has just opened the piece. */
const tidy = async (page: Page): Promise<void> => {
  const undo = page.getByRole('button', { name: /^Undo: / });
  while ((await undo.count()) > 0) await undo.first().click();
  await expect.poll(() => page.locator('.decisions li').count()).toBe(0);
  const pages = page.locator('.pages');
  await expect.poll(() => pages.getAttribute('aria-busy')).toBe('false');
  // What scrolls under a resting pointer would be pointed at.
  await page.mouse.move(0, 0);
  await pages.evaluate((each) => {
    each.scrollTo(0, 0);
    window.scrollTo(0, 0);
  });
};

/**
 * One opened page for the claims of a file that only look at it, or whose decisions can be undone: opening it takes longer
 * than most of what is claimed. The first claim opens it; the next finds it tidied, and a new one after a claim that failed.
 * Called at the head of a file.
 */
export const sharePage = (
  show: (page: Page) => Promise<void>,
  look: Look = {},
): (() => Promise<OpenedPage>) => {
  let current: Visit | null = null;
  const end = async (): Promise<void> => {
    const ended = current;
    current = null;
    await ended?.end();
  };
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await end();
  });
  afterAll(end);
  return async () => {
    if (current === null) {
      current = await visit(look);
      await show(current.opened.page);
    }
    await tidy(current.opened.page);
    return current.opened;
  };
};

export const chooseFile = (page: Page, name: string, content: Uint8Array | string): Promise<void> =>
  page.locator('input[type=file]').setInputFiles({
    name,
    mimeType: 'application/octet-stream',
    buffer: Buffer.from(content),
  });

/** What was downloaded; it comes from the shared browser, whose files are not at hand. */
export const bytesOf = async (file: Download): Promise<Buffer> => buffer(await file.createReadStream());

export const openWholeDemo = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: 'Show the demo piece' }).click();
  await page.locator('.paper g.pedal-marking').first().waitFor();
};

/** The first page of the demo as a file: what is claimed of all the piece needs {@link openWholeDemo}. */
export const openDemo = async (page: Page): Promise<void> => {
  await chooseFile(page, 'lanterns-at-the-lock.musicxml', demoBeginning('lanterns-at-the-lock'));
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
