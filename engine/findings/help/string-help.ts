import type { OpenTuning } from '../../harp/open-tuning.ts';
import type { StringRange } from '../../harp/profile.ts';
import type { RetunedString } from '../../harp/scordatura.ts';
import { describeStringRetuning, RAISED_STRING_WARNING } from '../../harp/scordatura.ts';
import type { Letter, Pitch } from '../../music/pitch.ts';
import { nameCount } from '../../words/counts.ts';
import { listNames } from '../../words/lists.ts';
import {
  ENGLISH_NAMES,
  type HeardString,
  type NoteNames,
  nameHeardString,
  type PedalAt,
  type SpelledNote,
} from '../note-names.ts';

type NoFacts = Record<string, never>;

/** A note, and the same in another octave. */
export interface OctaveFacts {
  readonly pitch: Pitch;
  readonly to: Pitch;
}

/** Whether one of two octaves of a note is the higher. */
export const isHigher = (one: Pitch, other: Pitch): boolean => one.octave > other.octave;

/** What helps with strings, tunings and keys. */
export const STRING_HELP = {
  /** @param to the same note in the nearest octave that has a string */
  'into-range': ({ pitch, to }: OctaveFacts, names: NoteNames = ENGLISH_NAMES) =>
    `Play ${names.pitch(to)} instead of the ${names.pitch(pitch)}.`,
  'octave-or-leave-out': ({ pitch, to }: OctaveFacts, names: NoteNames = ENGLISH_NAMES) =>
    `Play the ${names.pitch(pitch)} an octave ${isHigher(to, pitch) ? 'higher' : 'lower'}, as ${names.pitch(to)}, or leave it out.`,
  /** @param to its octave, which is plucked with it: to move it there is to leave it out */
  'octave-stands-there': ({ pitch, to }: OctaveFacts, names: NoteNames = ENGLISH_NAMES) =>
    `Leave out the ${names.pitch(pitch)}: the ${names.pitch(to)} an octave away stands there already.`,
  'replace-note': (_facts: NoFacts) => 'Replace the note.',
  'or-leave-out': (_facts: NoFacts) => 'Or leave the note out.',
  'leave-note-out': (_facts: NoFacts) => 'Leave the note out.',
  'ask-technician': (_facts: NoFacts) => RAISED_STRING_WARNING,
  'retune-another': (_facts: NoFacts) => 'Retune another string instead, or replace the note.',
  /** @param lost pitches of the piece that no string gives then */
  'retune-strings': (
    { tuned, lost }: { tuned: readonly RetunedString[]; lost: readonly Pitch[] },
    names: NoteNames = ENGLISH_NAMES,
  ) => {
    const strings = tuned.map(({ string, cents }) => describeStringRetuning(names.string(string), cents));
    const price =
      lost.length === 0
        ? 'every other note can still be played.'
        : `but then no string gives ${lost.map(names.pitch).join(', ')}.`;
    const raised = tuned.some(({ cents }) => cents > 0);
    return `Tune ${strings.join(', ')} before the piece: ${price}${raised ? ` ${RAISED_STRING_WARNING}` : ''}`;
  },
  'retuning-is-no-help': (_facts: NoFacts) => 'Retuning strings does not help.',
  /** @param withoutTime of the changes, those for which no hand has time */
  'tune-to-play': (
    facts: { tuning: OpenTuning; missingNotes: number; changes: number; withoutTime: number },
    names: NoteNames = ENGLISH_NAMES,
  ) => {
    const late = facts.withoutTime === 0 ? '' : `, ${facts.withoutTime} of them without time for it`;
    return `Tune to ${names.tuning(facts.tuning)} to play it; the piece then has ${nameCount(facts.missingNotes, 'missing note')} and ${nameCount(facts.changes, 'lever change')}${late}.`;
  },
  /** @param isGiven whether some key gives the note: then as much else cannot be played in it */
  'no-tuning-helps': (
    { note, isGiven }: { note: SpelledNote; isGiven: boolean },
    names: NoteNames = ENGLISH_NAMES,
  ) =>
    `Tuning to another key does not help: ${
      isGiven
        ? `where the strings give every ${names.note(note)}, as much else cannot be played, or more.`
        : `none gives every ${names.note(note)} here.`
    }`,
  'tune-instead': (
    { tuning, changes }: { tuning: OpenTuning; changes: number },
    names: NoteNames = ENGLISH_NAMES,
  ) => {
    const then = changes === 0 ? 'no lever changes' : `a hand has time for every change, ${changes} in all`;
    return `Tune to ${names.tuning(tuning)} instead: then ${then}.`;
  },
  'write-in-key': ({ tonic }: { tonic: SpelledNote }, names: NoteNames = ENGLISH_NAMES) =>
    `Write the harp part in ${names.majorKey(tonic)} or its relative minor.`,
  'change-marking': ({ needed }: { needed: PedalAt }, names: NoteNames = ENGLISH_NAMES) =>
    `Change the marking to ${names.change(needed)}.`,
  /** @param what what the score should have stated: a setting for pedals, notes for levers */
  'state-glissando': ({ what, glissandi }: { what: 'setting' | 'notes'; glissandi: number }) =>
    `State the ${what} of ${glissandi === 1 ? 'the glissando' : 'these glissandi'} in the score.`,
  /** @param sounding what the strings give that sound; none where they are not told one by one */
  'damp-earlier': (
    { letter, sounding }: { letter: Letter; sounding: readonly HeardString[] },
    names: NoteNames = ENGLISH_NAMES,
  ) => {
    const what =
      sounding.length === 0
        ? `the earlier ${names.letter(letter)}`
        : listNames(sounding.map((each) => nameHeardString(each, names)));
    return `Damp ${what} before the change, or shorten ${sounding.length > 1 ? 'them' : 'it'}.`;
  },
  'damp-string': (_facts: NoFacts) => 'Damp the string before the change, or shorten its note.',
  'move-harmonic': ({ range }: { range: StringRange }, names: NoteNames = ENGLISH_NAMES) =>
    `Move the harmonic to a string from ${names.string(range.lowest)} to ${names.string(range.highest)}, or play it as an ordinary note.`,
} as const;
