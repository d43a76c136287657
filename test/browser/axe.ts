import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds against the page, each as its rule with the element. @param rules those alone; all where none are named */
export const violations = async (page: Page, rules: readonly string[] = []): Promise<string[]> => {
  await page.evaluate(AXE);
  return page.evaluate(async (only) => {
    type Found = { violations: { id: string; nodes: { target: unknown; failureSummary?: string }[] }[] };
    const axe = Reflect.get(globalThis, 'axe') as { run: (choice: object) => Promise<Found> };
    // All rules are tried; of what they find in order, thousands of elements, nothing is written down.
    const { violations: found } = await axe.run({
      resultTypes: ['violations'],
      ...(only.length === 0 ? {} : { runOnly: only }),
    });
    return found.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${JSON.stringify(target)} ${failureSummary}`),
    );
  }, rules);
};

/** The same in the dark and in light, which makes a difference to contrast alone. */
export const violationsInBoth = async (page: Page): Promise<string[]> => {
  await page.emulateMedia({ colorScheme: 'light' });
  const inLight = await violations(page, ['color-contrast']);
  await page.emulateMedia({ colorScheme: 'dark' });
  return [...(await violations(page)), ...inLight];
};
