import { Chord, Note, Scale } from 'tonal';
import { fail, ok, type Result } from '../problem.ts';

/** What a glissando is to sound: pitch classes in semitones above C, and how the user named them. */
export interface WantedSound {
  readonly name: string;
  readonly pitchClasses: ReadonlySet<number>;
}

/**
 * Reads what a glissando is to sound: note names (`C Eb Gb A`), a chord (`Cdim7`, `Eb9`) or a scale (`C whole tone`,
 * `F# minor pentatonic`), names as tonal has them, accidentals real or ASCII.
 *
 * @returns `bad-value` where the text is none of these
 */
export const readWantedSound = (text: string): Result<WantedSound> => {
  const name = text.trim().replaceAll('♭', 'b').replaceAll('♯', '#').replaceAll('♮', '').replace(/\s+/g, ' ');
  const notes = notesOf(name);
  const pitchClasses = new Set(
    notes.map((note) => Note.chroma(note)).filter((chroma) => chroma !== undefined),
  );
  return pitchClasses.size === 0
    ? fail({ code: 'bad-value', what: 'chord, scale or list of notes', value: text, line: 1, column: 1 })
    : ok({ name, pitchClasses });
};

const notesOf = (name: string): readonly string[] => {
  const tokens = name.split(/[\s,]+/).filter((token) => token !== '');
  if (tokens.every((token) => /^[A-G](bb?|##?|n)?$/.test(token)))
    return tokens.map((token) => token.replace('n', ''));
  const chord = Chord.get(name);
  const scale = Scale.get(name);
  const named = [
    ...(scale.empty || scale.tonic === null ? [] : [scale.notes]),
    ...(chord.empty || chord.tonic === null ? [] : [chord.notes]),
  ];
  // “C major” names a scale and a triad: no setting gives a triad, so a name in two words is a scale.
  return (name.includes(' ') ? named[0] : named.at(-1)) ?? [];
};
