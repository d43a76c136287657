import { describe, expect, it } from 'vitest';
import { E_FLAT_TUNING } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { midiOf } from '../../../engine/music/pitch.ts';
import { toNumber } from '../../../engine/music/rational.ts';
import { buildPlayback } from '../../../engine/performance/build-playback.ts';
import { leversUpAt, performLevers } from '../../../engine/performance/perform-levers.ts';
import { soundsOf } from '../../../engine/performance/perform-part.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { smallPart } from '../../part-builder.ts';

const perform = (score: Score) => {
  const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning });
  const moves = plan.moves.map(({ at, ...move }) => ({ ...move, quarters: toNumber(at) }));
  return performLevers(buildPlayback(score), { tuning: plan.tuning, initial: plan.initial, moves });
};

describe('a part for the lever harp as it is played', () => {
  const score = smallPart({ upper: 'A4/1 r/3 | F4/1 r/3 | F#4/1 r/3' });

  it('has the levers up that are set before, and sets the others in time', () => {
    const performance = perform(score);
    expect([...leversUpAt(performance, 0)]).toEqual(['A4']);
    const [change] = performance.changes;
    expect(change).toMatchObject({ string: 'F4', to: 'up', hand: 'left' });
    expect(change!.at).toBeGreaterThan(4);
    expect(change!.at).toBeLessThanOrEqual(8);
    expect([...leversUpAt(performance, change!.at)].sort()).toEqual(['A4', 'F4']);
  });

  it('sets a lever on every pass that needs it, and passes over what stands already', () => {
    const repeated = { ...score, playOrder: [1, 2, 1, 2] };
    const { changes } = perform(repeated);
    const told = changes.map(({ string, to }) => `${string} ${to}`);
    expect(told.slice(0, 3)).toEqual(['F4 up', 'F4 down', 'F4 up']);
  });

  it('sweeps over strings as their levers stand', () => {
    const sweep = smallPart({ upper: 'C4/2> C5/2', keyFifths: -3 });
    const performance = performLevers(buildPlayback(sweep), {
      tuning: E_FLAT_TUNING,
      initial: [{ letter: 'F', octave: 4 }],
      moves: [],
    });
    const swept = soundsOf(performance, 0).plucks.filter(({ kind }) => kind === 'swept');
    const midiOfString = (letter: 'D' | 'E' | 'F', alter: number): number =>
      midiOf({ letter, octave: 4, alter });
    expect(swept.map(({ midi }) => midi).slice(0, 3)).toEqual([
      midiOfString('D', 0),
      midiOfString('E', -1),
      midiOfString('F', 1),
    ]);
  });
});
