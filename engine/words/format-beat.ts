import { type Rational, toNumber } from '../music/rational.ts';

/** The fractions that have a sign of their own in Unicode and in the fonts of the pages, which lack fifths and sixths. */
const SIGNS: Readonly<Record<string, string>> = {
  '1/2': '½',
  '1/3': '⅓',
  '2/3': '⅔',
  '1/4': '¼',
  '3/4': '¾',
  '1/8': '⅛',
  '3/8': '⅜',
  '5/8': '⅝',
  '7/8': '⅞',
};

/** Beats are told alike that lie this near to each other: a 64th of a beat. */
const NEAR = 1 / 64;

/** Fractions of up to so many parts are told as they are: 64th notes in a crotchet, and the usual tuplets. */
const MOST_PARTS = 16;

const PLAIN: readonly number[] = Array.from({ length: MOST_PARTS }, (_, i) => i + 1);

/** What lies near none of those is told in these: one of them is always near. */
const FINER: readonly number[] = [24, 32];

/**
 * A beat as people say it: a whole number and a fraction that music is written in. Programs round tuplets to their own
 * ticks; such a beat is told as the simplest beat near it that a note there has, else as the simplest fraction near it.
 *
 * @param present the beats of the notes around the place, if they are known
 * @example formatBeat({ num: 7, den: 2 }) // '3½'
 * @example formatBeat({ num: 597, den: 256 }) // '2⅓', the second of three notes that share 256 ticks
 */
export const formatBeat = (beat: Rational, present: readonly Rational[] = []): string => {
  if (beat.num < 0) return `-${formatBeat({ num: -beat.num, den: beat.den })}`;
  const { whole, part } = partBeat(beat, present);
  return sayFraction(whole, part);
};

/**
 * The same where the fraction has no sign of its own, as of a quintuplet or a septuplet: which part of the beat it is.
 *
 * @param sayPart the beat, which of its parts, from 1, and how many they are
 */
export const tellBeat = (
  beat: Rational,
  sayPart: (beat: number, part: number, parts: number) => string,
): string => {
  if (beat.num < 0) return formatBeat(beat);
  const { whole, part } = partBeat(beat, []);
  const { num, den } = part;
  const isPlain = num === 0 || num === den || SIGNS[`${num}/${den}`] !== undefined;
  return isPlain ? sayFraction(whole, part) : sayPart(whole, num + 1, den);
};

/** A beat as a whole number and the simplest fraction that tells the rest. */
const partBeat = (
  beat: Rational,
  present: readonly Rational[],
): { readonly whole: number; readonly part: Rational } => {
  const { num, den } = beat.den > MOST_PARTS ? (sharedBeat(beat, present) ?? beat) : beat;
  const whole = Math.floor(num / den);
  const parts = num - whole * den;
  return { whole, part: den > MOST_PARTS ? simplestNear(parts / den) : { num: parts, den } };
};

/** A beat written as an exact fraction, such as `7/2`, as people say it; any other text as it is. */
export const formatBeatText = (text: string): string => {
  const parts = /^(-?\d{1,15})\/([1-9]\d{0,14})$/.exec(text);
  return parts === null ? text : formatBeat({ num: Number(parts[1]), den: Number(parts[2]) });
};

const sharedBeat = (beat: Rational, present: readonly Rational[]): Rational | undefined =>
  present
    .filter((each) => each.den <= MOST_PARTS && Math.abs(toNumber(each) - toNumber(beat)) <= NEAR)
    .toSorted((a, b) => a.den - b.den)[0];

/** @param value from 0 to 1 */
const simplestNear = (value: number): Rational => {
  const inParts = (den: number): Rational => ({ num: Math.round(value * den), den });
  const off = ({ num, den }: Rational): number => Math.abs(num / den - value);
  const plain = PLAIN.map(inParts).find((fraction) => off(fraction) <= NEAR);
  return plain ?? FINER.map(inParts).toSorted((a, b) => off(a) - off(b))[0]!;
};

const sayFraction = (whole: number, { num, den }: Rational): string => {
  if (num === 0) return `${whole}`;
  if (num === den) return `${whole + 1}`;
  const fraction = `${num}/${den}`;
  const sign = SIGNS[fraction];
  if (whole === 0) return sign ?? fraction;
  return sign === undefined ? `${whole} ${fraction}` : `${whole}${sign}`;
};
