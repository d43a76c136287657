import type { HarpPart, Score, Span } from '../../../engine/index.ts';
import { type CueEdits, type CuesToWrite, cueEdits } from '../../cues/cue-edits.ts';
import { type Edit, insertAt, orderEdits } from '../../edit.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { findSilences, type RestRun } from '../../markings/silences.ts';
import { fillerRestEdits } from '../../part/bars/filler-rests.ts';
import { repeatBarEdits } from '../../part/bars/repeat-bars.ts';
import { replacedFileMarkings } from '../../part/file-markings.ts';
import { nameByBars } from '../../part/made-up-ids.ts';
import { preparePartMei } from '../../part/part-mei.ts';
import { ownBreakEdits, pageEdits } from '../../part/prepare-mei.ts';
import { bareBracketEdits } from '../../part/signs/bare-brackets.ts';
import { clefPlaceEdits } from '../../part/signs/clef-places.ts';
import { clefSignEdits } from '../../part/signs/clef-signs.ts';
import { crossStaves, NOTHING_CROSSED } from '../../part/signs/cross-staves.ts';
import { crossedTieEdits } from '../../part/signs/crossed-ties.ts';
import { glissandoEdits } from '../../part/signs/glissando-lines.ts';
import { barsOfManyLedgerLines, type StaffPair } from '../../part/signs/ledger-lines.ts';
import { findMissingAccidentals } from '../../part/signs/missing-accidentals.ts';
import { noteLookEdits, type PlayedNotes } from '../../part/signs/note-looks.ts';
import { otherDynamicEdits } from '../../part/signs/others-dynamics.ts';
import { otherSignEdits } from '../../part/signs/others-signs.ts';
import { smallStaffEdits } from '../../part/small-staves.ts';
import { accidentalWords } from '../../part/texts/accidental-words.ts';
import { analysisLetters } from '../../part/texts/analysis-letters.ts';
import { fifthFingers } from '../../part/texts/fingerings.ts';
import { type Footnote, findFootnotes, longDirectionEdits } from '../../part/texts/long-directions.ts';
import { repeatedVerseEdits, repeatedWordEdits } from '../../part/texts/repeated-words.ts';
import { scoreTextEdits } from '../../part/texts/score-texts.ts';
import { staleBrackets } from '../../source/insertion/bracket-notes.ts';
import { ownElements } from '../../source/our-markings.ts';
import { pageLayoutOf } from '../breaks/page-layout.ts';
import type { Drawer } from '../drawer/drawer.ts';
import { drawingKey } from '../drawer/drawing-memory.ts';
import { createScoreMemory } from '../drawer/score-memory.ts';
import { MOVEMENT_START } from '../lines/document-outline.ts';
import { type StaffRange, stavesIn } from '../spaces/reserve-spaces.ts';
import type { LayoutMei } from './layout-mei.ts';

/** What of a part is the same on every page, whatever is printed in it for the player. */
export interface PreparedPart {
  readonly mei: LayoutMei;
  /** What is edited in any case, before and after the signs that are set as notes; each in the order of the text. */
  readonly edits: { readonly before: readonly Edit[]; readonly after: readonly Edit[] };
  readonly cues: CueEdits;
  /** Bars of rest in a row. */
  readonly rests: readonly RestRun[];
  /** Bars (indices) that follow a final bar line. */
  readonly movements: ReadonlySet<number>;
  readonly told: ToldOfPart;
}

/** What there is to tell of how a part was prepared. */
export interface ToldOfPart {
  /** How many pedal markings of the file are left out since ours take their place. */
  readonly replacedMarkings: number;
  /** Bars (indices) with accidentals that the file does not print, one for each. */
  readonly accidentalsAdded: readonly number[];
  /** Bars (indices) with many ledger lines within reach of the other staff. */
  readonly ledgerBars: readonly number[];
  /** Bars (indices) with coloured letters of an analysis, which are left out, one for each. */
  readonly lettersLeftOut: readonly number[];
  /** Notes of the file that stand under the music. */
  readonly footnotes: readonly Footnote[];
}

