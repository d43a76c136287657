import { describe, expect, it } from 'vitest';
import type { Annotation } from '../../render/annotation.ts';
import type { EngravingChoice } from '../../render/engraving-options.ts';
import { turnWords } from '../../render/pages/words/turn-words.ts';
import type { Language } from '../../render/words/language.ts';
import { annotateBytes } from './annotate-bytes.ts';
import { groupsOf, treeOf } from './page-tree.ts';
import { annotator } from './shared-annotator.ts';
import { meiScore, type SmallScore } from './small-score.ts';

const annotated = async (score: SmallScore, engraving: EngravingChoice = {}): Promise<Annotation> => {
  const result = await annotateBytes(annotator, meiScore(score), { engraving }, 'svg');
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
};

const wordsIn = (page: string, kind: string): string[] =>
  groupsOf(page, kind).map(({ span }) => page.slice(span.start, span.end).replace(/<[^>]*>/g, ''));

/** Two lines of two bars, as the file has them. */
const TWO_LINES: SmallScore = {
  bars: ['c4.1', 'd4.1', 'e4.1', 'f4.1', 'g4.1'],
  before: { 2: '<sb/>' },
};

describe('bar numbers', () => {
  const numbersOf = async (barNumbers: number | null): Promise<readonly string[]> => {
    const { pages } = await annotated(TWO_LINES, { barNumbers, keepBreaks: true });
    return wordsIn(pages[0]!, 'mNum');
  };

  it('stand at the start of each line but the first', async () => {
    expect(await numbersOf(null)).toEqual(['3']);
  });

  it('stand at every so many bars as well where asked for', async () => {
    expect(await numbersOf(4)).toEqual(['3', '4']);
  });

  it('stand at every bar where asked for', async () => {
    expect(await numbersOf(1)).toEqual(['1', '2', '3', '4', '5']);
  });

  it.each([
    ['none', ''],
    ['one for all', ' n="1"'],
  ])('are counted where the file has %s', async (_which, n) => {
    const text = new TextDecoder().decode(meiScore(TWO_LINES)).replace(/(<measure[^>]*?) n="\d+"/g, `$1${n}`);
    const engraving = { barNumbers: 1, keepBreaks: true };
    const result = await annotateBytes(annotator, new TextEncoder().encode(text), { engraving }, 'svg');
    if (!result.ok) throw new Error(result.problem.code);
    expect(wordsIn(result.value.pages[0]!, 'mNum')).toEqual(['1', '2', '3', '4', '5']);
  });
});

describe('bar numbers of several movements', () => {
  /** Two movements of two bars, each bar a line, all numbered from 1. */
  const TWO_MOVEMENTS = new TextDecoder()
    .decode(
      meiScore({
        bars: ['c4.1', 'd4.1', 'e4.1', 'f4.1'],
        before: { 1: '<sb/>', 2: '<sb/>', 3: '<sb/>' },
        measures: { 1: 'right="end"' },
      }),
    )
    .replace('n="3"', 'n="1"')
    .replace('n="4"', 'n="2"');

  const numbersOf = async (edition: 'part' | 'study'): Promise<readonly string[]> => {
    const engraving = { edition, keepBreaks: true };
    const result = await annotateBytes(
      annotator,
      new TextEncoder().encode(TWO_MOVEMENTS),
      { engraving },
      'svg',
    );
    if (!result.ok) throw new Error(result.problem.code);
    return result.value.pages.flatMap((page) => wordsIn(page, 'mNum'));
  };

  it('tell at each line which movement it is in, in a study edition, whose tables name it', async () => {
    expect(await numbersOf('study')).toEqual(['I 1', 'I 2', 'II 1', 'II 2']);
  });

  it('are those of the file in a part for the stand', async () => {
    expect(await numbersOf('part')).toEqual(['2', '1', '2']);
  });
});

describe('a staff of any height that is offered', () => {
  it.each([3, 5, 9.6, 12, 14])('is printed %d mm high', async (staffMm) => {
    const { pages } = await annotated({ bars: ['c4.1'] }, { staffMm });
    const page = pages[0]!;
    const root = treeOf(page);
    const drawing = /viewBox="0 0 (\S+) /.exec(page)!;
    const mmPerUnit = Number.parseFloat(root.attributes.width!) / Number(drawing[1]);
    const lines = groupsOf(page, 'staff')[0]!
      .children.filter(({ name }) => name === 'path')
      .map(({ attributes }) => Number(/^M\S+ (\S+)/.exec(attributes.d!)![1]));
    expect(root.attributes.width).toBe('210mm');
    expect((lines[4]! - lines[0]!) * mmPerUnit).toBeCloseTo(staffMm, 1);
  });
});

describe('how a page is turned', () => {
  const turn = { page: 1, bar: 8 } as const;

  it('is “V.S.” where no more than one hand is free, and “time” where both are for long', () => {
    const turns = [
      { ...turn, free: 'none', seconds: 0.5 },
      { ...turn, page: 3, free: 'one-hand', seconds: 9 },
      { ...turn, page: 5, free: 'both-hands', seconds: 2 },
      { ...turn, page: 7, free: 'both-hands', seconds: 4 },
    ] as const;
    const inLanguage = (language: Language) => [...turnWords(turns, { language })];
    expect(inLanguage('english')).toEqual([
      [1, 'V.S.'],
      [3, 'V.S.'],
      [7, 'time'],
    ]);
    expect(inLanguage('german').at(-1)).toEqual([7, 'Zeit']);
  });

  const busy: SmallScore = { bars: Array.from({ length: 40 }, () => 'c4.4 d4.4 e4.4 f4.4 / c3.1') };
  const small = { paper: { widthMm: 120, heightMm: 120 }, pageTurns: 'every-page' } as const;

  it('stands at the foot of each page but the last, on request', async () => {
    const { pages } = await annotated(busy, { ...small, turnWords: true });
    expect(pages.length).toBeGreaterThan(2);
    const feet = pages.map((page) => wordsIn(page, 'pgFoot').join(''));
    expect(feet).toEqual(pages.map((_, i) => (i < pages.length - 1 ? 'V.S.' : '')));
    const plain = await annotated(busy, small);
    expect(plain.pages.flatMap((page) => wordsIn(page, 'pgFoot'))).toEqual([]);
  });
});

describe('the tempo of a part', () => {
  it('stands once where its note sign is written as a character reference', async () => {
    const { pages } = await annotated({
      bars: ['c4.1'],
      events: {
        0: '<tempo staff="1" tstamp="1" mm="66" mm.unit="4">Slow (<rend glyph.auth="smufl" fontfam="smufl">&#xECA5;</rend> = 66)</tempo>',
      },
    });
    expect(wordsIn(pages[0]!, 'tempo')).toHaveLength(1);
  });

  it('shows a note where a program has written it as a letter in a text font, and leaves other letters', async () => {
    const figure =
      '<rend fontfam="Palatino">Allegro</rend><rend fontfam="Palatino"> </rend><rend fontfam="Palatino">q</rend><rend fontfam="Palatino"> = 116</rend>';
    const { pages } = await annotated({
      bars: ['c4.1', 'c4.1'],
      events: {
        0: `<tempo staff="1" tstamp="1">${figure}</tempo>`,
        1: '<tempo staff="1" tstamp="1"><rend fontfam="Palatino">q</rend><rend fontfam="Palatino">uick</rend></tempo>',
      },
    });
    const [first, second] = wordsIn(pages[0]!, 'tempo');
    expect(first).not.toContain('q');
    expect(first).toContain('= 116');
    expect(second).toContain('q');
  });
});
