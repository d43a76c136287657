import { mayHelp } from '../findings/catalogue.ts';
import type { PedalFinding } from '../findings/model.ts';
import { group } from '../group.ts';
import { rationalKey } from '../music/rational.ts';
import { nameMeant } from '../pedals/fixes/meant-note.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Note } from '../score/model/note.ts';
import { type Remark, remarkOnAll } from '../score/model/remark.ts';
import type { Score } from '../score/model/score.ts';
import type { PlayerShare } from '../score/model/texts.ts';
import { notesById } from '../score/notes-by-id.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { listBars, namePlaceInBar } from '../words/bars.ts';
import { nameCount } from '../words/counts.ts';
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
  const few = own.length <= MOST_NAMED ? ` (${nameNotes(score, own)})` : '';
  const amount = own.length === 0 ? 'nothing' : `${nameCount(own.length, 'note')} in ${where}${few}`;
  const isClean = divided.unplayable.every(({ code }) => failsOnEveryHarp(code));
  // Less than a single note is none, and with that the first player was tried.
  const isLeast = isClean && own.length <= 1;
  const least = isLeast ? 'that the second harp must play' : 'found for the second harp to play';
  return {
    notes: own.length,
    bars,
    sentence: `The least ${least}: ${amount}.${tellUnplayable(score, divided)}`,
  };
};

/** So few notes or places are named one by one. */
const MOST_NAMED = 8;

const nameNoteIn =
  (score: Score) =>
  (note: Note): string =>
    `${nameMeant(score, note)}, ${namePlaceInBar(nameBarIn(score)(note.bar), rationalKey(beatAt(score.bars[note.bar]!, note.onset)))}`;

/** Each with its place; of many, those of one name together with their bars. */
const nameNotes = (score: Score, notes: readonly Note[]): string => {
  if (notes.length <= MOST_NAMED) return notes.map(nameNoteIn(score)).join('; ');
  const alike = [...group(notes, (note) => nameMeant(score, note))];
  const barsOf = (own: readonly Note[]): string =>
    listBars([...new Set(own.map(({ bar }) => bar))].map(nameBarIn(score)));
  return alike.map(([name, own]) => `${name}, ${barsOf(own)}`).join('; ');
};

/** What no harp can play, and what neither player can play beside the rest of their part. */
const tellUnplayable = (score: Score, { unplayable, proved }: DividedPart): string => {
  const left = unplayable.filter(({ code }) => !failsOnEveryHarp(code));
  const byId = notesById(score.notes);
  const silent = unplayable
    .filter(({ code }) => failsOnEveryHarp(code))
    .flatMap(({ place }) => place.notes.map((id) => byId.get(id)!));
  const places = left.map(({ place }) => namePlaceInBar(place.barName, rationalKey(place.beat)));
  const further = places.length - MOST_NAMED;
  const listed = `${places.slice(0, MOST_NAMED).join('; ')}${further > 0 ? `; and ${further} more` : ''}`;
  const found = proved ? '' : ' in the best division that was found';
  return [
    ...(silent.length === 0
      ? []
      : [` Neither harp can play ${nameCount(silent.length, 'note')}: ${nameNotes(score, silent)}.`]),
    ...(left.length === 0
      ? []
      : [` Even so, ${nameCount(left.length, 'place is', 'places are')} not playable${found}: ${listed}.`]),
  ].join('');
};

/** Whether no harp has the note. */
const failsOnEveryHarp = (code: PedalFinding['code']): boolean => !mayHelp('second-harp', code);

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
