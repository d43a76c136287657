import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds against the page, each as its rule with the element. */
export const violations = async (page: Page): Promise<string[]> => {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    type Found = { violations: { id: string; nodes: { target: unknown; failureSummary?: string }[] }[] };
    const axe = Reflect.get(globalThis, 'axe') as { run: (choice: object) => Promise<Found> };
    // All rules are tried; of what they find in order, thousands of elements, nothing is written down.
    const { violations: found } = await axe.run({ resultTypes: ['violations'] });
    return found.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${JSON.stringify(target)} ${failureSummary}`),
    );
  });
};
