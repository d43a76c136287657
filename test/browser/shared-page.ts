import { availableParallelism } from 'node:os';
import { chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { CHROMIUM, CHROMIUM_ARGUMENTS, hasChromium } from '../chromium.ts';
import { startPageService } from './page-service.ts';

const QUIET = [
  ...CHROMIUM_ARGUMENTS,
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // As many as can run at a time: one that has shown the page before has its code compiled, and starts no process.
  `--renderer-process-limit=${availableParallelism()}`,
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

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the browser and the service are; null where the browser is not installed. */
    readonly sharedPage: { readonly browser: string; readonly service: string } | null;
  }
}

/** One browser and one service for all files that try the page: both take seconds to start, and the demo to be laid out. */
export default async ({ provide }: TestProject): Promise<() => Promise<void>> => {
  if (!hasChromium) {
    provide('sharedPage', null);
    return async () => {};
  }
  const [service, browser] = await Promise.all([
    startPageService(),
    chromium.launchServer({ executablePath: CHROMIUM, args: QUIET, host: '127.0.0.1' }),
  ]);
  provide('sharedPage', { browser: browser.wsEndpoint(), service: service.url });
  return async () => {
    await browser.close();
    await service.close();
  };
};
