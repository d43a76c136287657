import { describe, expect, it } from 'vitest';
import { annotateScore } from '../../../server/threads/tasks/annotate/annotate-score.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { annotator } from '../../render/shared-annotator.ts';
import { meiScore } from '../../render/small-score.ts';

const movementOf = (bars: readonly string[]): string =>
  /<mdiv>([\s\S]*)<\/mdiv>/.exec(new TextDecoder().decode(meiScore({ bars })))![1]!;

const suiteOf = (...movements: readonly (readonly [label: string, bars: readonly string[]])[]): Uint8Array =>
  new TextEncoder().encode(
    new TextDecoder()
      .decode(meiScore({ bars: ['c4.1/R'] }))
      .replace(
        /<mdiv>[\s\S]*<\/mdiv>/,
        movements.map(([label, bars]) => `<mdiv label="${label}">${movementOf(bars)}</mdiv>`).join(''),
      ),
  );

const SUITE = suiteOf(
  ['Dawn', ['c#4.1/R', 'c#4.1/R']],
  ['Noon', ['db4.1/R']],
  ['Dusk', ['e4.1/R', 'eb4.1/R', 'e4.1/R']],
);

const annotate = async (bytes: Uint8Array, choice: object, kind: 'pdf' | 'svg' = 'pdf') => {
  const clock = startStageClock(IGNORE_PROGRESS);
  const made = await annotateScore({ bytes, fileName: 'reeds.mei' }, choice, { kind }, annotator, clock);
  if (!made.ok) throw new Error(JSON.stringify(made.problem));
  return [made.value.annotation, ...made.value.others];
};

/** The entries of a PDF's outline, which are written as UTF-16 or plain. */
const outlineOf = (pdf: Uint8Array): string[] =>
  [
    ...Buffer.from(pdf)
      .toString('latin1')
      .matchAll(/\/Title \(((?:\\.|[^)])*)\)/g),
  ].map(([, text]) => text!);

describe('a PDF of a file with several movements', () => {
  it('has all of them in order, each with its own title, bar numbers, opening setting and plan', async () => {
    const movements = await annotate(SUITE, {});
    expect(movements.map(({ titles }) => [titles.title, titles.subtitle])).toEqual([
      ['Reeds', 'Dawn'],
      ['Reeds', 'Noon'],
      ['Reeds', 'Dusk'],
    ]);
    expect(movements.map(({ barNumbers }) => barNumbers)).toEqual([['1', '2'], ['1'], ['1', '2', '3']]);
    expect(movements.map(({ plan }) => plan.plan.moves.length)).toEqual([0, 0, 2]);
    for (const { pages } of movements) expect(pages[0]).toContain('class="pgHead"');
  });

  it('is one document with a bookmark for each, and they begin on right-hand pages', async () => {
    const movements = await annotate(SUITE, {});
    const pdf = movements[0]!.pdf!;
    expect(movements.map((each) => each.pdf === null)).toEqual([false, true, true]);
    expect(outlineOf(pdf)).toEqual(expect.arrayContaining(['Dawn', 'Noon', 'Dusk']));
    expect(
      Buffer.from(pdf)
        .toString('latin1')
        .match(/\/Type \/Page\b/g),
    ).toHaveLength(5);
    expect(movements.map(({ pages }) => /id="page-(\d+)"/.exec(pages[0]!)?.[1])).toEqual(['1', '3', '5']);
  });

  it('says of each what there is to say, and of none that the others were left', async () => {
    const remarks = (await annotate(SUITE, {})).flatMap((each) => each.remarks);
    expect(remarks.filter(({ code }) => code === 'movement-chosen')).toEqual([]);
    expect(remarks.every(({ message }) => /^(Dawn|Noon|Dusk): /.test(message))).toBe(true);
  });

  it('has the one that is named alone', async () => {
    const [noon, ...others] = await annotate(SUITE, { movement: 'Noon' });
    expect(noon!.titles.subtitle).toBe('Noon');
    expect(others).toEqual([]);
  });

  it('leaves out one in which the part has nothing, and says so', async () => {
    const movements = await annotate(
      suiteOf(['Dawn', ['c4.1/R']], ['Tacet', ['R/R']], ['Dusk', ['e4.1/R']]),
      {},
    );
    expect(movements.map(({ titles }) => titles.subtitle)).toEqual(['Dawn', 'Dusk']);
    expect(movements[0]!.remarks.map(({ message }) => message).join('\n')).toMatch(
      /Movement 2 is not printed/,
    );
  });
});

describe('drawings of a file with several movements', () => {
  it('are those of the first, and the user is told', async () => {
    const [first, ...others] = await annotate(SUITE, {}, 'svg');
    expect(others).toEqual([]);
    expect(first!.pages).toHaveLength(1);
    expect(first!.remarks.map(({ code }) => code)).toContain('movement-chosen');
  });
});
