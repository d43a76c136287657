import { setFlagsFromString } from 'node:v8';

/*
 * Over a run of a second or two, compiling functions anew for speed costs more than it saves: a third of the processor
 * time of a plan, measured with Node 20. Later versions have compilers between; each of these has Node 20 alone wait longer.
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
