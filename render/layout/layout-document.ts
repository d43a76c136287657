import { childrenNamed, firstChild, type HarpPart, type Score, type XmlElement } from '../../engine/index.ts';
import { type CuesToWrite, cueEdits } from '../cues/cue-edits.ts';
import { type Edit, editSlices, insertAt } from '../edit.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { findSilences } from '../markings/silences.ts';
import { fillerRestEdits } from '../part/bars/filler-rests.ts';
import { endTagEdits, missingStaffEdits } from '../part/bars/missing-staves.ts';
import { multiBarRests } from '../part/bars/multi-bar-rests.ts';
import { repeatBarEdits } from '../part/bars/repeat-bars.ts';
import { replacedFileMarkings } from '../part/file-markings.ts';
import { preparePartMei } from '../part/part-mei.ts';
import { barNumberEdits, ownBreakEdits, pageEdits } from '../part/prepare-mei.ts';
import { bareBracketEdits } from '../part/signs/bare-brackets.ts';
import { crossStaves, NOTHING_CROSSED } from '../part/signs/cross-staves.ts';
import { glissandoEdits } from '../part/signs/glissando-lines.ts';
import { hiddenClefEdits } from '../part/signs/hidden-clefs.ts';
import { barsOfManyLedgerLines, type StaffPair } from '../part/signs/ledger-lines.ts';
import { findMissingAccidentals } from '../part/signs/missing-accidentals.ts';
import { noteLookEdits, type PlayedNotes } from '../part/signs/note-looks.ts';
import { smallStaffEdits } from '../part/small-staves.ts';
import { accidentalWords } from '../part/texts/accidental-words.ts';
import { analysisLetters } from '../part/texts/analysis-letters.ts';
import { fifthFingers } from '../part/texts/fingerings.ts';
import { type Footnote, findFootnotes, longDirectionEdits } from '../part/texts/long-directions.ts';
import { scoreTextEdits } from '../part/texts/score-texts.ts';
import { staleBrackets } from '../source/insertion/bracket-notes.ts';
import { ownElements } from '../source/our-markings.ts';
import { lineBreakEdits } from './breaks/breaks.ts';
import { pageLayoutOf } from './breaks/page-layout.ts';
import type { Drawer } from './drawer.ts';
import { drawingKey } from './drawing-memory.ts';
import type { LayoutMei } from './layout-mei.ts';
import { placeholderEdits, type ReservedSpace, type StaffRange, stavesIn } from './spaces/reserve-spaces.ts';

/** The harp's part as a document for the layout, from which each pass writes its own text. */
export interface LayoutDocument {
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
  /** Bars (indices) that follow a final bar line. */
  readonly movements: ReadonlySet<number>;
  /**
   * @param lines bars (indices) with which lines begin, without the first
   * @param begun bars that no joined rest may hide, beside those of rooms and lines
   */
  readonly write: (
    rooms: readonly ReservedSpace[],
    lines: readonly number[],
    begun?: readonly number[],
  ) => string;
}

/** What the document is made of. */
export interface DocumentRequest {
  readonly score: Score;
  /** The harps whose staves the score holds, from the top; for a part its own. */
  readonly harps: readonly HarpPart[];
  /** Ids of the notes that the player on whose staves they stand does not play. */
  readonly others: ReadonlySet<string>;
  readonly engraving: EngravingOptions;
  readonly played: PlayedNotes;
  readonly signEdits: (mei: LayoutMei) => readonly Edit[];
  readonly cues: CuesToWrite;
  /** The staves that are set in full size; others are there to be read along. */
  readonly full: StaffRange;
}

