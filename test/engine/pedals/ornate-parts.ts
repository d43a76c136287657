import fc from 'fast-check';
import type { Score } from '../../../engine/score/model/score.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

const accidental = fc.constantFrom('', '', '#', 'b', '#', 'b', '##', 'bb');

const pitch = (...octaves: number[]) =>
  fc
    .tuple(fc.constantFrom(...LETTERS), accidental, fc.constantFrom(...octaves))
    .map(([letter, alter, octave]) => `${letter}${alter}${octave}`);

const chord = (...octaves: number[]) =>
  fc
    .uniqueArray(pitch(...octaves), {
      minLength: 1,
      maxLength: 3,
      selector: (name) => `${name[0]}${name.at(-1)}`,
    })
    .map((pitches) => pitches.join('+'));

/** A note with a neighbour of any accidental a step above. */
const trilled = (octave: number) =>
  fc.tuple(fc.nat(LETTERS.length - 1), accidental, accidental).map(([step, own, neighbour]) => {
    const above = step + 1;
    const over = octave + Math.floor(above / LETTERS.length);
    return `${LETTERS[step]}${own}${octave}/1tr(${LETTERS[above % LETTERS.length]}${neighbour}${over})`;
  });

/** What fills a quarter of the upper staff. */
const quarter = fc.oneof(
  chord(4, 5).map((notes) => `${notes}/1`),
  fc.tuple(chord(4, 5), chord(4, 5)).map(([a, b]) => `${a}/1:2 ${b}/1:2`),
  fc.constant('r/1'),
  trilled(5),
  fc.tuple(pitch(5), chord(4, 5)).map(([grace, notes]) => `(${grace}) ${notes}/1`),
  fc.tuple(pitch(4, 5), pitch(5), pitch(4, 5)).map(([a, b, c]) => `(${a}) (${b}) ${c}/1`),
  chord(4, 5).map((notes) => `${notes}/1:2 ~${notes}/1:2`),
  fc.tuple(pitch(3), pitch(5)).map(([from, to]) => `${from}/1:2> ${to}/1:2`),
);

/** A bar of the lower staff: often a bass that is held from the bar before. */
const bass = fc
  .array(fc.record({ notes: chord(2, 3), isHeld: fc.boolean(), isShort: fc.boolean() }), {
    minLength: 2,
    maxLength: 2,
  })
  .map((bars) => {
    let before: string | null = null;
    return bars
      .map(({ notes, isHeld, isShort }) => {
        if (isShort) {
          before = null;
          return `${notes}/1 r/3`;
        }
        const text = before !== null && isHeld ? `~${before}/4` : `${notes}/4`;
        before = before !== null && isHeld ? before : notes;
        return text;
      })
      .join(' | ');
  });

/** Two bars with trills, grace notes, glissandi, tied chords and held basses. */
export const ornateText = (
  quartersPerMinute: number,
  playOrder: readonly number[],
): fc.Arbitrary<SmallPart> =>
  fc.record({
    upper: fc
      .array(fc.array(quarter, { minLength: 4, maxLength: 4 }), { minLength: 2, maxLength: 2 })
      .map((bars) => bars.map((each) => each.join(' ')).join(' | ')),
    lower: bass,
    keyFifths: fc.constantFrom(-3, 0, 2),
    quartersPerMinute: fc.constant(quartersPerMinute),
    playOrder: fc.constant(playOrder),
  });

export const ornatePart = (quartersPerMinute: number, playOrder: readonly number[]): fc.Arbitrary<Score> =>
  ornateText(quartersPerMinute, playOrder).map(smallPart);
