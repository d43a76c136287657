import {
  type Bar,
  beatLength,
  buildPlayback,
  headsOfTies,
  nameBarIn,
  nameNotes,
  namePlace,
  openingNumerals,
  otherStrings,
  type Pitch,
  pausesBefore,
  pitchName,
  type Remark,
  type Score,
  tempoUnitFinder,
  toNumber,
  writtenString,
} from '../../../../engine/index.ts';
import { restsBeforeEntries } from '../../../../render/pure.ts';
import { listMomentPlaces } from './allowed-moments.ts';
import type { BarPlace, EntryPlace, NotePlace, ReadPart } from './planned-part.ts';

const placeBar = (
  bar: Bar,
  told: Pick<BarPlace, 'name' | 'tempoUnit' | 'opens' | 'afterPause'>,
): BarPlace => ({
  id: bar.id,
  onsetQuarters: toNumber(bar.onset),
  durationQuarters: toNumber(bar.duration),
  beatQuarters: toNumber(beatLength(bar.meter)),
  ...told,
});

const placeBars = (score: Score): readonly BarPlace[] => {
  const unitIn = tempoUnitFinder(score);
  const nameBar = nameBarIn(score);
  const numerals = openingNumerals(score);
  const pauses = pausesBefore(score);
  return score.bars.map((bar) =>
    placeBar(bar, {
      name: nameBar(bar.index),
      tempoUnit: unitIn(bar),
      opens: numerals[bar.index]!,
      afterPause: pauses.has(bar.index),
    }),
  );
};

/** Names and other strings of pitches, made once each: a long part has few. */
const namePitches = () => {
  const known = new Map<string, { readonly name: string; readonly others: readonly string[] }>();
  return (pitch: Pitch) => {
    const key = `${pitch.letter}${pitch.octave};${pitch.alter}`;
    const found = known.get(key) ?? { name: pitchName(pitch), others: otherStrings(pitch).map(pitchName) };
    known.set(key, found);
    return found;
  };
};

/** What each note is called, and where it is to be found by the user's decisions. */
const placeNotes = (score: Score): Map<string, NotePlace> => {
  const of = namePitches();
  const names = nameNotes(score);
  const heads = headsOfTies(score.notes);
  return new Map(
    score.notes.map((note) => [
      note.id,
      {
        name: of(note.pitch).name,
        bar: note.bar,
        onset: note.onset,
        notes: names(note.id)!,
        head: heads.get(note.id)!.id,
        others: of(writtenString(note)).others,
      },
    ]),
  );
};

const placeEntries = (score: Score): EntryPlace[] =>
  restsBeforeEntries(score).flatMap(({ bars, entry }) => {
    const place = namePlace(score, entry);
    return place === null ? [] : [{ ...place, rest: bars }];
  });

const movementsOf = ({ source: { movement } }: Score): ReadPart['movements'] =>
  movement === null ? null : movement.titles;

/**
 * All that the page shows of a score without tringle's own markings.
 *
 * @param remarks those that its reader did not make
 * @param markings how many the file brings, with tringle's own
 */
export const readPart = (score: Score, remarks: readonly Remark[], markings: number): ReadPart => ({
  titles: score.titles,
  partName: score.harp.name,
  partIds: score.harp.partIds,
  movements: movementsOf(score),
  harps: score.harps,
  others: score.parts.filter(({ id, notes }) => notes > 0 && !score.harp.partIds.includes(id)),
  entries: placeEntries(score),
  format: score.source.format,
  compressed: score.source.archivePath !== null,
  bars: placeBars(score),
  notes: placeNotes(score),
  moments: listMomentPlaces(score),
  hearing: buildPlayback(score),
  remarks: [...score.remarks, ...remarks],
  markings,
});
