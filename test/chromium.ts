import { existsSync } from 'node:fs';

/**
 * Chromium without a window of its own (Debian's `chromium-headless-shell`): it draws as the full browser does, and opening a
 * page takes half the processor time.
 */
export const CHROMIUM = '/usr/bin/chromium-headless-shell';

export const hasChromium = existsSync(CHROMIUM);

/** How it is started wherever it is used. */
export const CHROMIUM_ARGUMENTS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  // Letters as wide as their font says, as a full browser sets them, and not rounded to whole pixels.
  '--font-render-hinting=none',
] as const;
