import fc from 'fast-check';
import { expect, it } from 'vitest';
import { add, compare, rational } from '../../../engine/music/rational.ts';
import type { PhraseMark } from '../../../engine/score/model/between-notes.ts';
import { findPhraseEnds } from '../../../engine/time/phrase-ends.ts';
import '../../property-seed.ts';

const LAST = 12;

const anyMark = fc
  .record({
    kind: fc.constantFrom<PhraseMark['kind']>('slur', 'slur', 'fermata', 'breath', 'caesura'),
    start: fc.nat(LAST),
    length: fc.nat(6),
    held: fc.integer({ min: 1, max: 3 }),
  })
  .map(({ kind, start, length, held }): PhraseMark => {
    const from = rational(start);
    const last = kind === 'slur' ? rational(start + length) : from;
    return { kind, start: from, last, end: add(last, rational(held)) };
  });

it('a moment ends a phrase as its definition says, mark by mark', () => {
  const moments = fc.array(
    fc.record({ at: fc.nat(2 * LAST), notesPlucked: fc.nat(1) }).map(({ at, notesPlucked }) => ({
      at: rational(at, 2),
      notesPlucked,
    })),
    { maxLength: 20 },
  );
  fc.assert(
    fc.property(fc.array(anyMark, { maxLength: 5 }), moments, (marks, drawn) => {
      const all = drawn.toSorted((a, b) => compare(a.at, b.at));
      const isPhrase = ({ kind, start, last }: PhraseMark): boolean =>
        kind === 'slur' &&
        all.filter(
          ({ at, notesPlucked }) => notesPlucked > 0 && compare(at, start) >= 0 && compare(at, last) <= 0,
        ).length >= 3;
      const ends = findPhraseEnds(marks, all);
      all.forEach(({ at }, index) => {
        const isAfter = ({ last, end }: PhraseMark): boolean =>
          compare(at, last) > 0 && compare(at, end) <= 0;
        const isUnder = ({ start, last }: PhraseMark): boolean =>
          compare(at, start) > 0 && compare(at, last) <= 0;
        const slurs = marks.filter(isPhrase);
        const expected =
          marks.some((mark) => mark.kind !== 'slur' && isAfter(mark)) ||
          (slurs.some(isAfter) && !slurs.some(isUnder));
        expect(ends(index)).toBe(expected);
      });
    }),
  );
});
