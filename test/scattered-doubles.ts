import { buildHarp, note } from './engine/score/musicxml/musicxml-builder.ts';

const DOUBLES: ReadonlyMap<number, string> = new Map([
  [1, 'F##4'],
  [4, 'F##5'],
  [7, 'F##4'],
  [10, 'C##5'],
]);

/** A double sharp here and there, too far apart to be one passage: three of F, and one of C. MusicXML. */
export const SCATTERED_DOUBLES = buildHarp(
  ...Array.from({ length: 12 }, (_, i) => {
    const double = DOUBLES.get(i + 1);
    return double === undefined ? note('B4', 4) : note(double, 2) + note('B4', 2);
  }),
);
