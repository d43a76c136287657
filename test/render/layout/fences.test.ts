import { describe, expect, it } from 'vitest';
import { rational, rationalKey } from '../../../engine/music/rational.ts';
import { type ReservedSpace, withFences } from '../../../render/layout/spaces/reserve-spaces.ts';
import type { Stance } from '../../../render/layout/spaces/stance.ts';
import { chooseLeverMarkings } from '../../../render/levers/lever-markings.ts';
import { fenceFinder } from '../../../render/markings/standing.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';

/** In quarters from the start of the part: where the room of the name of the one change ends, and on which side. */
const fenceOf = (upper: string, change: string, stance: Stance): string | null => {
  const score = smallPart({ upper });
  const { plan, profile } = leverPlanFor(score, { moves: [change] });
  const markings = chooseLeverMarkings(score, plan, profile, { leverLook: 'names', changeWords: false });
  const [marking] = markings.flatMap((each) => (each.kind === 'lever-change' ? [each] : []));
  const standing = { stance, begins: [], endsBefore: [], beginsInBar: true, endsInBar: true };
  const fence = fenceFinder(score)(marking!, standing);
  return fence === null ? null : `${fence.side} ${rationalKey(fence.at)}`;
};

describe('the room for the name of a lever', () => {
  it('begins behind the note before, where the name stands before its own note', () => {
    expect(fenceOf('G4/1 A4/1 F#4/1 G4/1', '1.3 F#4', 'before')).toBe('behind 1');
  });

  it('ends before the next note, where its string is played later', () => {
    expect(fenceOf('G4/1 A4/1 G4/1 F#4/1', '1.2 F#4', 'from')).toBe('before 2');
  });

  it('ends shortly before the end of its bar, where no note comes in it', () => {
    expect(fenceOf('G4/1 r/3 | F#4/4', '1.3 F#4', 'from')).toBe('before 15/4');
  });

  it('is bounded by nothing where no note stands before it in its bar, or where it stands over its note', () => {
    expect(fenceOf('G4/4 | F#4/1 r/3', '2.1 F#4', 'before')).toBeNull();
    expect(fenceOf('G4/1 A4/1 F#4/1 G4/1', '1.3 F#4', 'over')).toBeNull();
  });

  it('is held clear by a room of next to nothing on the same row, at the note beside it', () => {
    const room: ReservedSpace = {
      ...{ id: 'name', at: rational(1, 2), bar: 0, graceNote: null, line: 'markings' },
      ...{ staves: { top: 0, bottom: -1 }, box: { widthVu: 40, heightVu: 9 }, stance: 'before' },
      ...{ begins: [], endsBefore: ['n3'], beginsInBar: true, endsInBar: true },
      fence: { at: rational(1, 4), side: 'behind' },
    };
    const [name, fence, ...more] = withFences([room]);
    expect([name, more]).toEqual([room, []]);
    expect(fence).toMatchObject({ at: rational(1, 4), bar: 0, line: 'markings', stance: 'over' });
    expect(fence!.box.heightVu).toBeLessThan(1);
    expect(fence!.id).not.toBe('name');
    const { fence: _, ...free } = room;
    expect(withFences([free])).toEqual([free]);
  });
});
