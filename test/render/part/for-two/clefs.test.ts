import { describe, expect, it } from 'vitest';
import { descendantsNamed, type HarpPart, parseXml } from '../../../../engine/index.ts';
import { outlineDocument } from '../../../../render/layout/lines/document-outline.ts';
import { setForTwo } from '../../../../render/part/for-two/set-for-two.ts';
import { meiScore } from '../../small-score.ts';

const HARPS = ['1', '2'].map(
  (n): HarpPart => ({
    name: `Harp ${n}`,
    partIds: ['P1'],
    players: 1,
    staves: 2,
    meiStaves: ['1', '2'],
  }),
);

/** The lower staff goes up to a treble clef and comes back; each clef stands in one voice, and the other repeats it. */
const LOWER = `<staff n="2"><layer n="1"><note xml:id="a" pname="c" oct="3" dur="2"/><clef xml:id="up" shape="G" line="2"/>
<note xml:id="b" pname="c" oct="5" dur="2"/><clef xml:id="down2" sameas="#down"/></layer>
<layer n="2"><note xml:id="c" pname="e" oct="3" dur="2"/><clef xml:id="up2" sameas="#up"/><note xml:id="d" pname="e" oct="5" dur="2"/>
<clef xml:id="down" shape="F" line="4"/></layer></staff>`;

const setWith = (others: readonly string[]) => {
  const text = new TextDecoder()
    .decode(meiScore({ bars: ['c5.1 / R', 'c5.1 / c3.1'] }))
    .replace('<staff n="2"><layer n="1"><mRest/></layer></staff>', LOWER);
  const set = setForTwo(text, ['1', '2'], HARPS, new Set(others));
  if (set === null) throw new Error('not set');
  return set;
};

/** What clef each staff has after the first bar. */
const clefsAfter = (others: readonly string[]) => {
  const { clefs } = outlineDocument(setWith(others).text)!.measures[0]!;
  return ['2', '4'].map((n) => /shape="(.)"/.exec(clefs.get(n) ?? '')?.[1]);
};

const ids = ['a', 'b', 'c', 'd'];
const second = (names: readonly string[]) => names.map((name) => `${name}-p2`);

describe('clefs of a part that is set for two players', () => {
  it.each([
    ['the first player rests', ids],
    ['the second player rests', second(ids)],
    ['the first player has the upper voice', ['c', 'd', 'a-p2', 'b-p2']],
    ['the first player has the lower voice', ['a', 'b', 'c-p2', 'd-p2']],
    ['the first player has the first half', ['b', 'd', 'a-p2', 'c-p2']],
  ])('hold for both players after the bar where %s', (_name, others) => {
    expect(clefsAfter(others)).toEqual(['F', 'F']);
  });

  it('stand in a bar of rest once, without those between', () => {
    const { root } = setWith(ids);
    const [staff] = descendantsNamed(root, 'staff').filter(({ attributes }) => attributes.n === '2');
    expect(descendantsNamed(staff!, 'mRest', 'clef').map(({ name }) => name)).toEqual(['mRest', 'clef']);
  });

  it('refer to clefs that are there, and no two signs share an id', () => {
    for (const others of [ids, second(ids), ['c', 'd', 'a-p2', 'b-p2'], ['a', 'b', 'c-p2', 'd-p2']]) {
      const parsed = parseXml(setWith(others).text);
      if (!parsed.ok) throw new Error('not well-formed');
      const clefs = descendantsNamed(parsed.value, 'clef').map(({ attributes }) => attributes);
      const named = clefs.flatMap((each) => each['xml:id'] ?? []);
      expect(new Set(named).size).toBe(named.length);
      for (const { sameas } of clefs) if (sameas !== undefined) expect(named).toContain(sameas.slice(1));
    }
  });
});
