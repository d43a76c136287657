import { describe, expect, it } from 'vitest';
import { formatChange, formatSetting, type Setting } from '../../../engine/harp/setting.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';
import { rational, rationalKey, ZERO } from '../../../engine/music/rational.ts';
import { encodeText } from '../../../engine/score/file/decode.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import type { Marking } from '../../../render/markings/markings.ts';
import { annotateSource } from '../../../render/source/annotate-source.ts';
import { bar, meiScore, note, notes, read } from '../../engine/score/mei/mei-builder.ts';
import { PLAIN_CHANGE, PLAIN_SETTING } from '../marking-builder.ts';
import { type AnnotatedFile, annotateFile } from './annotate-file.ts';

const annotate = (mei: string, others: 'keep' | 'replace' = 'keep'): AnnotatedFile & { text: string } => {
  const done = annotateFile(encodeText(mei, 'utf-8'), { others });
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return { ...done.value, text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(done.value.bytes) };
};

const insertionsIn = (mei: string): readonly string[] =>
  [...mei.matchAll(/<(harpPedal|dir) xml:id="tringle-[^>]*(?:\/>|>.*?<\/\1>)/gs)].map((match) => match[0]);

const withoutInsertions = (mei: string): string =>
  mei.replace(/\s*<(harpPedal|dir) xml:id="tringle-[^>]*(?:\/>|>.*?<\/\1>)/gs, '');

const markingsOf = (score: Score): readonly string[] =>
  score.markings.map(({ at, positions }) =>
    [
      rationalKey(at),
      ...LETTERS.filter((l) => l in positions).map((l) => formatChange(l, positions[l]!)),
    ].join(' '),
  );

const written = (markings: readonly Marking[]): readonly string[] =>
  markings.map((marking) => {
    const names =
      marking.kind === 'setting'
        ? formatSetting(marking.setting).replace('| ', '')
        : [...marking.left, ...marking.right]
            .map((each) => formatChange(each.letter, each.position))
            .join(' ');
    return `${rationalKey(marking.at)} ${names}`;
  });

const TWO_BARS = meiScore(
  bar({ upper: notes('c4 c4', 2), lower: notes('c3', 1) }) +
    bar({
      upper: note('c4', 2, 'accid="s"') + note('f4', 2),
      lower: note('f3', 1, 'accid="s" xml:id="low"'),
    }),
);

describe('markings in MEI', () => {
  it('state all seven letters, since one left out is natural', () => {
    const [setting] = insertionsIn(annotate(meiScore(bar({ upper: note('b4', 1, 'accid="f"') }))).text);
    expect(setting).toContain('d="n" c="n" b="f" e="n" f="n" g="n" a="n"');
    expect(setting).toContain('staff="2" place="below"');
  });

  it('stand behind the staves of their measure and are read back', () => {
    const { text, markings } = annotate(TWO_BARS);
    expect(text).toMatch(/<\/staff><(?:harpPedal|dir) xml:id="tringle-/);
    expect(markingsOf(read(text))).toEqual(written(markings));
    expect(markings.length).toBeGreaterThan(1);
  });

  it('hang on the note that begins at their moment where it has an id, else on its beat', () => {
    const score = read(TWO_BARS);
    const change = (at: number): Marking => ({
      kind: 'change',
      id: `marking-${at}`,
      at: { num: at, den: 1 },
      bar: 1,
      beat: { num: at - 3, den: 1 },
      graceNote: null,
      left: [],
      right: [{ letter: 'F', position: 1 }],
      ...PLAIN_CHANGE,
    });
    const done = annotateSource(score, [change(4), change(5)], { others: 'keep' });
    const [first, second] = done.ok ? insertionsIn(done.value.text) : [];
    expect(first).toContain('startid="#low"');
    expect(second).toContain('tstamp="2"');
    expect(done.ok && markingsOf(read(done.value.text))).toEqual(['4 F♯', '5 F♯']);
  });

  it.each([
    ['below', 'staff="2" place="below"'],
    ['above', 'staff="1" place="above"'],
    ['between', 'staff="2" place="above"'],
  ] as const)('stand %s the staves', (placement, attributes) => {
    const score = read(TWO_BARS);
    const change: Marking = {
      ...{ kind: 'change', id: 'marking-1', at: ZERO, bar: 0, beat: rational(1), graceNote: null },
      ...{ left: [], right: [{ letter: 'F', position: 1 }], ...PLAIN_CHANGE },
    };
    const done = annotateSource(score, [change], { others: 'keep', placement });
    expect(done.ok && insertionsIn(done.value.text)[0]).toContain(attributes);
  });

  it('put the right foot above the left', () => {
    const score = read(TWO_BARS);
    const both: Marking = {
      kind: 'change',
      id: 'marking-1',
      at: { num: 0, den: 1 },
      bar: 0,
      beat: { num: 1, den: 1 },
      graceNote: null,
      left: [{ letter: 'C', position: 1 }],
      right: [{ letter: 'G', position: -1 }],
      ...PLAIN_CHANGE,
    };
    const done = annotateSource(score, [both], { others: 'keep' });
    expect(done.ok && insertionsIn(done.value.text)[0]).toMatch(/>G♭<lb\/>C♯<\/rend><\/dir>$/);
    expect(done.ok && markingsOf(read(done.value.text))).toEqual(['0 C♯ G♭']);
  });

  it.each([
    ['plain', TWO_BARS],
    ['indented', TWO_BARS.replace(/<(measure|staff|\/measure)/g, '\n    <$1')],
    ['with Windows line ends', TWO_BARS.replace(/<(measure|staff|\/measure)/g, '\r\n\t<$1')],
    ['with a prefix', TWO_BARS.replace(/<(\/?)(?=[a-z])/gi, '<$1m:').replace('xmlns=', 'xmlns:m=')],
  ])('leave a file %s as it was when they are taken out', (_, mei) => {
    const { text, markings } = annotate(mei);
    expect(markingsOf(read(text))).toEqual(written(markings));
    const emptied = annotateSource(read(text), [], { others: 'keep' });
    expect(emptied.ok && emptied.value.text).toBe(mei);
    expect(withoutInsertions(text.replaceAll('<m:', '<').replaceAll('</m:', '</'))).toBe(
      mei.replaceAll('<m:', '<').replaceAll('</m:', '</'),
    );
    expect(annotate(text).text).toBe(text);
  });

  it('replace those of others only when asked', () => {
    const marks = '<harpPedal staff="1" tstamp="1" c="s"/><dynam staff="1" tstamp="1">p</dynam>';
    const mei = meiScore(bar({ upper: notes('c4', 1), marks }));
    expect(withoutInsertions(annotate(mei, 'keep').text)).toBe(mei);
    expect(withoutInsertions(annotate(mei, 'replace').text)).toBe(
      mei.replace('<harpPedal staff="1" tstamp="1" c="s"/>', ''),
    );
  });

  it('are refused, by the bar’s number, where a measure has no inside', () => {
    const score = read(meiScore(`${bar({ upper: notes('c4', 1) })}<measure n="17"/>`));
    const setting = Object.fromEntries(LETTERS.map((letter) => [letter, 0])) as unknown as Setting;
    const marking: Marking = {
      kind: 'setting',
      setting,
      changed: [],
      ...PLAIN_SETTING,
      id: 'marking-1',
      at: score.bars[1]!.onset,
      bar: 1,
      beat: { num: 1, den: 1 },
      graceNote: null,
    };
    const done = annotateSource(score, [marking], { others: 'keep' });
    expect(done).toMatchObject({ ok: false, problem: { code: 'unsupported' } });
    expect(!done.ok && 'feature' in done.problem && done.problem.feature).toContain('bar 17');
  });
});
