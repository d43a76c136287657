import type { LeverFinding } from '../../findings/catalogue.ts';
import { describeFinding } from '../../findings/describe-finding.ts';
import { help } from '../../findings/help/help.ts';
import { pitchName } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
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
    ...groupByString(places.filter((each) => !isDouble(each))).map((group) => onOtherString(score, group)),
    ...places.filter(isDouble).map((each) => doubleAccidental(score, each)),
  ];
};

type Place = Omit<Respelling, 'note'> & { readonly note: Note };

const groupByString = (places: readonly Place[]): (readonly Place[])[] => {
  const groups = new Map<string, Place[]>();
  for (const each of places) {
    const key = `${pitchName(each.from)} ${pitchName(each.to)}`;
    const group = groups.get(key) ?? [];
    group.push(each);
    groups.set(key, group);
  }
  return [...groups.values()];
};

const onOtherString = (score: Score, group: readonly Place[]): LeverFinding => {
  const { from, to } = group[0]!;
  const notes = [...new Set(group.map(({ note }) => note))].sort((a, b) => compare(a.onset, b.onset));
  const { number } = score.bars[notes[0]!.bar]!;
  return describeFinding(
    score,
    'played-on-other-string',
    { from, to, isOfOrnament: false, times: group.length, fromBar: number },
    { notes },
  );
};

const doubleAccidental = (score: Score, { note, from, to }: Place): LeverFinding =>
  describeFinding(
    score,
    'double-accidental',
    { from, to },
    { notes: [note], help: [help('write-for', { from, to })] },
  );
