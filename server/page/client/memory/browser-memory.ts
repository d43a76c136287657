import type { Memory } from './shelf.ts';

/** What the browser remembers for this page. Asked for anew each time: it may refuse even to name its memory. */
export const browserMemory: Memory = {
  getItem: (name) => localStorage.getItem(name),
  setItem: (name, value) => localStorage.setItem(name, value),
};