/** What the part is made of. */
export interface PartRequest {
  readonly score: Score;
  /** The harps whose staves the score holds, from the top; for a part its own. */
  readonly harps: readonly HarpPart[];
  /** Ids of the notes that the player on whose staves they stand does not play. */
  readonly others: ReadonlySet<string>;
  readonly engraving: PartLooks;
  readonly played: PlayedNotes;
  /** What other parts play before entries of the harp. */
  readonly cues: CuesToWrite;
  /** The staves that are set in full size; others are there to be read along. */
  readonly full: StaffRange;
  /** What of the source is left out in any case. */
  readonly leftOut: readonly Span[];
}

/** The options that a part is prepared by. */
export type PartLooks = Pick<
  EngravingOptions,
  | 'fileMarkings'
  | 'fifthFinger'
  | 'crossStaves'
  | 'paper'
  | 'staffMm'
  | 'stringColours'
  | 'respelledLook'
  | 'naming'
>;

/** A score is laid out in some few ways at a time. */
const MOST_OF_SCORE = 3;

const KNOWN = createScoreMemory<PreparedPart>(MOST_OF_SCORE);

/**
 * The part as a document for the layout. One that was prepared before for the same score is not prepared again.
 *
 * @returns null where the layout cannot load the score
 */
export const preparePart = (request: PartRequest, drawer: Drawer): PreparedPart | null => {
  const key = keyOf(request);
  const known = KNOWN.find(request.score, key);
  if (known !== undefined) return known;
  const part = prepareAnew(request, drawer);
  if (part !== null) KNOWN.keep(request.score, key, part);
  return part;
};

/** Whether a part was prepared before. */
export const isPrepared = (request: PartRequest): boolean =>
  KNOWN.find(request.score, keyOf(request)) !== undefined;

/** Everything that a part is prepared by beside what its score holds. */
const keyOf = ({ harps, others, engraving, played, cues, full, leftOut }: PartRequest): string => {
  const { crossStaves, fifthFinger, fileMarkings, naming, paper, respelledLook, staffMm, stringColours } =
    engraving;
  const { respellings, omitted } = played;
  return JSON.stringify([
    [...others],
    harps,
    full,
    leftOut,
    { crossStaves, fifthFinger, fileMarkings, paper, respelledLook, staffMm, stringColours },
    // Names stand at respelled notes alone.
    respellings.length === 0 ? null : [naming, respellings],
    omitted,
    cues.staves,
    cues.cues.map(({ bar, bars, notes, part }) => [bar, bars, notes.map(({ id }) => id), part.id]),
  ]);
};

const prepareAnew = (request: PartRequest, drawer: Drawer): PreparedPart | null => {
  const { score, harps, engraving, others } = request;
  const replaced = findReplaced(request);
  const convert = (musicXml: string): string | null => convertToMei(drawer, musicXml);
  const prepared = preparePartMei({ score, harps, others }, replaced.spans, convert);
  if (prepared === null) return null;
  const { mei } = prepared;
  const pair = staffPair(mei, request.full);
  const crossed = engraving.crossStaves && pair !== null ? crossStaves(mei, pair) : NOTHING_CROSSED;
  const accidentals = findMissingAccidentals(score, mei);
  const cues = cueEdits(mei, request.cues, (part) =>
    preparePartMei({ score: part, harps: [part.harp], others: new Set() }, [], convert),
  );
  return {
    mei,
    edits: {
      before: orderEdits([...prepared.edits, ...engravingEdits(request, mei, crossed, accidentals)]),
      after: orderEdits([...smallStaffEdits(mei, request.full), ...cues.edits, ...ownBreakEdits(mei)]),
    },
    cues,
    rests: findSilences(score).flatMap((silence) => silence.rests),
    movements: movementStarts(score, mei),
    told: {
      replacedMarkings: replaced.theirs.length,
      accidentalsAdded: accidentals.bars,
      ledgerBars: barsOfManyLedgerLines(score, mei, pair, crossed.tags),
      lettersLeftOut: replaced.letters.map(({ bar }) => bar),
      footnotes: findFootnotes(score, mei),
    },
  };
};

