import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe is to look at. */
interface Scope {
  /** These rules alone; all where none are named. */
  readonly rules?: readonly string[];
  /** The drawings of the pages too: thousands of elements, the same in every view. */
  readonly withDrawings?: boolean;
}

/** What axe finds against the page, each as its rule with the element. */
export const violations = async (
  page: Page,
  { rules = [], withDrawings = false }: Scope = {},
): Promise<string[]> => {
  if (!(await page.evaluate("'axe' in globalThis"))) await page.evaluate(AXE);
  return page.evaluate(
    async ([only, context]) => {
      type Found = { violations: { id: string; nodes: { target: unknown; failureSummary?: string }[] }[] };
      const axe = Reflect.get(globalThis, 'axe') as { run: (on: object, choice: object) => Promise<Found> };
      // All rules are tried; of what they find in order, thousands of elements, nothing is written down.
      const { violations: found } = await axe.run(context, {
        resultTypes: ['violations'],
        ...(only.length === 0 ? {} : { runOnly: only }),
      });
      return found.flatMap(({ id, nodes }) =>
        nodes.map(({ target, failureSummary }) => `${id}: ${JSON.stringify(target)} ${failureSummary}`),
      );
    },
    [rules, { include: ['html'], exclude: withDrawings ? [] : [DRAWINGS] }] as const,
  );
};

const DRAWINGS = { fromShadowDom: ['.paper', 'svg'] };

/** The same in the dark and in light, which makes a difference to contrast alone. */
export const violationsInBoth = async (page: Page, scope: Scope = {}): Promise<string[]> => {
  await page.emulateMedia({ colorScheme: 'light' });
  const inLight = await violations(page, { ...scope, rules: ['color-contrast'] });
  await page.emulateMedia({ colorScheme: 'dark' });
  return [...(await violations(page, scope)), ...inLight];
};
