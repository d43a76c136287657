import { group } from '../../group.ts';
import { type PedalHarpProfile, stringOf } from '../../harp/profile.ts';
import { stepOf } from '../../music/pitch.ts';
import type { Score } from '../../score/model/score.ts';
import type { StringNeed } from '../../sounding/needs.ts';
import { changeHands } from './planned-shares.ts';
import { otherPlayer, type Player, type Players } from './strands.ts';

type Whose = ReadonlyMap<string, Players>;

/**
 * Divides the notes on strings without discs where one harp is asked for two pitches by one of them: each harp tunes its
 * own. The pitch that is asked for most stays with whoever has most of its notes (with the first player, where the second
 * is to have as little as can be), and the next goes to the other; of further pitches nobody has a string.
 *
 * No pedal serves these notes, so that the feet of neither player have more to do.
 *
 * @param asked of strings without discs
 * @param isOpen whether no words tell whose a note is
 * @returns the same map where nothing is to be divided
 */
export const divideFixedStrings = (
  score: Score,
  players: Whose,
  asked: readonly StringNeed[],
  { fixed }: Pick<PedalHarpProfile, 'fixed'>,
  isOpen: (note: string) => boolean,
  isLeast: boolean,
): Whose => {
  const moved = new Map<string, Player>();
  for (const string of fixed) {
    const here = asked.filter(({ pitch }) => stepOf(stringOf(pitch)) === stepOf(string));
    if (!isClashing(here, players)) continue;
    const [most, next] = [...group(here, ({ pitch }) => pitch.alter).values()].sort(
      (a, b) => b.length - a.length,
    );
    const first = isLeast || countOf(most!, players, 1) >= countOf(most!, players, 2) ? 1 : 2;
    for (const { note } of most!) moved.set(note.id, first);
    for (const { note } of next!) moved.set(note.id, otherPlayer(first));
  }
  if (moved.size === 0) return players;
  return changeHands(score, players, (head) => (isOpen(head) ? (moved.get(head) ?? null) : null));
};

const isClashing = (asked: readonly StringNeed[], players: Whose): boolean =>
  ([1, 2] as const).some((player) => {
    const own = asked.filter(({ note }) => [player, 'both'].includes(players.get(note.id)!));
    return new Set(own.map(({ pitch }) => pitch.alter)).size > 1;
  });

const countOf = (asked: readonly StringNeed[], players: Whose, player: Player): number =>
  asked.filter(({ note }) => players.get(note.id) === player).length;
