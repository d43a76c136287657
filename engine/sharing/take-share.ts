import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../pedals/options.ts';
import { type Remark, remarkOnAll } from '../score/model/remark.ts';
import type { Score } from '../score/model/score.ts';
import type { PlayerShare } from '../score/model/texts.ts';
import { nameCount } from '../words/counts.ts';
import type { PlayerChoice } from './catalogue.ts';
import { dividePart } from './divide/divide-part.ts';
import type { DivisionAim } from './divide/division-weights.ts';
import { nameShare, takeShares } from './divided-shares.ts';
import { tellPlayers } from './told-players.ts';

/**
 * One player's share of a part that is written for several: the notes of the others become cues, which ask for nothing.
 * Notes that nothing tells apart stay, and `share.unclear` has their bars. The part's name tells the player, since each
 * prints pages of their own.
 *
 * @returns the score itself for all players, and for a part of one player, with a remark
 */
export const takeShare = (score: Score, choice: PlayerChoice): Score => {
  if (choice === 'all') return score;
  if (score.harp.players === 1) {
    return withRemark(score, 'The part is not known to be for several players: all of it is planned.');
  }
  const player = Number(choice);
  const told = tellPlayers(score);
  const others = new Set<string>();
  const unclear = new Set<number>();
  for (const { id, bar, role } of score.notes) {
    const players = told.get(id)!;
    if (role === 'cue' || players === 'all') continue;
    if (players === 'unknown') unclear.add(bar);
    else if (!players.includes(player)) others.add(id);
  }
  const share: PlayerShare = { player, others, unclear: [...unclear].sort((a, b) => a - b) };
  const notes = score.notes.map((note) => (others.has(note.id) ? { ...note, role: 'cue' as const } : note));
  const sweeps = score.sweeps.filter(({ from }) => !others.has(from));
  return withRemark(
    { ...score, harp: { ...score.harp, name: nameShare(score.harp.name, player) }, notes, sweeps, share },
    `Planned for player ${player} of ${score.harp.players}: ${others.size === 0 ? 'no notes are' : nameCount(others.size, 'note is', 'notes are')} for others only.`,
  );
};

/**
 * One player's share of a part that is divided between two; the part's name tells the player.
 *
 * @param options how both parts are planned to see whether they can be played
 * @param played the score at the times at which it is played, where they are otherwise than written
 * @returns the score itself for all players
 */
export const takeDividedShare = (
  score: Score,
  choice: PlayerChoice,
  aim: DivisionAim,
  options: PlanOptions = DEFAULT_PLAN_OPTIONS,
  played = score,
): Score => {
  if (choice === 'all') {
    return withRemark(
      score,
      'The part is divided only where one of the players is chosen: all of it is planned.',
    );
  }
  const [first, second] = takeShares(score, dividePart(played, aim, options));
  return choice === '1' ? first : second;
};

const withRemark = (score: Score, message: string): Score => {
  const remark: Remark = remarkOnAll('harp-chosen', message);
  return { ...score, remarks: [...score.remarks, remark] };
};
