import { describe, expect, it } from 'vitest';
import { planPedals } from '../../engine/pedals/plan.ts';
import { openScore } from '../../engine/score/open.ts';
import { dividePart } from '../../engine/sharing/divide/divide-part.ts';
import { shareOf } from '../../engine/sharing/divide/planned-shares.ts';
import { hasScores, readScoreFile } from './harp-scores.ts';

/** Passages that one harp cannot play, by the printed numbers of bars, and the part where the score names no harp. */
const PASSAGES = [
  { file: 'mx/Bombe.xml', from: 0, until: 3 },
  { file: 'openscore-lieder/lc5060961.mxl', part: 'Piano', from: 19, until: 24 },
  { file: 'openscore-lieder/lc29989154.mxl', part: 'Piano', from: 0, until: 80 },
  { file: 'openscore-lieder/lc5051724.mxl', part: 'Piano', from: 0, until: 73 },
  { file: 'openscore-lieder/lc6199572.mxl', part: 'Piano', from: 0, until: 55 },
] as const;

const LIMIT_MS = 120_000;

const read = ({ file, ...rest }: (typeof PASSAGES)[number]) => {
  const opened = openScore(readScoreFile(file), 'part' in rest ? { part: rest.part } : {});
  if (!opened.ok) throw new Error(opened.problem.code);
  const { value } = opened;
  const inside = ({ bar }: { readonly bar: number }): boolean => bar >= rest.from && bar <= rest.until;
  return { ...value, notes: value.notes.filter(inside), sweeps: value.sweeps.filter(inside) };
};

describe.skipIf(!hasScores)('passages of real parts that one harp cannot play (skipped where absent)', () => {
  it.each(PASSAGES)(
    'are playable by two, every note by one of them: $file',
    (passage) => {
      const score = read(passage);
      expect(planPedals(score).summary.playable).toBe(false);
      for (const aim of ['balanced', 'least'] as const) {
        const { players, stops } = dividePart(score, aim);
        expect(stops).toEqual([0, 0]);
        const shares = ([1, 2] as const).map((player) => shareOf(score, players, player).score);
        for (const share of shares) expect(planPedals(share).summary.playable).toBe(true);
        const played = shares.flatMap(({ notes }) => notes.filter(({ role }) => role !== 'cue'));
        expect(played).toHaveLength(score.notes.filter(({ role }) => role !== 'cue').length);
      }
    },
    LIMIT_MS,
  );
});
