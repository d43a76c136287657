/** What the ABC parser gives for one tune, as far as it is used; places are characters of the text it was given. */
export interface ParsedTune {
  readonly metaText: {
    readonly tempo?: ParsedTempo;
    readonly partOrder?: string;
  };
  readonly lines: readonly ParsedLine[];
}

/** A line of music; a line of text has no staves. */
export interface ParsedLine {
  readonly staff?: readonly ParsedStaff[];
}

export interface ParsedStaff {
  readonly clef: ParsedClef;
  readonly key: ParsedKey;
  /** Only where it changes. */
  readonly meter?: ParsedMeter;
  /** Names of its voices, where stated. */
  readonly title?: readonly (string | { readonly name?: string } | undefined)[];
  readonly voices: readonly (readonly ParsedElement[])[];
}

export interface ParsedClef {
  readonly type: string;
}

export interface ParsedKey {
  /** `note` is a letter in either case. */
  readonly accidentals?: readonly { readonly acc: string; readonly note: string }[];
  /** Letter of the tonic; `none` and other words where there is none. */
  readonly root?: string;
  /** As `m`, `Dor`; empty for major. */
  readonly mode?: string;
}

export interface ParsedMeter {
  readonly type: string;
  readonly value?: readonly { readonly num: string; readonly den?: string }[];
}

export interface ParsedTempo {
  readonly preString?: string;
  readonly postString?: string;
  /** Parts of a whole note. */
  readonly duration?: readonly number[];
  readonly bpm?: number;
}

export interface ParsedPitch {
  /** Staff steps above middle C. */
  readonly pitch?: number;
  readonly accidental?: string;
  readonly startTie?: unknown;
  readonly startSlur?: readonly { readonly label: number }[];
  readonly endSlur?: readonly number[];
}

export interface ParsedGrace extends ParsedPitch {
  /** Part of a whole note. */
  readonly duration: number;
  readonly acciaccatura?: boolean;
}

/** A note, chord, rest or gap. */
export interface ParsedEvent {
  readonly el_type: 'note';
  readonly startChar?: number;
  readonly endChar?: number;
  /** Part of a whole note, as written. */
  readonly duration: number;
  readonly pitches?: readonly ParsedPitch[];
  readonly rest?: { readonly type: string; readonly text?: number };
  readonly gracenotes?: readonly ParsedGrace[];
  readonly decoration?: readonly string[];
  readonly chord?: readonly { readonly name: string; readonly position?: string }[];
  readonly lyric?: readonly { readonly syllable: string; readonly divider: string }[];
  readonly startTriplet?: number;
  readonly tripletMultiplier?: number;
  readonly endTriplet?: boolean;
  readonly startBeam?: boolean;
  readonly endBeam?: boolean;
  readonly startSlur?: readonly { readonly label: number }[];
  readonly endSlur?: readonly number[];
  readonly style?: string;
}

export interface ParsedBarLine {
  readonly el_type: 'bar';
  readonly startChar?: number;
  readonly type: string;
  readonly startEnding?: string;
  readonly endEnding?: boolean;
  readonly decoration?: readonly string[];
  readonly chord?: readonly { readonly name: string; readonly position?: string }[];
}

export type ParsedElement =
  | ParsedEvent
  | ParsedBarLine
  | ({ readonly el_type: 'key'; readonly startChar?: number } & ParsedKey)
  | ({ readonly el_type: 'meter'; readonly startChar?: number } & ParsedMeter)
  | ({ readonly el_type: 'clef'; readonly startChar?: number } & ParsedClef)
  | ({ readonly el_type: 'tempo'; readonly startChar?: number } & ParsedTempo)
  | { readonly el_type: 'part'; readonly startChar?: number; readonly title: string }
  /** Stems, spacing and the like. */
  | { readonly el_type: 'stem' | 'style' | 'hint' | 'scale'; readonly startChar?: number };
