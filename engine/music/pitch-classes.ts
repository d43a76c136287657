/** Pitch classes as a number: bit 0 is C, bit 11 is B. */
export const maskOf = (pitchClasses: Iterable<number>): number => {
  let mask = 0;
  for (const pitchClass of pitchClasses) mask |= 1 << pitchClass;
  return mask;
};

/** How many pitch classes a mask holds. */
export const countBits = (mask: number): number => {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1;
  return count;
};
