import { group } from 'd3-array';
import {
  midiOf,
  type Note,
  type Pitch,
  pitchName,
  type Respelling,
  rationalKey,
  type Score,
} from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { hasChordSymbols } from '../../facts/has-chord-symbols.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { nameChange, namePitch, nameSpelledNote } from '../../sheets/note-words.ts';

/**
 * What is written over the notes that are played on a string of another name, by their ids. Among chord symbols it names
 * the note too: `= B♭` alone would be read as a chord.
 */
export const nameStrings = (
  score: Pick<Score, 'notes' | 'source' | 'harp'>,
  respellings: readonly Respelling[],
  { respelledLook, naming }: Pick<EngravingOptions, 'respelledLook' | 'naming'>,
): ReadonlyMap<string, string> => {
  if (respellings.length === 0) return new Map();
  const saysNote = hasChordSymbols(score) ? () => true : findCompany(score.notes);
  const byId = new Map(score.notes.map((note) => [note.id, note]));
  return new Map(
    respellings.flatMap((each): [string, string][] => {
      const note = byId.get(each.note);
      const isNamed = respelledLook === 'named' || isElsewhere(each);
      return note === undefined || !isNamed ? [] : [[each.note, nameString(each, saysNote(note), naming)]];
    }),
  );
};

/** A note that is played in another octave is told in any case: nobody would hear it from the page. */
const isElsewhere = ({ from, to }: Respelling): boolean => {
  const apart = midiOf(from) - midiOf(to);
  return apart !== 0 && apart % 12 === 0;
};

/** Whether notes of other pitches stand at a note, on its staff: a name over them must say which of them it is for. */
const findCompany = (notes: readonly Note[]): ((note: Note) => boolean) => {
  const placeOf = ({ staff, onset, grace }: Note): string =>
    `${staff} ${rationalKey(onset)} ${grace?.order ?? ''}`;
  const at = group(
    notes.filter(({ role }) => role === 'played'),
    placeOf,
  );
  return (note) =>
    (at.get(placeOf(note)) ?? []).some(({ pitch }) => pitchName(pitch) !== pitchName(note.pitch));
};

/** `= D♭`; where notes or chord symbols stand beside it with the note that it is for: `C♯ = D♭`. With octaves where another octave is played. */
const nameString = (respelling: Respelling, saysNote: boolean, naming: NoteNaming): string => {
  const { from, to } = respelling;
  const name = (pitch: Pitch): string =>
    isElsewhere(respelling) ? namePitch(pitch, naming) : nameWithSign(pitch, naming);
  return `${saysNote ? `${name(from)} ` : ''}= ${name(to)}`;
};

/** Whether a name says which of the notes there it is for. */
export const tellsItsNote = (name: string): boolean => !name.startsWith('=');

const nameWithSign = (pitch: Pitch, naming: NoteNaming): string =>
  pitch.alter === 0 ? nameChange(pitch.letter, pitch.alter, naming) : nameSpelledNote(pitch, naming);