/** What of the source is not on the page as it stands there. */
const findReplaced = ({ score, engraving, leftOut, played }: PartRequest) => {
  const theirs = engraving.fileMarkings ? [] : replacedFileMarkings(score);
  const letters = analysisLetters(score);
  const spans: readonly Span[] = [
    ...leftOut,
    // What an earlier annotation wrote is drawn anew, never twice.
    ...ownElements(score).map((element) => element.span),
    ...staleBrackets(score, new Set(played.omitted)),
    ...theirs,
    ...letters.map(({ span }) => span),
    ...accidentalWords(score).map(({ span }) => span),
    ...(engraving.fifthFinger ? [] : fifthFingers(score).map(({ span }) => span)),
  ];
  return { spans, theirs, letters };
};

/** What is edited before the signs that are set as notes. */
const engravingEdits = (
  { score, harps, engraving, played, others, cues }: PartRequest,
  mei: LayoutMei,
  crossed: ReturnType<typeof crossStaves>,
  accidentals: ReturnType<typeof findMissingAccidentals>,
): readonly Edit[] => [
  ...pageEdits(score, mei, pageLayoutOf(engraving), harps.length > 1),
  ...scoreTextEdits(score, mei),
  ...glissandoEdits(score, mei),
  ...clefSignEdits(mei),
  ...clefPlaceEdits(score, mei, new Set(cues.cues.flatMap(({ bars }) => bars))),
  ...crossedTieEdits(score, mei),
  ...longDirectionEdits(score, mei),
  ...repeatedWordEdits(mei),
  ...repeatedVerseEdits(mei),
  ...crossed.edits,
  ...fillerRestEdits(mei, crossed.guests),
  ...accidentals.edits,
  ...bareBracketEdits(mei),
  ...repeatBarEdits(score, mei),
  ...movementEdits(score, mei),
  ...noteLookEdits(score, mei, { ...played, others }, engraving),
  ...otherSignEdits(score, mei, others),
  // Beside other instruments nothing tells whose a dynamic is.
  ...(harps.length === 1 ? otherDynamicEdits(score, mei, others) : []),
];

/** The staves of the harp that is read, where it has two. */
const staffPair = ({ staves }: LayoutMei, range: StaffRange): StaffPair | null => {
  const [upper, lower, ...more] = stavesIn(staves, range);
  return upper === undefined || lower === undefined || more.length > 0 ? null : [upper, lower];
};

/** Behind every final bar line, and where the score is read so. */
const movementStarts = ({ bars, movements }: Score, mei: LayoutMei): Set<number> =>
  new Set([
    ...bars
      .filter((bar) => mei.measureOf(bar)?.attributes.right === 'end')
      .map(({ index }) => index + 1)
      .filter((bar) => bar < bars.length),
    ...movements,
  ]);

const movementEdits = (score: Score, mei: LayoutMei): Edit[] =>
  [...movementStarts(score, mei)].flatMap((bar) => {
    const measure = mei.measureOf(score.bars[bar]!);
    return measure === undefined ? [] : [insertAt(measure.span.start, MOVEMENT_START)];
  });

/** A file that was converted before is not converted again. */
const convertToMei = ({ engraver, memory }: Drawer, musicXml: string): string | null => {
  const key = drawingKey('converted', musicXml);
  const known = memory.find(key);
  if (known !== undefined) return known;
  const converted = engraver.convertToMei(musicXml);
  const mei = converted === null ? null : nameByBars(converted, musicXml);
  if (mei !== null) memory.keep(key, mei);
  return mei;
};
