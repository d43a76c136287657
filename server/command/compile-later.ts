import { setFlagsFromString } from 'node:v8';

/**
 * Has Node 20 wait ten times as long before it compiles a function of the layout engine anew for speed, as later versions
 * do (1.8 million units of work against 13 million, the second from memory): over a score of some pages compiling costs
 * more than it saves.
 */
export const compileLater = (): void => {
  if (process.versions.node.startsWith('20.')) setFlagsFromString('--wasm-tiering-budget=20000000');
};
