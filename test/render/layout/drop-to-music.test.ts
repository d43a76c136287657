import { describe, expect, it } from 'vitest';
import { ZERO } from '../../../engine/music/rational.ts';
import { PADDING_VU } from '../../../render/draw/drawing.ts';
import type { Obstacle } from '../../../render/geometry/obstacles.ts';
import { dropToMusic } from '../../../render/layout/spaces/drop-to-music.ts';
import type { PlacedSpace } from '../../../render/layout/spaces/placed-space.ts';
import { linesToRaise, raiseToMusic } from '../../../render/layout/spaces/raise-to-music.ts';
import { ALL_STAVES } from '../../../render/layout/spaces/reserve-spaces.ts';
import { STANDS_OVER } from '../../../render/markings/standing.ts';

/** One vu is ten units here. */
const UNITS_PER_VU = 10;
/** The ink of a count ends a little above the end of its box. */
const INK_BOTTOM = 40 - PADDING_VU * UNITS_PER_VU;

const countAt = (x: number, y: number): PlacedSpace => {
  const box = { x0: x, y0: y, x1: x + 40, y1: y + 40 };
  const room = {
    ...{ id: `count-${x}`, at: ZERO, bar: 0, graceNote: null, line: 'counts' as const, staves: ALL_STAVES },
    ...STANDS_OVER,
    box: { widthVu: 4, heightVu: 4 },
  };
  return { room, box, placeholder: { id: room.id, x, y } as unknown as PlacedSpace['placeholder'] };
};

const symbol = (x: number, y: number): Obstacle => ({
  kind: 'harm',
  box: { x0: x, y0: y, x1: x + 30, y1: y + 40 },
});

const topsOf = (counts: readonly PlacedSpace[], obstacles: readonly Obstacle[]): number[] =>
  dropToMusic(counts, obstacles, 'below', UNITS_PER_VU).map(({ box }) => box.y0);

describe('counts over the music', () => {
  it('come down together as far as all of them are free', () => {
    const [first, second] = topsOf([countAt(0, 0), countAt(200, 0)], [symbol(0, 200), symbol(200, 120)]);
    expect(first).toBe(second);
    expect(first).toBeGreaterThan(0);
    expect(first! + INK_BOTTOM).toBeLessThan(120);
  });

  it('go up together where one of them all but touches a chord symbol under it', () => {
    const [first, second] = topsOf([countAt(0, 0), countAt(200, 0)], [symbol(200, 36)]);
    expect(first).toBe(second);
    expect(first).toBeLessThan(0);
  });

  it('go under a title that would part them from the staff, on one level if there is one, else bar by bar', () => {
    const title = { kind: 'dir', box: { x0: 0, y0: 60, x1: 100, y1: 100 } };
    const staff = { kind: 'staff', box: { x0: 0, y0: 260, x1: 300, y1: 262 } };
    const note = { kind: 'note', box: { x0: 200, y0: 200, x1: 240, y1: 260 } };
    const second = { ...countAt(200, 0), room: { ...countAt(200, 0).room, bar: 1 } };
    const [one, other] = topsOf([countAt(0, 0), second], [title, staff, note]);
    expect(one).toBe(other);
    expect(one! + INK_BOTTOM).toBeLessThan(200);
    expect(one! + INK_BOTTOM).toBeGreaterThan(100);
    const high = { kind: 'note', box: { x0: 200, y0: 80, x1: 240, y1: 260 } };
    const [under, over] = topsOf([countAt(0, 0), second], [title, staff, high]);
    expect(under).toBeGreaterThan(over!);
    expect(under! + INK_BOTTOM).toBeLessThan(260);
    expect(over! + INK_BOTTOM).toBeLessThan(80);
  });

  it('stay where something over them leaves no room', () => {
    const over = { kind: 'tempo', box: { x0: 0, y0: -40, x1: 300, y1: 6 } };
    expect(topsOf([countAt(0, 0), countAt(200, 0)], [symbol(200, 36), over])).toEqual([0, 0]);
  });
});

describe('changes with words under them', () => {
  /** A letter as high as 4 vu, with words under it. */
  const change = (x: number, y: number, words: number): PlacedSpace => {
    const count = countAt(x, y);
    const heightVu = 4 + words;
    return {
      ...count,
      box: { ...count.box, y1: y + heightVu * UNITS_PER_VU },
      room: {
        ...{ ...count.room, line: 'markings', box: { widthVu: 4, heightVu } },
        ...(words === 0 ? {} : { headVu: 4 }),
      },
    };
  };
  const staff = { kind: 'staff', box: { x0: 0, y0: 0, x1: 1000, y1: 50 } };
  const raise = (placed: readonly PlacedSpace[], obstacles: readonly Obstacle[]): number[] => {
    const [line = []] = linesToRaise(placed, 'below', UNITS_PER_VU);
    return raiseToMusic(line, placed, obstacles, UNITS_PER_VU).map(({ box }) => box.y0);
  };

  it('come up to the music, their letters on one level', () => {
    const [first, second] = raise([change(0, 300, 8), change(200, 380, 0)], [staff]);
    expect(first).toBe(second);
    expect(first).toBeLessThan(80);
    expect(first).toBeGreaterThan(50);
  });

  it('stay apart in height where one level would take much more', () => {
    const note = { kind: 'note', box: { x0: 200, y0: 0, x1: 240, y1: 250 } };
    const [first, second] = raise([change(0, 100, 16), change(200, 262, 0)], [staff, note]);
    expect(second! - first!).toBe(162);
  });

  it('without words come up where they hang far below the music, those near each other together', () => {
    const low = { kind: 'note', box: { x0: 0, y0: 0, x1: 40, y1: 280 } };
    const changes = [change(0, 310, 0), change(200, 310, 0), change(900, 310, 0)];
    const lines = linesToRaise(changes, 'below', UNITS_PER_VU);
    const raised = lines.reduce<readonly PlacedSpace[]>(
      (now, line) => raiseToMusic(line, now, [staff, low], UNITS_PER_VU),
      changes,
    );
    const [first, second, far] = raised.map(({ box }) => box.y0);
    expect([first, second]).toEqual([310, 310]);
    expect(far!).toBeLessThan(200);
    expect(far!).toBeGreaterThan(staff.box.y1);
  });
});
