import type { Span, XmlElement } from '../../xml/tree.ts';

/** The open formats that are read. */
export type ScoreFormat = 'musicxml-partwise' | 'musicxml-timewise' | 'mei';

/** The score file as text. All spans of the model are string indices into `text`. */
export interface SourceText {
  readonly format: ScoreFormat;
  /** The version that the file states, such as `4.0` or `5.1`; empty if it states none. */
  readonly version: string;
  readonly text: string;
  /** The whole document, parsed once: later stages find their way by its spans and parse nothing again. */
  readonly root: XmlElement;
  readonly encoding: TextEncoding;
  /** For a compressed score, the path of the score file in the archive. */
  readonly archivePath: string | null;
  /** For MEI with several movements the one that is read: `root` has no other. */
  readonly movement: SourceMovement | null;
}

/** One movement of several. */
export interface SourceMovement {
  /** Its place among them, from 1. */
  readonly number: number;
  /** Empty where the file names none. */
  readonly title: string;
  /** The titles of all of them, in order. */
  readonly titles: readonly string[];
  /** Where the others stand. */
  readonly others: readonly Span[];
}

/** How the bytes of a text stand for its characters. */
export type TextEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'iso-8859-1';
