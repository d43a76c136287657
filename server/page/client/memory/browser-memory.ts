import type { Memory } from './shelf.ts';

/** What the browser remembers for this page. Asked for anew each time: it may refuse even to name its memory. */
export const browserMemory: Memory = {
  getItem: (name) => localStorage.getItem(name),
  setItem: (name, value) => localStorage.setItem(name, value),
};

/** What it remembers as long as this window is open, reloaded or not: an address keeps nothing over that. */
export const windowMemory: Memory = {
  getItem: (name) => sessionStorage.getItem(name),
  setItem: (name, value) => sessionStorage.setItem(name, value),
};
