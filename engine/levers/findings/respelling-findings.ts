import { describeFinding } from '../../findings/describe-finding.ts';
import { help } from '../../findings/help/help.ts';
import type { LeverFinding } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { pitchName } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import type { NonEmpty } from '../../non-empty.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { Respelling } from '../../sounding/respelling.ts';
import type { StringChoice } from '../strings/strings.ts';

/**
 * Notes that are to be played on a string of another name: one finding for each pitch and string, since the player
 * thinks of it once; but one for each note that no string could be named for.
 */
export const respellingFindings = (
  score: Score,
  { respellings, ornamentRespellings: neighbours }: Pick<StringChoice, 'respellings' | 'ornamentRespellings'>,
): LeverFinding[] => {
  const notes = notesById(score.notes);
  const places = [...respellings, ...neighbours].map((each) => ({ ...each, note: notes.get(each.note)! }));
  const isDouble = ({ from }: Place): boolean => Math.abs(from.alter) >= 2;
  return [
    ...groupByString(places.filter((each) => !isDouble(each))).map((alike) => onOtherString(score, alike)),
    ...places.filter(isDouble).map((each) => doubleAccidental(score, each)),
  ];
};

type Place = Omit<Respelling, 'note'> & { readonly note: Note };

const groupByString = (places: readonly Place[]): readonly NonEmpty<Place>[] => [
  ...group(places, ({ from, to }) => `${pitchName(from)} ${pitchName(to)}`).values(),
];

const onOtherString = (score: Score, alike: NonEmpty<Place>): LeverFinding => {
  const [{ from, to }] = alike;
  const notes = [...new Set(alike.map(({ note }) => note))].sort((a, b) => compare(a.onset, b.onset));
  const { bar, onset } = notes[0]!;
  const { number } = score.bars[bar]!;
  return describeFinding(
    score,
    'played-on-other-string',
    { from, to, isOfOrnament: false, times: alike.length, fromBar: number },
    { notes, place: { bar, at: onset } },
  );
};

const doubleAccidental = (score: Score, { note, from, to }: Place): LeverFinding =>
  describeFinding(
    score,
    'double-accidental',
    { from, to },
    { notes: [note], help: [help('write-for', { from, to })] },
  );
