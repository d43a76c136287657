import type { Page } from 'playwright-core';

/** Has the page note the options of everything that it asks the service to annotate from now on. */
export const watchOrders = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const orders: unknown[] = [];
    Reflect.set(globalThis, 'orders', orders);
    const { fetch } = globalThis;
    globalThis.fetch = (address, request) => {
      const options = request?.body instanceof FormData ? request.body.get('options') : null;
      // The preview is an order of its own, for a slip of paper.
      if (typeof options === 'string' && !options.includes('"heightMm":150}'))
        orders.push(JSON.parse(options));
      return fetch(address, request);
    };
  });

/** The options that were asked for last; null where nothing was. */
export const lastOrder = (page: Page): Promise<Record<string, unknown> | null> =>
  page.evaluate(() => (Reflect.get(globalThis, 'orders') as Record<string, unknown>[]).at(-1) ?? null);
