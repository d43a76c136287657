import {
  type Decisions,
  encodeText,
  NO_DECISIONS,
  ok,
  type Remark,
  type Respelling,
  type Result,
  type Score,
} from '../../engine/index.ts';
import { applyEdits, type Edit } from '../edit.ts';
import type { EngravingOptions, FileSettings, MarkingPlacement } from '../engraving-options.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';
import { bracketNotes } from './insertion/bracket-notes.ts';
import { delayNoticeEdits } from './insertion/delay-notices.ts';
import { footHereEdits } from './insertion/foot-here.ts';
import { markSideOf } from './insertion/mark-content.ts';
import { meiMarkEdits } from './insertion/mei-marks.ts';
import { directionEdits } from './insertion/musicxml-directions.ts';
import { stringNameEdits } from './insertion/string-names.ts';
import { tempoNoticeEdits } from './insertion/tempo-notices.ts';
import { ownIds } from './our-markings.ts';
import { removalRemarks, removeOtherMarkings, removeOwnMarkings } from './remove-markings.ts';
import { respellingEdits } from './respelling/respell.ts';
import { saveDecisionsEdits } from './save-decisions.ts';

/** What a user may choose when markings go into the file. */
export interface SourceChoice {
  /** What becomes of the pedal markings that others wrote. */
  readonly others: 'keep' | 'replace';
  /** Where the markings stand by the staves; below them where left out. */
  readonly placement?: MarkingPlacement;
  /** Whether the markings stand where the foot moves or at the notes; where the foot moves, if left out. */
  readonly marksAt?: EngravingOptions['marksAt'];
  /** Of the words beside markings; English where left out. */
  readonly language?: EngravingOptions['language'];
  /** How full settings are written; as diagrams where left out. */
  readonly settings?: FileSettings;
  /** Notes to be written on another string; none where left out. */
  readonly respellings?: readonly Respelling[];
  /** What is written over notes that keep their writing and are played on a string of another name, by their ids. */
  readonly stringNames?: ReadonlyMap<string, string>;
  /** Ids of notes to be put into brackets, since the player leaves them out; none where left out. */
  readonly omitted?: readonly string[];
  /** The user's decisions, saved into the file; what was saved before goes where there is none. */
  readonly decisions?: Decisions;
}

/** The user's own score file with markings in it. */
export interface AnnotatedSource {
  readonly text: string;
  /** The text in the encoding of the file; for a compressed score, the score file alone (see `repackScore`). */
  readonly bytes: Uint8Array;
  /** What was done to the text: insertions only, if no markings are taken out and no notes are respelled. */
  readonly edits: readonly Edit[];
  /** What could not be written as it was meant. */
  readonly remarks: readonly Remark[];
}

/**
 * Writes markings into the score's own text; everything else stays byte for byte. Where the markings of others are replaced, a
 * remark names each that was taken out.
 *
 * Markings that we wrote before are taken out first, so that annotating an annotated file replaces them, and
 * annotating with no markings gives back the file as it was.
 *
 * @returns the file, or `unsupported` where an MEI measure has no room (see `meiMarkEdits`) or a note cannot be respelled
 * (see `respellingEdits`); linear in the text
 */
export const annotateSource = (
  score: Score,
  markings: readonly PrintedMarking[],
  choice: SourceChoice,
): Result<AnnotatedSource> => {
  const { text, format, encoding } = score.source;
  const idOf = ownIds(score, choice.marksAt);
  const style = {
    side: markSideOf(choice.placement ?? 'below', score),
    settings: choice.settings ?? 'diagrams',
  };
  const written =
    format === 'mei'
      ? meiMarkEdits(score, markings, style, idOf)
      : ok(directionEdits(score, markings, style, idOf));
  if (!written.ok) return written;
  const respelled = respellingEdits(score, choice.respellings ?? []);
  if (!respelled.ok) return respelled;
  const brackets = bracketNotes(score, new Set(choice.omitted));
  const edits = [
    ...removeOwnMarkings(score),
    ...(choice.others === 'replace' ? removeOtherMarkings(score) : []),
    ...respelled.value,
    ...brackets.edits,
    ...written.value,
    ...footHereEdits(score, markings, style.side, choice.language ?? 'english', idOf),
    ...tempoNoticeEdits(score, idOf),
    ...delayNoticeEdits(score, idOf),
    ...stringNameEdits(score, choice.stringNames ?? new Map(), idOf),
    ...saveDecisionsEdits(score, choice.decisions ?? NO_DECISIONS),
  ];
  const annotated = applyEdits(text, edits);
  const remarks = [...brackets.remarks, ...(choice.others === 'replace' ? removalRemarks(score) : [])];
  return ok({ text: annotated, bytes: encodeText(annotated, encoding), edits, remarks });
};

/**
 * One file with the markings of several harps, each annotated from the same file.
 *
 * @returns the text in the encoding of the file
 */
export const joinAnnotated = ({ source }: Score, harps: readonly AnnotatedSource[]): Uint8Array =>
  encodeText(
    applyEdits(
      source.text,
      harps.flatMap(({ edits }) => edits),
    ),
    source.encoding,
  );
