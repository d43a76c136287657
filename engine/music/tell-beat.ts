import type { Rational } from './rational.ts';

/** The fractions that have a sign of their own in Unicode. */
const SIGNS: Readonly<Record<string, string>> = {
  '1/2': '½',
  '1/3': '⅓',
  '2/3': '⅔',
  '1/4': '¼',
  '3/4': '¾',
  '1/5': '⅕',
  '2/5': '⅖',
  '3/5': '⅗',
  '4/5': '⅘',
  '1/6': '⅙',
  '5/6': '⅚',
  '1/8': '⅛',
  '3/8': '⅜',
  '5/8': '⅝',
  '7/8': '⅞',
};

/** A beat as people say it: a whole number and a fraction. @example tellBeat({ num: 7, den: 2 }) // '3½' */
export const tellBeat = ({ num, den }: Rational): string => {
  if (den === 1) return `${num}`;
  if (num < 0) return `-${tellBeat({ num: -num, den })}`;
  const whole = Math.floor(num / den);
  const fraction = `${num % den}/${den}`;
  const sign = SIGNS[fraction];
  if (whole === 0) return sign ?? fraction;
  return sign === undefined ? `${whole} ${fraction}` : `${whole}${sign}`;
};

/** A beat written as an exact fraction, such as `7/2`, as people say it; any other text as it is. */
export const tellBeatText = (text: string): string => {
  const parts = /^(-?\d{1,15})\/([1-9]\d{0,14})$/.exec(text);
  return parts === null ? text : tellBeat({ num: Number(parts[1]), den: Number(parts[2]) });
};
