import type { HarpString } from '../../harp/profile.ts';
import type { Side } from '../../harp/side.ts';
import type { Pitch } from '../../music/pitch.ts';
import type { BarRun } from '../../words/bar-names.ts';
import { nameBars } from '../../words/bars.ts';
import { nameCount } from '../../words/counts.ts';
import { listNames } from '../../words/lists.ts';
import { callNote } from '../../words/notes.ts';
import { ENGLISH_NAMES, type NoteNames } from '../note-names.ts';
import type { OrnamentNote } from '../ornament-notes.ts';

/** Notes that are changed alike. */
export interface ChangedNotes {
  /** Their names, from below: octaves of one note, no grace notes, where there are several. */
  readonly from: readonly Pitch[];
  /** What each name becomes; null where they are left out. */
  readonly to: readonly Pitch[] | null;
  /** Their bars: one, or several that have numbers. */
  readonly bars: readonly BarRun[];
  /** Their beats as people say them, in order, where name and place do not tell them (`beatsToTell`); else none. */
  readonly beats: readonly string[];
  readonly isGrace: boolean;
  /** Null where no other note has their name at their beat. */
  readonly twin: TwinNote | null;
  /** Of what is left out, what its ornament brings in; null where there is none. */
  readonly ornament: ToldOrnament | null;
  readonly notes: number;
}

/** Which of two notes of one name at one beat is meant. */
export type TwinNote = 'upper-staff' | 'lower-staff' | 'either' | 'main-note';

/** An ornament, and its neighbours that are plucked with the note and not printed. */
export interface ToldOrnament {
  readonly what: OrnamentNote['what'];
  readonly neighbours: readonly Pitch[];
}

/** Which of two notes on one string is meant. */
export type NoteOfTwo = 'either' | 'first' | 'grace' | 'second' | 'only';

/** What is done with notes: the sentences of fixes, and of advice that no program could carry out for certain. */
export const NOTE_HELP = {
  'change-notes': ({ changes }: { changes: readonly ChangedNotes[] }, names: NoteNames = ENGLISH_NAMES) =>
    changes.map((change) => sayChange(change, names)).join(' '),
  'write-for': ({ from, to }: { from: Pitch; to: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
    `Write ${names.pitch(to)} for the ${names.pitch(from)}.`,
  /** On the other string without a disc; `tuned` where it is tuned to that pitch for this piece in any case. */
  'write-on-fixed-string': (
    { to, string, tuned }: { to: Pitch; string: HarpString; tuned: boolean },
    names: NoteNames = ENGLISH_NAMES,
  ) =>
    `Write ${names.pitch(to)}${
      tuned
        ? `: the string ${names.string(string)} is already tuned to it for this piece.`
        : ` and tune the string ${names.string(string)} to it before the piece.`
    }`,
  'one-hand-only': ({ pitch, hand }: { pitch: Pitch; hand: Side }, names: NoteNames = ENGLISH_NAMES) =>
    `Play the ${names.pitch(pitch)} with the ${hand} hand only.`,
  'write-one-as': (
    { which, pitch, to }: { which: NoteOfTwo; pitch: Pitch; to: Pitch },
    names: NoteNames = ENGLISH_NAMES,
  ) => `Write ${ofTwo(which, names.pitch(pitch))} as ${names.pitch(to)}.`,
  'leave-out-first': (
    { pitch, isGrace }: { pitch: Pitch; isGrace: boolean },
    names: NoteNames = ENGLISH_NAMES,
  ) => `Leave out ${ofTwo(isGrace ? 'grace' : 'first', names.pitch(pitch))}.`,
  'leave-one-out': (_facts: Record<string, never>) => 'Leave one of the notes out.',
} as const;

/** What a fix does, with the facts of which its sentence is made. */
export type NoteHelp<Of extends NoteHelpKind = NoteHelpKind> = {
  readonly [Kind in Of]: { readonly kind: Kind; readonly facts: FactsByKind[Kind] };
}[Of];

type NoteHelpKind = keyof typeof NOTE_HELP;

type FactsByKind = { readonly [Kind in NoteHelpKind]: Parameters<(typeof NOTE_HELP)[Kind]>[0] };

const SENTENCES: {
  readonly [Kind in NoteHelpKind]: (facts: FactsByKind[Kind], names?: NoteNames) => string;
} = NOTE_HELP;

export const describeNoteHelp = <Kind extends NoteHelpKind>({ kind, facts }: NoteHelp<Kind>): string =>
  SENTENCES[kind](facts);

/** What is left to another harp: “Give another harp the C♯4 in bar 3.” Notes that are rewritten stay with the first. */
export const describeGiven = (changes: readonly ChangedNotes[]): string =>
  changes.map((change) => sayChange(change, ENGLISH_NAMES, 'Give another harp')).join(' ');

/**
 * “Write D♭4 for the C♯4 in bar 3 (2 notes).”
 *
 * @param without what is done with a note that becomes no other
 */
const sayChange = (change: ChangedNotes, names: NoteNames, without = 'Leave out'): string => {
  const { from, to, bars, beats, notes } = change;
  const what = callMeant(change, names);
  const done = to === null ? `${without} ${what}` : `Write ${listNames(to.map(names.pitch))} for ${what}`;
  const often = notes === from.length ? '' : ` (${nameCount(notes, 'note')})`;
  return `${done} in ${sayBars(bars)}${sayBeats(beats)}${often}.`;
};

const sayBars = (bars: readonly BarRun[]): string => {
  const [first, ...others] = bars.map(({ from, until }) => nameBars(from, until));
  if (others.length === 0) return first!;
  return `bars ${listNames([first!, ...others].map((each) => each.replace(/^bars? /, '')))}`;
};

/** Which notes of one name, or octaves of one, are meant: “the main note D♯2”, “the trill on D5 with E♭5”. */
export const callMeant = (
  { from, isGrace, twin, ornament }: Pick<ChangedNotes, 'from' | 'isGrace' | 'twin' | 'ornament'>,
  names: NoteNames = ENGLISH_NAMES,
): string => {
  const note = ofTwins(twin, listNames(from.map(names.pitch)), isGrace);
  if (ornament === null) return note;
  const on = twin === null ? note.replace(/^the /, '') : note;
  return `the ${ornament.what} on ${on} with ${listNames(ornament.neighbours.map(names.pitch))}`;
};

const ofTwins = (twin: TwinNote | null, pitch: string, isGrace: boolean): string => {
  switch (twin) {
    case null:
      return `the ${callNote(pitch, isGrace)}`;
    case 'main-note':
      return `the main note ${pitch}`;
    case 'either':
      return `one of the two ${isGrace ? 'grace ' : ''}notes ${pitch}`;
    default:
      return `the ${twin === 'upper-staff' ? 'upper' : 'lower'} staff’s ${callNote(pitch, isGrace)}`;
  }
};

/** “, beats 1 and 2½”: which of the notes of one name are meant. */
const sayBeats = (beats: readonly string[]): string =>
  beats.length === 0 ? '' : `, beat${beats.length === 1 ? '' : 's'} ${listNames(beats)}`;

const ofTwo = (which: NoteOfTwo, pitch: string): string => {
  switch (which) {
    case 'either':
      return `one of the two notes ${pitch}`;
    case 'grace':
      return `the ${callNote(pitch, true)}`;
    case 'only':
      return `the ${pitch}`;
    default:
      return `the ${which} ${pitch}`;
  }
};
