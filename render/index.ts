/**
 * The renderer: pages of a planned part as SVG and PDF, and the user's own MusicXML or MEI with the markings in it. Runs
 * in Node. The server imports this file and nothing deeper.
 */

// Pages and files with markings.
export {
  type Annotator,
  type ChosenHarp,
  createAnnotator,
  prepareAnnotator,
  type SharedAnnotator,
} from './annotate.ts';
export type { DrawingTask, Drawn } from './layout/drawer/drawing-task.ts';
export type { Helper } from './layout/drawer/helper.ts';
export type { HarpScore, PrintedMovements } from './editions/several-scores.ts';
export type { Annotation, PagedAnnotation } from './annotation.ts';
export type { ReadyPage } from './pages/page-finisher.ts';
export { paintPng } from './printed/png.ts';
export { playedNotes } from './pages/engrave-pages.ts';
export { nameStrings } from './part/signs/string-names.ts';
export { EngraverError } from './layout/drawer/verovio.ts';

// Wall charts.
export { drawHandout } from './handouts/draw-handout.ts';
export type { BoundSheets } from './sheets/bind-sheets.ts';
export { drawTable, type PrintedTable } from './handouts/draw-table.ts';
export { drawSet, type SetTune } from './pack/set-sheets.ts';

// Class sets.
export { bindClassSet, type ClassSet, type ClassSetLook } from './pack/class-set.ts';
export type { ClassPiece, Refusal, RefusedPiece } from './pack/front-sheets.ts';

// Options of how a page looks.
export { completeEngraving, type EngravingChoice } from './engraving-options.ts';
export { ENGRAVING_CATALOGUE } from './engraving-catalogue.ts';
export { OPTION_CATALOGUE } from './option-catalogue.ts';

// What is printed where.
export { markingsFor } from './markings/printed-markings.ts';
export { leverName } from './levers/lever-words.ts';
export { fileRemarks } from './remarks.ts';

// The user's own file.
export { type AnnotatedSource, annotateSource, joinAnnotated } from './source/annotate-source.ts';
export { withoutOwnMarkings } from './source/our-markings.ts';
export { drawProof, type ProofPages } from './proof/proof-pages.ts';
export { type ProofTelling, proofTelling } from './proof/tell-proof.ts';
export { repairLeverSource } from './source/repair-lever-source.ts';
export { drawAttempt, type MarkedLook } from './attempt/attempt-pages.ts';
export { tellJudged, tellUnread } from './attempt/attempt-words.ts';
export { repairSource } from './source/repair-source.ts';
export { extensionOf, SOURCE_TYPES, type SourceKind, sourceKindOf } from './source/source-kind.ts';
