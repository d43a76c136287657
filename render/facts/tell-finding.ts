import type { HarpFinding, NoteNames, PassageCode } from '../../engine/index.ts';
import { rowText, settingItems } from '../draw/name-items.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { nameChange, nameInWords, namePitch, nameSpelledNote, nameTunedTo } from '../sheets/note-words.ts';
import type { Words } from '../words/worded.ts';
import { nameTuning } from './tell-tuning.ts';

/** What a finding of a plan says, in any language, with all its facts. */
export const tellFinding = ({ code, told }: HarpFinding, naming: NoteNaming, words: Words): string => {
  const { sentences, passages } = words.findings;
  if (told.kind === 'passage') {
    // Only findings that have such a sentence are joined.
    return passages[code as PassageCode](told.places, told.guessed);
  }
  // Facts are made for the code of their finding: the compiler has seen to it where the finding was described.
  const sentence = sentences[code] as (facts: unknown, names: NoteNames) => string;
  return sentence(told.facts, noteNames(naming, words));
};

/** How notes are named in the sentences of findings. */
export const noteNames = (naming: NoteNaming, words: Words): NoteNames => ({
  pitch: (pitch) => namePitch(pitch, naming),
  note: (note) => nameSpelledNote(note, naming),
  change: ({ letter, position }) => nameChange(letter, position, naming),
  tunedTo: ({ letter, position }) => nameTunedTo(letter, position, naming),
  letter: (letter) => nameInWords(letter, 0, naming),
  string: ({ letter, octave }) => namePitch({ letter, octave, alter: 0 }, naming),
  lever: ({ string, alter }) => `${nameChange(string.letter, printedAlter(alter), naming)}${string.octave}`,
  written: ({ letter, octave, alter }) => {
    const name =
      alter === null ? nameInWords(letter, 0, naming) : nameChange(letter, printedAlter(alter), naming);
    return `${name}${octave ?? ''}`;
  },
  setting: (setting) => rowText(settingItems(setting, []), naming),
  tuning: (tuning) => nameTuning(tuning, naming, words),
  majorKey: ({ letter, alter }) => words.notes.major(nameInWords(letter, printedAlter(alter), naming)),
});
