import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { PageIndex, PageMarking } from '../../../server/page/client/score/drawn/page-markings.ts';
import {
  followMarking,
  followMovedMarking,
  followSpot,
} from '../../../server/page/client/selection/follow-selection.ts';
import { smallPart } from '../../part-builder.ts';

const planOf = (upper: string) =>
  planPedals(smallPart({ upper, quartersPerMinute: 60 }), DEFAULT_PLAN_OPTIONS);

const marking = (id: string, bar: number, pedals: string): PageMarking => ({
  id,
  kind: 'change',
  pedals,
  bar,
  onsetQuarters: bar * 4,
  beat: '1',
  page: 1,
  moves: [],
});

const indexOf = (...markings: readonly PageMarking[]): PageIndex => ({
  markings,
  pageOfBar: () => 1,
  markingOfMove: [],
});

describe('what the user looks at, when the plan changes', () => {
  it('is the same move, though another comes before it now', () => {
    const before = planOf('C4/4 | E4/4 | F4/2 F#4/2');
    const now = planOf('C4/4 | E4/2 Eb4/2 | F4/2 F#4/2');
    expect(before.moves.map(({ letter }) => letter)).toEqual(['F']);
    expect(now.moves.map(({ letter }) => letter)).toEqual(['E', 'F']);
    expect(followSpot({ kind: 'move', move: 0 }, before, now)).toEqual({ kind: 'move', move: 1 });
  });

  it('is nothing where the move is no longer needed', () => {
    const before = planOf('C4/4 | F4/2 F#4/2');
    const now = planOf('C4/4 | F4/2 F4/2');
    expect(followSpot({ kind: 'move', move: 0 }, before, now)).toBeNull();
  });

  it('is the same finding, and nothing where it was fixed', () => {
    const before = planOf('F4+F#5/4 | E4/4 | E4/4 | D4+D#5/4');
    const now = planOf('F4+G5/4 | E4/4 | E4/4 | D4+D#5/4');
    const second = before.findings.findIndex(({ bar, severity }) => bar === 3 && severity === 'stop');
    const followed = followSpot({ kind: 'finding', finding: second }, before, now);
    expect(followed?.kind === 'finding' && now.findings[followed.finding]?.bar).toBe(3);
    const first = before.findings.findIndex(({ bar, severity }) => bar === 0 && severity === 'stop');
    expect(followSpot({ kind: 'finding', finding: first }, before, now)).toBeNull();
  });

  it('is what is left of a passage that was fixed in part: F and F♯, then D and D♯ in the next bar', () => {
    const before = planOf('F4+F#5/4 | D4+D#5/4');
    const now = planOf('F4+G5/4 | D4+D#5/4');
    expect(before.findings.map(({ places }) => places.length)).toEqual([2]);
    const ids = now.findings[0]!.notes;
    expect(before.findings[0]!.notes).toEqual(expect.arrayContaining([...ids]));
    expect(followSpot({ kind: 'finding', finding: 0 }, before, now)).toEqual({ kind: 'finding', finding: 0 });
  });

  it('is the move of a marking that is made elsewhere now, so that it can be moved on', () => {
    const score = smallPart({ upper: 'C4/4 | r/4 | E4/4 | C#4/4 E4/4 | F4/4', quartersPerMinute: 60 });
    const before = planPedals(score, DEFAULT_PLAN_OPTIONS);
    const pin = { kind: 'move', letter: 'C', position: 1, at: rational(5) } as const;
    const now = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, pins: [pin] });
    const index = indexOf({ ...marking('marking-1', before.moves[0]!.bar, 'C♯'), moves: [0] });
    const spot = { kind: 'marking', id: 'marking-1' } as const;
    expect(followMovedMarking(spot, index, before, now)).toEqual({ kind: 'move', move: 0 });
    expect(followMovedMarking(spot, index, before, before)).toBeNull();
  });

  it('is the marking at the same place, under whatever id it is drawn now', () => {
    const before = indexOf(marking('marking-1', 0, 'C♯'), marking('marking-2', 3, 'F♯'));
    const now = indexOf(marking('marking-1', 3, 'F♯'));
    expect(followMarking({ kind: 'marking', id: 'marking-2' }, before, now)).toEqual({
      kind: 'marking',
      id: 'marking-1',
    });
    expect(followMarking({ kind: 'marking', id: 'marking-1' }, before, now)).toBeNull();
  });
});
