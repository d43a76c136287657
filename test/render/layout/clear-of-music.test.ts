import { describe, expect, it } from 'vitest';
import { clearOfMusic } from '../../../render/geometry/clear-of-music.ts';
import { treeOf } from '../page-tree.ts';

const text = (kind: string, x: number, y: number, words: string): string =>
  `<g class="${kind}"><text x="${x}" y="${y}" font-size="100px"><tspan>${words}</tspan></text></g>`;

const lift = (inside: string) => {
  const svg = `<svg><g class="page-margin" transform="translate(50, 0)">${inside}</g></svg>`;
  const { moved, top } = clearOfMusic(svg, treeOf(svg), {
    overhangs: new Map(),
    passed: new Set(),
    staffTop: 1000,
    unitsPerVu: 10,
  });
  const shifts = [...svg.matchAll(/<g class="(mNum|tempo|dir|reh|tupletNum|hairpin|harm)/g)].map(
    ({ index }) => moved.get(index)?.dy ?? 0,
  );
  const asides = [...svg.matchAll(/<g class="(?:dir|dynam)/g)].map(({ index }) => moved.get(index)?.dx ?? 0);
  return { shifts, asides, top };
};

/** Ink from 850 to 950 over x from 0 to 100. */
const SLUR = '<g class="slur"><path d="M0 850 L100 950"/></g>';

describe('over a system', () => {
  it('what touches nothing stays where the layout set it', () => {
    expect(lift(SLUR + text('mNum', 400, 900, '12')).shifts).toEqual([0]);
  });

  it('a bar number on a slur is lifted over it', () => {
    const { shifts, top } = lift(SLUR + text('mNum', 0, 900, '12'));
    expect(shifts[0]).toBeLessThan(-20);
    expect(top).toBeLessThan(850);
  });

  it('a bar number gives way to the words of a tempo', () => {
    const [tempo, number] = lift(
      text('mNum', 0, 900, '12') + text('tempo', 0, 900, 'Lento'),
    ).shifts.reverse();
    expect(tempo).toBe(0);
    expect(number).toBeLessThan(-80);
  });

  it('words are lifted off the number of a rest', () => {
    expect(
      lift(`<g class="multiRestNum"><path d="M0 850 L0 950"/></g>${text('tempo', 0, 900, 'Lento')}`)
        .shifts[0],
    ).toBeLessThan(-20);
  });

  it('the figure of a tuplet is moved off a note, away from its own', () => {
    const sign = (y: number): string => `<g class="tupletNum"><path d="M0 ${y} L40 ${y + 40}"/></g>`;
    const tuplet = (y: number): string =>
      `<g class="tuplet">${sign(y)}<g class="notehead"><path d="M0 1100 L40 1120"/></g></g>`;
    const other = '<g class="note"><path d="M0 1000 L40 1030"/></g>';
    expect(lift(other + tuplet(1000)).shifts[0]).toBeLessThan(-20);
    expect(lift(other.replaceAll('10', '12') + tuplet(1200)).shifts[0]).toBeGreaterThan(10);
  });

  it('a hairpin is moved off a beam', () => {
    const beam = '<g class="beam"><path d="M0 1300 L400 1310"/></g>';
    expect(lift(`${beam}<g class="hairpin"><path d="M0 1300 L400 1320"/></g>`).shifts[0]).not.toBe(0);
  });

  it('a hairpin is moved off words that stay between the staves', () => {
    const words = text('dir', 0, 1900, 'dolce');
    const hairpin = '<g class="hairpin"><path d="M0 1890 L400 1900"/></g>';
    const [stays, moved] = lift(words + hairpin).shifts;
    expect(stays).toBe(0);
    expect(moved).not.toBe(0);
  });

  it('words on a dynamic of their moment go behind it', () => {
    const dynamic =
      '<g class="dynam"><use href="#E520-5" transform="translate(0, 1900) scale(0.1, 0.1)"/></g>';
    const slur = '<g class="slur"><path d="M150 1850 L400 1950"/></g>';
    for (const kind of ['dir', 'dynam']) {
      const asideOf = (y: number, more = ''): number | undefined =>
        lift(dynamic + text(kind, 0, y, 'dim.') + more).asides.at(-1);
      expect(asideOf(1900)).toBeGreaterThan(40);
      expect(asideOf(1900, slur)).toBe(0);
      expect(asideOf(2100)).toBe(0);
    }
  });

  it('a figure far from the beam of its group comes to its side of the beam', () => {
    const beam = '<polygon points="0,1300 400,1280 400,1320 0,1340"/>';
    const sign = (y: number): string => `<g class="tupletNum"><path d="M180 ${y} L220 ${y + 40}"/></g>`;
    const heads = '<g class="notehead"><path d="M0 1100 L40 1120"/></g>';
    const group = (y: number): string =>
      `<g class="beam">${beam}<g class="tuplet">${sign(y)}${heads}</g></g>`;
    const [far] = lift(group(1700)).shifts;
    expect(1700 + far!).toBeGreaterThan(1330);
    expect(1700 + far!).toBeLessThan(1360);
    expect(lift(group(1345)).shifts).toEqual([0]);
  });

  it('chord symbols come down to the staff, all of them together', () => {
    expect(lift(text('harm', 0, 500, 'G') + text('harm', 300, 500, 'D')).shifts).toEqual([
      // To two vu above the staff, in steps of a half.
      455, 455,
    ]);
  });

  it('what stands between the staves is not lifted', () => {
    const low = `<g class="slur"><path d="M0 1850 L100 1950"/></g>${text('dir', 0, 1900, 'dolce')}`;
    expect(lift(low).shifts).toEqual([0]);
  });
});
