import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { DEFAULT_ENGRAVING } from '../../../render/engraving-options.ts';
import { markingsFor } from '../../../render/markings/printed-markings.ts';
import { type MarkSide, sideOf } from '../../../render/source/insertion/mark-content.ts';
import { smallPart } from '../../part-builder.ts';

describe('what is tuned before playing', () => {
  it('stands in a file over the first system, as on the pages, wherever the changes stand', () => {
    const score = smallPart({ upper: 'r/4 | F#4/4', lower: 'C#1/4 | r/4' });
    const below: MarkSide = { staff: 'lowest', place: 'below' };
    const plan = { kind: 'pedal' as const, plan: planPedals(score) };
    const sides = markingsFor(score, plan, DEFAULT_ENGRAVING, []).map(
      (marking) => [marking.kind, sideOf(marking, below)] as const,
    );
    expect(sides.filter(([kind]) => kind === 'tuning')).toEqual([
      ['tuning', { staff: 'highest', place: 'above' }],
    ]);
    const others = sides.filter(([kind]) => kind !== 'tuning');
    expect(others.length).toBeGreaterThan(0);
    for (const [, side] of others) expect(side).toEqual(below);
  });
});
