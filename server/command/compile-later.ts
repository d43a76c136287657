import { setFlagsFromString } from 'node:v8';

/*
 * Node 20 compiles functions anew for speed, and what was compiled turns out wrong again and again while a program is
 * new to it: over a run of a second or two that costs more than it saves. Later versions have compilers between. Each of
 * these has Node 20 alone wait longer.
 */

const isNode20 = process.versions.node.startsWith('20.');

/** Functions in JavaScript: fifteen times as long (67,584 units of work against a million). */
export const compileLater = (): void => {
  if (isNode20) setFlagsFromString('--interrupt-budget=1000000');
};

/** Functions of the layout engine: fifty times (1.8 million units against a hundred; 13 in later versions, from memory). */
export const compileLayoutLater = (): void => {
  if (isNode20) setFlagsFromString('--wasm-tiering-budget=100000000');
};
