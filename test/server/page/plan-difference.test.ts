import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toNumber } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { openScore } from '../../../engine/score/open.ts';
import { comparePedalPlans } from '../../../server/page/client/variants/pedal-plans.ts';
import {
  compareMoves,
  movesOfOther,
  movesOfOwn,
} from '../../../server/page/client/variants/plan-difference.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { cases } from '../../thorough.ts';

const planOf = (...bars: readonly string[]) => {
  const opened = openScore(new TextEncoder().encode(buildHarp(...bars)));
  if (!opened.ok) throw new Error(opened.problem.code);
  return planPedals(opened.value);
};

const timed = ({ moves }: ReturnType<typeof planOf>) =>
  moves.map(({ letter, to, at }) => ({ goal: `${letter}${to}`, quarters: toNumber(at) }));

const comparePlans = (here: ReturnType<typeof planOf>, there: ReturnType<typeof planOf>) =>
  compareMoves(timed(here), timed(there));

const bars = (...names: readonly string[]) => planOf(...names.map((name) => note(name, 4)));

describe('two plans of one part', () => {
  it('that make the same moves do not differ', () => {
    const plan = bars('C4', 'C#4', 'C4', 'F#4');
    expect(comparePlans(plan, plan)).toEqual({ elsewhere: [], onlyHere: [], onlyThere: [] });
  });

  it('tell a move that only one of them makes', () => {
    const { onlyHere, onlyThere } = comparePlans(bars('C4', 'C#4', 'D4'), bars('C4', 'C4', 'D4'));
    expect({ onlyHere, onlyThere }).toEqual({ onlyHere: [0], onlyThere: [] });
  });

  it('tell a move that one of them makes later', () => {
    const there = bars('C4', 'D4', 'D4', 'C#4');
    const { elsewhere, onlyHere, onlyThere } = comparePlans(bars('C4', 'C#4', 'D4', 'D4'), there);
    expect({ elsewhere, onlyHere, onlyThere }).toEqual({
      elsewhere: [{ here: 0, there: 0 }],
      onlyHere: [],
      onlyThere: [],
    });
  });

  it('tell the setting before the first note side by side', () => {
    const plan = bars('C4', 'F4');
    const { rows, differences } = comparePedalPlans({ plan, bars: [] }, 'sharp', bars('C4', 'F#4'));
    expect(differences).toEqual([]);
    expect(rows.find(([what]) => what === 'Start with')).toEqual([
      'Start with',
      'D♮ C♮ B♮ | E♮ F♮ G♮ A♮',
      'D♮ C♮ B♮ | E♮ F♯ G♮ A♮',
    ]);
  });

  it('differ by the same moves from either side, each told once', () => {
    const part = fc.array(fc.constantFrom('C4', 'C#4', 'Cb4', 'F4', 'F#4'), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(part, part, (a, b) => {
        const [here, there] = [bars(...a), bars(...b)];
        const [forth, back] = [comparePlans(here, there), comparePlans(there, here)];
        expect(back.onlyHere.length - back.onlyThere.length).toBe(
          forth.onlyThere.length - forth.onlyHere.length,
        );
        const told = movesOfOwn(forth);
        expect(new Set(told).size).toBe(told.length);
        const others = movesOfOther(forth);
        expect(new Set(others).size).toBe(others.length);
        // What is told of neither stands in both at the same moment.
        expect(here.moves.length - told.length).toBe(there.moves.length - others.length);
      }),
      { numRuns: cases(60) },
    );
  });
});