/** @returns null where the layout cannot load the score */
export const prepareDocument = (
  { score, harps, engraving, played, signEdits, ...request }: DocumentRequest,
  drawer: Drawer,
): LayoutDocument | null => {
  const theirs = engraving.fileMarkings ? [] : replacedFileMarkings(score);
  const letters = analysisLetters(score);
  // What an earlier annotation wrote is drawn anew, never twice.
  const replaced = [
    ...ownElements(score).map((element) => element.span),
    ...staleBrackets(score, new Set(played.omitted)),
    ...theirs,
    ...letters.map(({ span }) => span),
    ...accidentalWords(score).map(({ span }) => span),
    ...(engraving.fifthFinger ? [] : fifthFingers(score).map(({ span }) => span)),
  ];
  const convert = (musicXml: string): string | null => convertToMei(drawer, musicXml);
  const prepared = preparePartMei({ score, harps, others: request.others }, replaced, convert);
  if (prepared === null) return null;
  const { mei } = prepared;
  const pair = staffPair(mei, request.full);
  const crossed = engraving.crossStaves && pair !== null ? crossStaves(mei, pair) : NOTHING_CROSSED;
  const accidentals = findMissingAccidentals(score, mei);
  const cues = cueEdits(mei, request.cues, (part) =>
    preparePartMei({ score: part, harps: [part.harp], others: new Set() }, [], convert),
  );
  const lasting = [
    ...prepared.edits,
    ...pageEdits(score, mei, pageLayoutOf(engraving), harps.length > 1),
    ...scoreTextEdits(score, mei),
    ...glissandoEdits(score, mei),
    ...hiddenClefEdits(mei),
    ...longDirectionEdits(score, mei),
    ...crossed.edits,
    ...fillerRestEdits(mei, crossed.guests),
    ...accidentals.edits,
    ...bareBracketEdits(mei),
    ...repeatBarEdits(score, mei),
    ...noteLookEdits(score, mei, { ...played, others: request.others }, engraving),
    ...signEdits(mei),
    ...smallStaffEdits(mei, request.full),
    ...cues.edits,
  ];
  const rests = engraving.multiBarRests ? findSilences(score).flatMap((silence) => silence.rests) : [];
  return {
    replacedMarkings: theirs.length,
    accidentalsAdded: accidentals.bars,
    ledgerBars: barsOfManyLedgerLines(score, mei, pair, crossed.tags),
    lettersLeftOut: letters.map(({ bar }) => bar),
    footnotes: findFootnotes(score, mei),
    movements: movementStarts(score, mei),
    write: (rooms, lines, others = []) => {
      const begun = new Set([...rooms.map((room) => room.bar), ...lines, ...others, ...cues.bars]);
      const joined = multiBarRests(score, mei, rests, {
        begun,
        prepared: cues.clefs,
        ranged: engraving.restRanges,
      });
      const single = measuresOf(mei, score, (bar) => !joined.homes.has(bar));
      const shown = measuresOf(mei, score, (bar) => (joined.homes.get(bar) ?? bar) === bar);
      const edits = [
        ...lasting,
        ...joined.edits,
        ...single.flatMap(({ bar, measure }) =>
          missingStaffEdits(
            measure,
            mei.staves,
            (n) =>
              cues.layers.get(`${bar} ${n}`) ??
              `<layer n="1"><mRest/>${cues.clefs.get(`${bar} ${n}`) ?? ''}</layer>`,
          ),
        ),
        ...single.flatMap(({ bar, measure }) =>
          mei.staves.flatMap((n) => clefAtEnd(measure, n, cues.clefs.get(`${bar} ${n}`))),
        ),
        ...placeholderEdits(score, mei, rooms, engraving.placement, joined.homes),
        ...endTagEdits(shown.map(({ measure }) => measure)),
        ...barNumberEdits(score, mei, engraving.barNumbers, new Set(lines)),
        ...ownBreakEdits(mei),
        ...lineBreakEdits(score, mei, lines),
      ];
      return `<?xml version="1.0" encoding="UTF-8"?>\n${editSlices(mei.text, edits)(mei.root.span)}`;
    },
  };
};

/** The staves of the harp that is read, where it has two. */
const staffPair = ({ staves }: LayoutMei, range: StaffRange): StaffPair | null => {
  const [upper, lower, ...more] = stavesIn(staves, range);
  return upper === undefined || lower === undefined || more.length > 0 ? null : [upper, lower];
};

/** A clef after what the first layer of a staff holds. */
const clefAtEnd = (measure: XmlElement, n: string, clef: string | undefined): Edit[] => {
  const staff = childrenNamed(measure, 'staff').find(({ attributes }) => attributes.n === n);
  const layer = staff === undefined ? undefined : firstChild(staff, 'layer');
  if (clef === undefined || layer === undefined) return [];
  return layer.inner.end < layer.span.end ? [insertAt(layer.inner.end, clef)] : [];
};

const movementStarts = ({ bars }: Score, mei: LayoutMei): Set<number> =>
  new Set(
    bars
      .filter((bar) => mei.measureOf(bar)?.attributes.right === 'end')
      .map(({ index }) => index + 1)
      .filter((bar) => bar < bars.length),
  );

const measuresOf = (
  mei: LayoutMei,
  score: Score,
  isWanted: (bar: number) => boolean,
): readonly { readonly bar: number; readonly measure: XmlElement }[] =>
  score.bars
    .filter(({ index }) => isWanted(index))
    .flatMap((bar) => {
      const measure = mei.measureOf(bar);
      return measure === undefined ? [] : [{ bar: bar.index, measure }];
    });

/** A file that was converted before is not converted again. */
const convertToMei = ({ engraver, memory }: Drawer, musicXml: string): string | null => {
  const key = drawingKey('converted', musicXml);
  const mei = memory.find(key) ?? engraver.convertToMei(musicXml);
  if (mei !== null) memory.keep(key, mei);
  return mei;
};
