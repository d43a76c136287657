import type { Side } from './side.ts';

/**
 * What of some moves falls to which side: told of both, or where one side makes all of them, of that side alone: nobody
 * says “and 0 of the right”.
 */
export const tellBySides = (
  { left, right }: Readonly<Record<Side, number>>,
  tell: { readonly both: string; readonly allOf: (side: Side) => string },
): string => {
  if (right === 0) return tell.allOf('left');
  return left === 0 ? tell.allOf('right') : tell.both;
};
