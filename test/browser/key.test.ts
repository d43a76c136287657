import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { violations } from './axe.ts';
import { describePage } from './open-page.ts';

const KEY = 'harbour-lantern-7';

/** Lets nobody in without the key, as the service does where it is run with keys. */
const wantKey = (page: Page) =>
  page.route('**/v1/annotate', (route) =>
    route.request().headers().authorization === `Bearer ${KEY}`
      ? route.continue()
      : route.fulfill({
          status: 401,
          contentType: 'application/problem+json',
          json: { title: 'A key is needed', detail: 'Send a key.' },
        }),
  );

const showDemo = async (page: Page) => {
  await wantKey(page);
  await page.getByRole('button', { name: 'Show the demo piece' }).click();
  return page.getByRole('dialog', { name: 'This server needs a key' });
};

describePage('a service with keys', (open) => {
  it('is sent the key that the user types, once the right one is typed', async () => {
    const { page, complaints } = await open();
    const dialog = await showDemo(page);
    await dialog.waitFor();
    expect(await violations(page)).toEqual([]);
    await dialog.getByLabel('Key').fill('harbour-lantern-6');
    await page.keyboard.press('Enter');
    await dialog.getByText('was not accepted').waitFor();
    await dialog.getByLabel('Key').fill(KEY);
    await page.keyboard.press('Enter');
    await page.locator('.paper g.pedal-marking').first().waitFor();
    await expect.poll(() => dialog.isVisible()).toBe(false);
    expect(complaints).toEqual([]);
  });

  it('is not asked again by those who have no key, until they want it: the plan is there all the same', async () => {
    const { page } = await open();
    const dialog = await showDemo(page);
    await dialog.waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.score .refused').getByText('Send a key.').waitFor();
    await expect.poll(() => page.locator('.chart .point').count()).toBeGreaterThan(0);
    const refused = page.waitForResponse('**/v1/annotate');
    await page.locator('.choices select[name="density"]').selectOption('changes');
    await refused;
    await expect.poll(() => dialog.isVisible()).toBe(false);
    await page.locator('.score .refused').getByRole('button').click();
    await dialog.waitFor();
  });
});
