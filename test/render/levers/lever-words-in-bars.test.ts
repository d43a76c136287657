import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { completeEngraving } from '../../../render/engraving-options.ts';
import { standingX0 } from '../../../render/layout/spaces/stance.ts';
import { drawPrinted } from '../../../render/markings/printed-markings.ts';
import { standingFinder } from '../../../render/markings/standing.ts';
import { smallPart } from '../../part-builder.ts';

const SCORE = smallPart({ upper: 'C4/1 D4/1 E4/1 F4/1 | G4/4' });
const ENGRAVING = completeEngraving({ level: 'beginner' }, 'lever');

const change = (at: number, toldInWords: boolean, neededLaterBy: readonly string[] | null = null) => {
  const lever = { string: { letter: 'F', octave: 4 }, alter: 0, hand: 'left', to: 'down' } as const;
  return {
    kind: 'lever-change',
    changes: [lever],
    inWords: toldInWords ? [lever] : [],
    at: rational(at),
    bar: 0,
    neededLaterBy,
    graceNote: null,
    onReturn: [],
    atOneTime: [],
    timesPlayed: 1,
  } as never;
};

describe('a lever change between the staves, where bar lines run through', () => {
  it('begins in its bar where it is made inside of it', () => {
    const standing = standingFinder(SCORE, 'foot');
    expect(standing(change(1, false)).beginsInBar).toBe(true);
    expect(standing(change(0, false)).beginsInBar).toBe(false);
  });

  it('begins at its moment where its string is played later, and not before', () => {
    const standing = standingFinder(SCORE, 'foot');
    expect(standing(change(1, true, ['later']))).toMatchObject({ stance: 'from', endsBefore: ['later'] });
    expect(standing(change(1, true)).stance).toBe('before');
  });

  it('has the hand under its name, which takes no width of its own', () => {
    const plain = drawPrinted(change(1, false), { ...ENGRAVING, leverHands: false });
    const told = drawPrinted(change(1, false), ENGRAVING);
    expect(told.text).toBe('F♮4 l.h.');
    expect(told.box.widthVu).toBe(plain.box.widthVu);
    expect(drawPrinted(change(1, true), ENGRAVING).text).toBe('F♮4 down l.h.');
  });

  it('stands between its note and the one before, with its octave under its note', () => {
    const around = { bar: { x0: 0, x1: 900 }, leftEdges: new Map([['own', 260]]), unitsPerVu: 10 };
    const art = drawPrinted(change(1, false), ENGRAVING);
    const standing = { ...standingFinder(SCORE, 'foot')(change(1, false)), endsBefore: ['own'] };
    const x0 = standingX0({ ...standing, ...art }, 200, 10 * art.box.widthVu, around);
    expect(x0 + 10 * (art.endVu! - art.tailVu!)).toBe(260);
    expect(art.tailVu).toBeLessThan(0.5 * art.endVu!);
  });
});
