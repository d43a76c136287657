/** No label is longer; what comes after is not looked at. */
export const LONGEST_LABEL = 300;

/** Words on one line. */
export const squeezeLabel = (text: string): string => text.replace(/\s+/gu, ' ').trim();

/** For comparing: no case, accents or runs of white space. */
export const foldLabel = (text: string): string =>
  squeezeLabel(text.slice(0, LONGEST_LABEL).normalize('NFD').replace(/\p{M}/gu, '')).toLowerCase();
