import { expect, it } from 'vitest';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { withSecondIds, withSecondIdsInPlan } from '../../../engine/sharing/second-ids.ts';
import { smallPart } from '../../part-builder.ts';

const PARTS = [
  smallPart({ upper: 'C4+C#5/4 | G4+Gb3+G#5/4', lower: 'C8/4 | r/4' }),
  smallPart({
    upper: 'E4/1:2 F4/1:2 G4/1:2 A4/1:2 Eb4/1:2 F#4/1:2 G#4/1:2 Ab4/1:2 | (D#5) E4/4',
    quartersPerMinute: 200,
  }),
  smallPart({ upper: 'D##4/2 C4/2 | C#4/2 Db4/2', playOrder: [0, 1, 0, 1] }),
];

it.each(PARTS)('the plan of a part, with ids of its own, is the plan of the part with such ids', (part) => {
  for (const spelling of ['keep', 'suggest', 'free'] as const) {
    const [, second] = part.notes;
    const options = { ...DEFAULT_PLAN_OPTIONS, spelling, omitted: new Set([second!.id]) };
    const renamed = withSecondIds(part);
    const omitted = new Set([renamed.notes[1]!.id]);
    expect(withSecondIdsInPlan(planPedals(part, options))).toEqual(
      planPedals(renamed, { ...options, omitted }),
    );
  }
});
