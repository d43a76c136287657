import type { Position } from '../../harp/setting.ts';
import type { Letter, Pitch } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';

import type { SweepWords } from '../model/between-notes.ts';
import type { LeverMarking } from '../model/markings.ts';
import type { HandWords, Note } from '../model/note.ts';
import type { SharingMark } from '../model/texts.ts';
import type { Naming } from '../words/pedal-names.ts';

import type { Transposition } from './attributes.ts';
import type { NoteMarks } from './notes/note-marks.ts';
import type { BarSigns } from './notes/staff-signs.ts';

/** Where something stands: bar index and time from the bar's start. */
export interface BarPlace {
  readonly bar: number;
  readonly at: Rational;
}

/** What notes and rests have in common. */
interface RawEvent extends BarPlace {
  readonly duration: Rational;
  readonly span: Span;
  /** The file's own id; empty if none. */
  readonly sourceId: string;
  /** Staff of the harp, 1 at the top. */
  readonly staff: number;
  readonly voice: string;
}

/** A note as the file has it: pitch as written. */
export interface RawNote extends RawEvent {
  /** For a note that a sign of bar repetition brings back: the note of the file that sounds again. */
  readonly repeats: RawNote | null;
  /** Equal for the notes of one chord, different for all others. */
  readonly chord: string;
  /** Length of the chord's first note: at least that of this one. */
  readonly chordDuration: Rational;
  readonly written: Pitch;
  readonly transposition: Transposition;
  readonly grace: { readonly slashed: boolean } | null;
  readonly role: Note['role'];
  /** Its head is a diamond. */
  readonly diamond: boolean;
  /** An accidental is printed at the notehead. */
  readonly accidental: boolean;
  readonly marks: NoteMarks;
  readonly stem: Note['stem'];
  /** Equal for the notes under one beam. */
  readonly beam: string | null;
}

export type RawRest = RawEvent;

export interface RawDamp extends BarPlace {
  readonly kind: 'damp' | 'damp-all';
  readonly staff: number | null;
}

export interface RawMarking extends BarPlace {
  readonly span: Span;
  readonly form: 'harp-pedals' | 'words';
  readonly positions: Readonly<Partial<Record<Letter, Position>>>;
  readonly ahead: boolean;
  readonly text: string;
}

/** Words that seem to name pedals and are not understood. */
export interface RawUnreadWords extends BarPlace {
  readonly span: Span;
  readonly text: string;
}

/** Words that tell of levers, or seem to. */
export interface RawLeverWords extends RawUnreadWords {
  readonly says: LeverMarking['says'];
}

/** Words that ask for a glissando. */
export interface RawGlissando extends BarPlace {
  readonly staff: number;
  readonly text: string;
  readonly words: SweepWords;
}

/** Words at a staff that say which hand plays. */
export interface RawHandWords extends BarPlace {
  readonly staff: number;
  readonly words: HandWords;
}

/** Words that say who of several players plays. */
export interface RawSharing
  extends BarPlace,
    Pick<SharingMark, 'staff' | 'span' | 'kind' | 'players' | 'text'> {}

/** One bar of a part: its signs, and how far its longest voice goes. */
export interface RawBar {
  readonly length: Rational;
  readonly signs: BarSigns;
}

/** A part of the harp, read bar by bar; staves are counted within the harp. */
export interface RawPart {
  readonly staves: number;
  readonly staffOffset: number;
  /** How its words call notes; null where that is not known. */
  readonly naming: Naming | null;
  readonly bars: readonly RawBar[];
  readonly notes: readonly RawNote[];
  readonly rests: readonly RawRest[];
  readonly damps: readonly RawDamp[];
  readonly markings: readonly RawMarking[];
  readonly unreadWords: readonly RawUnreadWords[];
  readonly leverWords: readonly RawLeverWords[];
  readonly glissandi: readonly RawGlissando[];
  readonly handWords: readonly RawHandWords[];
  readonly sharing: readonly RawSharing[];
}
