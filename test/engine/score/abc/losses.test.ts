import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { lossesOf, readAbc, tune } from './abc-builder.ts';

const README = readFileSync(new URL('../../../../README.md', import.meta.url), 'utf8');

/** The rows of the table of what ABC loses: an example, and what is told. */
const rows = [
  ...README.split('### Tunes in ABC')[1]!
    .split('\n## ')[0]!
    .matchAll(/^\| `(.*)` \| (.*) \|$/gm),
].map(([, example, told]): [string, string] => [
  example!.replaceAll('\\|', '|').replaceAll('$', '\n'),
  told!,
]);

describe('what is lost of a tune', () => {
  it.each(rows)('%j is told by name and line: %s', async (music, told) => {
    const losses = await lossesOf(tune(`C|\n${music}`));
    expect(losses.map((loss) => loss.slice(0, told.length))).toContain(told);
  });

  it('names the line of the file', async () => {
    expect(await lossesOf(tune('C|\nC|\n!slide!C|!slide!C|\n!slide!D|]'))).toEqual([
      'The sign !slide! is left out (lines 8 and 9).',
    ]);
  });

  it('is the order of the parts, by its line: it is printed, and played as on the page', async () => {
    const parts = 'P:A\nC4|\nP:B\nD4|';
    const { remarks, texts, landmarks, playOrder, source } = await readAbc(
      tune(parts, 'P:ABA\nM:2/4\nL:1/8\nK:C'),
    );
    expect(remarks.map(({ message }) => message)).toContain(
      'The order of the parts (P:) is printed; the plan takes the parts in the order of the page (line 3).',
    );
    expect(landmarks.map(({ text }) => text)).toEqual(['A', 'B']);
    expect(source.text).toContain('>ABA<');
    expect(playOrder).toEqual([0, 1]);
    expect(texts.filter(({ kind }) => kind === 'rehearsal')).toHaveLength(2);
  });

  it('is nothing where all is kept', async () => {
    const kept = tune(
      '|:"G"{a}(3GAB .c2 |1 !p!Td4 :|2 [GBd]4-|[GBd]4|]\nw:one two three',
      'S:A friend\nN:My own\nR:reel\nM:2/4\nL:1/8\nQ:1/4=90\nK:G',
    );
    expect(await lossesOf(kept)).toEqual([]);
  });
});
