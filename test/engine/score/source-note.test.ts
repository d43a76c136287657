import { expect, it } from 'vitest';
import { openScore } from '../../../engine/score/open.ts';
import { buildHarp, note } from './musicxml/musicxml-builder.ts';

const titlesOf = (identification: string) => {
  const text = buildHarp(note('C4', 4)).replace(
    '<part-list>',
    `<identification>${identification}</identification><part-list>`,
  );
  const opened = openScore(new TextEncoder().encode(text));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value.titles;
};

it('a note on the source, written in the place of the arranger, stands with the rights', () => {
  const source = 'Copied from the library. Source: https://library.example/436708';
  const arranged = `<creator type="arranger">${source}</creator>`;
  expect(titlesOf(arranged)).toMatchObject({ arranger: '', rights: source });
  expect(titlesOf(`${arranged}<rights>Free to copy</rights>`).rights).toBe(`Free to copy · ${source}`);
});

it('an arranger is one', () => {
  expect(titlesOf('<creator type="arranger">N. N.</creator>')).toMatchObject({
    arranger: 'N. N.',
    rights: '',
  });
});
