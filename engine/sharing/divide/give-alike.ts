import { FINDINGS } from '../../findings/catalogue.ts';
import { group } from '../../group.ts';
import { pitchName } from '../../music/pitch.ts';
import type { PlanOptions } from '../../pedals/options.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { writtenString } from '../../sounding/needs.ts';
import {
  type Attempt,
  changeHands,
  countStops,
  planShare,
  planSharesUpTo,
  toldIn,
} from './planned-shares.ts';
import { otherPlayer, type Player, playersTold } from './strands.ts';

/** Notes of one pitch in a passage that are tried with the other player. */
const MOST_GIVEN = 12;

/**
 * Gives the other player all notes of one pitch in a passage for which a player's feet have no time, wherever that leaves
 * fewer places that cannot be played: beats and voices, by which parts are divided, do not part E5 from E♭5 in turn. Then
 * the division is no longer the one that was proved.
 */
export const giveAlike = (score: Score, found: Attempt, options: PlanOptions): Attempt => {
  let best = found;
  for (const player of [1, 2] as const) {
    for (const notes of notesWithoutTime(score, best, player, options)) {
      const given = new Set(notes);
      const players = changeHands(score, best.players, (head) =>
        given.has(head) ? otherPlayer(player) : null,
      );
      const tried = planSharesUpTo(countStops(best) - 1, score, players, options);
      if (tried !== null) best = { ...tried, proved: false };
    }
  }
  return best;
};

/** By passage and pitch, the notes that a player's feet are late for, of those that nobody is told to play. */
const notesWithoutTime = (
  score: Score,
  { players, stops }: Attempt,
  player: Player,
  options: PlanOptions,
): readonly (readonly string[])[] => {
  if (stops[player - 1] === 0) return [];
  const told = toldIn(score);
  const byId = notesById(score.notes);
  return planShare(score, players, player, options)
    .findings.filter(({ code, places }) => FINDINGS[code].failsBy === 'feet' && places.length > 1)
    .flatMap(({ notes }) => {
      const open = notes.filter((id) => playersTold(told.get(id)) === null);
      return [...group(open, (id) => pitchName(writtenString(byId.get(id)!))).values()];
    })
    .slice(0, MOST_GIVEN);
};
