import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openScoreFile } from '../../../../engine/score/open-file.ts';
import { cases } from '../../../thorough.ts';
import { openAbc, tune } from './abc-builder.ts';

describe('hostile ABC', () => {
  it.each([
    ['a line of a million characters', tune('C'.repeat(1_000_000)), 'limit-exceeded'],
    ['a tune of a hundred thousand lines', tune('C|\n'.repeat(100_000)), 'limit-exceeded'],
    ['ten thousand tunes', 'X:1\nK:C\nC|\n\n'.repeat(10_000), 'limit-exceeded'],
    ['no music', 'X:1\nT:Nothing\nK:C\n', 'no-music'],
    ['an announcement alone', '%abc-2.1\n', 'no-music'],
    ['too many notes in a chord', tune(`[${'CDEFGABcdefgab'.repeat(330)}]`), null],
  ])('%s is refused within limits', async (_claim, text, code) => {
    const opened = await openAbc(text);
    if (code === null) expect(opened.ok).toBe(true);
    else expect(opened).toMatchObject({ ok: false, problem: { code } });
  });

  it.each([
    '[[[[[[[[[[C',
    '{{{{{{',
    '((((((((((((C',
    '(3(3(3CDE',
    '!!!!!!',
    '"""""',
    '|:::::|',
    '[1[2[3',
    'C////////////////C',
    'C999999999999',
    'C1/0',
    '_________C',
    "C''''''''''''",
    'C,,,,,,,,,,,',
    '[V:',
    '[K:',
    '[M:1/0]C',
    '[M:0/4]C|',
    '[M:999999999/4]C|',
    '[L:1/0]CDE',
    '-----',
    '&&&&',
    '[I:staff 9]C',
    '\\',
    'Z99999999|C',
    '(99:99:99CDE',
    '%%score ((((',
    '[C-E-][C-E-]',
    '~~~~~C',
    '<<<<>>>>C',
    '[',
    ']',
    '{',
    '}',
    '[]',
    '{}C',
    '{/}C',
    '[P:',
  ])('%s ends in a score or a problem', async (music) => {
    const opened = await openAbc(tune(`C|${music}\nC|]`));
    expect(typeof opened.ok).toBe('boolean');
  });

  it('of any signs ends in a score or a problem', async () => {
    const signs = fc.array(
      fc.constantFrom(
        ...'ABCDEFGabcdefgzxZ0123456789|:[](){}<>/-_^=~.,\'"!&* \n\\%+'.split(''),
        'K:G',
        '[V:2]',
        'w:la',
        '%%score',
        '(3',
        ':|',
        '|1',
      ),
      { maxLength: 80 },
    );
    await fc.assert(
      fc.asyncProperty(signs, async (parts) => {
        const opened = await openAbc(tune(parts.join('')));
        return typeof opened.ok === 'boolean';
      }),
      { numRuns: cases(300) },
    );
  });

  it('of any bytes, too', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 200 }), async (bytes) => {
        const start = new TextEncoder().encode('X:1\nK:C\n');
        const opened = await openScoreFile(Uint8Array.from([...start, ...bytes]));
        return typeof opened.ok === 'boolean';
      }),
      { numRuns: cases(200) },
    );
  });

  it('does not pass for XML that speaks of ABC', async () => {
    expect(await openAbc('<mei>\nX:1\n</mei>')).toMatchObject({ ok: false });
    expect(await openAbc('just words', { tune: '1' })).toMatchObject({
      ok: false,
      problem: { code: 'unknown-tune', tunes: [] },
    });
  });
});
