/**
 * The strings of a lever harp side by side with their levers, the lowest left: the measures that the page and the sheets
 * draw them by. Lengths in units of the picture, y downward from the top of the neck.
 */
export const STRING_PICTURE = {
  apart: 11,
  margin: 14,
  neck: 18,
  leverTop: 30,
  lever: 16,
  longest: 118,
  shortest: 46,
} as const;

/** The C strings are red, the F strings black or dark blue (common practice, no source). */
export const stringColour = (letter: string): 'red' | 'dark' | 'plain' =>
  letter === 'C' ? 'red' : letter === 'F' ? 'dark' : 'plain';

/** Where a string ends below, by its place from the lowest among so many. */
export const stringEnd = (place: number, of: number): number => {
  const { leverTop, longest, shortest } = STRING_PICTURE;
  return leverTop + longest - ((longest - shortest) * place) / Math.max(1, of - 1);
};

/** How wide the picture of so many strings is. */
export const stringsWidth = (of: number): number =>
  2 * STRING_PICTURE.margin + (of - 1) * STRING_PICTURE.apart;

/** A lever, from its string's middle: one that is up lies across its string, one that is down hangs beside it. */
export const leverShape = (
  isUp: boolean,
): { readonly x: number; readonly y: number; readonly width: number; readonly height: number } => {
  const y = STRING_PICTURE.leverTop + 3;
  return isUp
    ? { x: -4.5, y, width: 9, height: 4 }
    : { x: 1.5, y, width: 4, height: STRING_PICTURE.lever - 4 };
};
