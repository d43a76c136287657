import { describe, expect, it } from 'vitest';
import { clearOfMusic } from '../../../render/geometry/clearing/clear-of-music.ts';
import type { Box } from '../../../render/text/outline.ts';
import { treeOf } from '../page-tree.ts';

const text = (kind: string, x: number, y: number, words: string): string =>
  `<g class="${kind}"><text x="${x}" y="${y}" font-size="100px"><tspan>${words}</tspan></text></g>`;

/** Clears a drawing without margins. */
const clear = (svg: string, counts: readonly Box[] = []) =>
  clearOfMusic(svg, treeOf(svg), {
    overhangs: new Map(),
    passed: new Set(),
    staffTop: 1000,
    unitsPerVu: 10,
    counts,
    starts: [],
  });

const lift = (inside: string, counts: readonly Box[] = []) => {
  const svg = `<svg><g class="page-margin" transform="translate(50, 0)">${inside}</g></svg>`;
  const { moved, top } = clear(svg, counts);
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

  it('bar numbers stand over the line of the counts, not to be read as one with them, and words over both', () => {
    const counts = [{ x0: 700, y0: 860, x1: 730, y1: 900 }];
    const { shifts } = lift(
      text('mNum', 400, 940, '12') + text('tempo', 380, 900, 'Adagio molto') + text('reh', 400, 900, 'A'),
      counts,
    );
    const [number, tempo, mark] = shifts as [number, number, number];
    expect(940 + number).toBeLessThan(860);
    expect(940 + number).toBeGreaterThan(840);
    expect(900 + tempo).toBeLessThan(940 + number);
    expect(mark).toBeLessThan(tempo);
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

  it('words of tempo stand at one height with those near them, and not with words far above', () => {
    const number = (y: number): string => `<g class="multiRestNum"><path d="M0 ${y} L0 950"/></g>`;
    const tempos = text('tempo', 0, 900, 'Lento') + text('tempo', 900, 900, 'rit.');
    const [lento, rit] = lift(number(870) + tempos).shifts;
    expect(lento).toBeLessThan(-20);
    expect(rit).toBe(lento);
    expect(lift(number(700) + tempos).shifts[1]).toBe(0);
  });

  it('words of tempo over others do not lift those beside them', () => {
    const stacked = text('tempo', 0, 900, 'Lento') + text('tempo', 20, 890, 'Adagio');
    const [lower, upper, beside] = lift(stacked + text('tempo', 900, 900, 'rit.')).shifts;
    expect([lower, beside]).toEqual([0, 0]);
    expect(upper).toBeLessThan(-50);
  });

  it('words are lifted off the number of a rest, and over it where they stand beside it', () => {
    const beside = (x: number): number =>
      lift(`<g class="multiRestNum"><path d="M${x} 850 L${x} 950"/></g>${text('tempo', 0, 900, 'Lento')}`)
        .shifts[0]!;
    expect(beside(0)).toBeLessThan(-20);
    expect(beside(300)).toBe(beside(0));
    expect(beside(900)).toBe(0);
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

  it('a hairpin is moved off words between the staves', () => {
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

  it('chord symbols come down from the number of an ending, on which the layout sets them', () => {
    const ending = '<g class="voltaBracket"><path d="M0 440 L400 440 L400 505"/></g>';
    const number = '<g class="ending"><rect x="0" y="480" width="20" height="20"/></g>';
    const [down] = lift(ending + number + text('harm', 5, 500, 'F')).shifts;
    expect(down).toBe(455);
  });

  it('words between the staves go off a note, up or down, and not into a staff', () => {
    const head = '<g class="notehead"><rect x="0" y="1890" width="40" height="20"/></g>';
    const lines = [1770, 1790, 1810, 1830, 1850].map((y) => `<path d="M0 ${y} L2000 ${y}"/>`).join('');
    const [free] = lift(head + text('dir', 0, 1900, 'dolce')).shifts;
    expect(free).toBeLessThan(0);
    const [under] = lift(`<g class="staff">${lines}</g>${head}${text('dir', 0, 1900, 'dolce')}`).shifts;
    expect(under).toBeGreaterThan(0);
  });

  it('words between the staves stay in their bar where there is room, and else cross its line', () => {
    const line = '<g class="barLine"><path d="M15 1000 L15 2500"/></g>';
    const wall = '<g class="notehead"><rect x="-300" y="1700" width="290" height="400"/></g>';
    const words = text('dir', 0, 1900, 'i');
    const asideOf = (others: string): number => lift(line + others + words).asides[0]!;
    expect(asideOf('')).toBeLessThan(-12);
    expect(asideOf(wall)).toBe(0);
  });

  it('words that a file has twice at one place stay on one another', () => {
    const [first, second] = lift(text('dir', 0, 1900, 'cresc.').repeat(2)).shifts;
    expect([first, second]).toEqual([0, 0]);
  });

  it('a dynamic goes off a note with the words behind it', () => {
    const head = '<g class="notehead"><rect x="0" y="1890" width="20" height="20"/></g>';
    const dynamic =
      '<g class="dynam"><use href="#E520-5" transform="translate(0, 1910) scale(0.1, 0.1)"/></g>';
    const svg = `<svg>${head}${dynamic}${text('dir', 60, 1910, 'dolce')}</svg>`;
    const { moved } = clear(svg);
    const [first, second, ...more] = moved.values();
    expect(more).toEqual([]);
    expect(first!.dy).not.toBe(0);
    expect(second).toEqual(first);
  });

  it('a rest goes off the note of another voice by whole spaces of the staff, and stays on a slur', () => {
    const rest = '<g class="rest"><rect x="0" y="1100" width="20" height="40"/></g>';
    const shiftOf = (other: string): number | undefined => {
      const svg = `<svg>${rest}${other}</svg>`;
      const { moved } = clear(svg);
      return moved.get(svg.indexOf('<g class="rest'))?.dy;
    };
    expect(shiftOf('<g class="notehead"><rect x="0" y="1090" width="20" height="25"/></g>')).toBe(20);
    expect(shiftOf('<g class="stem"><rect x="22" y="1090" width="2" height="70"/></g>')).toBe(60);
    expect(shiftOf('<g class="slur"><rect x="0" y="1090" width="20" height="25"/></g>')).toBeUndefined();
  });

  it('a clef goes off the note before it to the right, and never past the note behind it', () => {
    const clef = '<g class="clef"><rect x="100" y="1100" width="30" height="80"/></g>';
    const head = (x: number): string =>
      `<g class="notehead"><rect x="${x}" y="1120" width="20" height="20"/></g>`;
    const shiftOf = (notes: string): number => {
      const svg = `<svg>${clef}${notes}</svg>`;
      const { moved } = clear(svg);
      return moved.get(svg.indexOf('<g class="clef'))?.dx ?? 0;
    };
    expect(shiftOf(head(95) + head(180))).toBeGreaterThanOrEqual(15);
    expect(shiftOf(head(95) + head(140))).toBe(0);
    expect(shiftOf(head(60) + head(180))).toBe(0);
  });

  it('a clef that the layout sets before the last note of its own layer goes behind that', () => {
    const head = (x: number): string =>
      `<g class="note"><g class="notehead"><rect x="${x}" y="1120" width="20" height="20"/></g></g>`;
    const svg = `<svg><g class="layer">${head(90)}${head(132)}<g class="clef"><rect x="100" y="1100" width="30" height="80"/></g></g><g class="layer">${head(200)}</g></svg>`;
    const { moved } = clear(svg);
    expect(moved.get(svg.indexOf('<g class="clef'))?.dx).toBeGreaterThanOrEqual(52);
  });

  it('what finds no free place goes where it touches least, and is told', () => {
    const wall = (y0: number, y1: number): string =>
      `<g class="notehead"><rect x="0" y="${y0}" width="400" height="${y1 - y0}"/></g>`;
    const svg = `<svg>${wall(1700, 1895)}${wall(1905, 2100)}<g class="hairpin"><rect x="0" y="1880" width="400" height="20"/></g></svg>`;
    const { crowded } = clear(svg);
    expect(crowded).toBe(1);
  });
});
