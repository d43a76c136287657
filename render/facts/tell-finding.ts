import type { HarpFinding, NoteNames, PlanFindingCode, ToldPlace } from '../../engine/index.ts';
import { rowText, settingItems } from '../draw/name-items.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { nameChange, nameInWords, namePitch, nameSpelledNote, nameTunedTo } from '../sheets/note-words.ts';
import type { FindingSentences } from '../words/finding-words.ts';
import type { Words } from '../words/worded.ts';
import { nameTuning } from './tell-tuning.ts';

/** What a finding of a plan says, in any language, with all its facts. */
export const tellFinding = ({ told }: Pick<HarpFinding, 'told'>, naming: NoteNaming, words: Words): string =>
  told.kind === 'passage'
    ? words.findings.passages[told.code](told.places, told.guessed)
    : tellPlace(told, words.findings.sentences, noteNames(naming, words));

const tellPlace = <Code extends PlanFindingCode>(
  { code, facts }: ToldPlace<Code>,
  sentences: FindingSentences,
  names: NoteNames,
): string => sentences[code](facts, names);

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
