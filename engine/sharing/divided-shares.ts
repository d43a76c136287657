import { pitchName } from '../music/pitch.ts';
import { rationalKey } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Note } from '../score/model/note.ts';
import { type Remark, remarkOnAll } from '../score/model/remark.ts';
import type { Score } from '../score/model/score.ts';
import type { PlayerShare } from '../score/model/texts.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { listBars, namePlaceInBar } from '../words/bars.ts';
import { nameCount } from '../words/counts.ts';
import { listNames } from '../words/lists.ts';
import { type DividedPart, shareOf } from './divide/planned-shares.ts';

/** The parts of both players of a divided part: each is named for its player, and a remark tells how the part was divided. */
export const takeShares = (score: Score, divided: DividedPart): readonly [Score, Score] => {
  const take = (player: 1 | 2): Score => {
    const { score: own, others } = shareOf(score, divided.players, player);
    const share: PlayerShare = { player, others, unclear: [] };
    const remark: Remark = remarkOnAll('harp-chosen', describeDivision(divided));
    const harp = { ...own.harp, name: nameShare(own.harp.name, player) };
    return { ...own, harp, share, remarks: [...own.remarks, remark] };
  };
  return [take(1), take(2)];
};

/** The name of one player's part, which may have none of its own. */
export const nameShare = (part: string, player: number): string => `${part} (${player}.)`.trim();

/** What the second player has of a divided part. */
export interface SecondShare {
  readonly notes: number;
  /** Indices of the bars with notes of the second player, in order. */
  readonly bars: readonly number[];
  readonly sentence: string;
}

/** The least that a second harp must play, as a part divided with that aim has it. */
export const describeLeast = (score: Score, divided: DividedPart): SecondShare => {
  const own = score.notes.filter(({ id, tiedFrom }) => tiedFrom === null && divided.players.get(id) === 2);
  const bars = [...new Set(own.map(({ bar }) => bar))];
  const where = listBars(bars.map(nameBarIn(score)));
  const few = own.length <= MOST_NAMED ? ` (${own.map(nameNoteIn(score)).join('; ')})` : '';
  const amount = own.length === 0 ? 'nothing' : `${nameCount(own.length, 'note')} in ${where}${few}`;
  const left = divided.stops[0] + divided.stops[1];
  const found = divided.proved ? '' : ' in the best division that was found';
  const unplayable =
    left === 0 ? '' : ` Even so, ${nameCount(left, 'place is', 'places are')} not playable${found}.`;
  // Less than a single note is none, and with that the first player was tried.
  const isLeast = left === 0 && own.length <= 1;
  const least = isLeast ? 'that the second harp must play' : 'found for the second harp to play';
  return { notes: own.length, bars, sentence: `The least ${least}: ${amount}.${unplayable}` };
};

/** So few notes are named one by one. */
const MOST_NAMED = 4;

const nameNoteIn =
  (score: Score) =>
  (note: Note): string => {
    const { bar, onset } = note;
    return `${nameWithOrnament(note)}, ${namePlaceInBar(nameBarIn(score)(bar), rationalKey(beatAt(score.bars[bar]!, onset)))}`;
  };

/** An ornament’s neighbours are played with their note, and may be why it is given away: `the trill on D5 with E♭5`. */
const nameWithOrnament = ({ pitch, ornament }: Note): string => {
  const neighbours = [ornament?.upper, ornament?.lower].flatMap((each) => each ?? []);
  if (ornament === null || neighbours.length === 0) return pitchName(pitch);
  const what = ornament.kind === 'trill' ? 'trill' : 'ornament';
  return `the ${what} on ${pitchName(pitch)} with ${listNames(neighbours.map(pitchName))}`;
};

/** What a division comes to, in words. */
export const describeDivision = ({ players, stops, moves, proved }: DividedPart): string => {
  const notes = ([1, 2] as const).map(
    (player) => [...players.values()].filter((whose) => whose === player || whose === 'both').length,
  );
  const left = stops[0] + stops[1];
  const clean =
    left === 0 ? 'both parts are playable by the feet' : `not playable still: ${nameCount(left, 'place')}`;
  const best = proved
    ? 'No other way to share out these groups of notes is better by tringle’s weights.'
    : 'It is the best that was found; a better one may exist.';
  return `Divided between two players: ${nameCount(notes[0]!, 'note')} and ${nameCount(moves[0], 'move')} for the first, ${nameCount(notes[1]!, 'note')} and ${nameCount(moves[1], 'move')} for the second; ${clean}. ${best}`;
};
