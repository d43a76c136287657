import {
  descendantsNamed,
  type HarpPart,
  parseXml,
  type Score,
  type Span,
  type XmlElement,
} from '../../engine/index.ts';
import { cut, type Edit, editSlices } from '../edit.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { findSilences } from '../markings/silences.ts';
import { fillerRestEdits } from '../part/bars/filler-rests.ts';
import { endTagEdits, missingStaffEdits } from '../part/bars/missing-staves.ts';
import { multiBarRests } from '../part/bars/multi-bar-rests.ts';
import { repeatBarEdits } from '../part/bars/repeat-bars.ts';
import { extractHarpMei } from '../part/extract-mei.ts';
import { extractHarpMusicXml } from '../part/extract-musicxml.ts';
import { replacedFileMarkings } from '../part/file-markings.ts';
import { barNumberEdits, ownBreakEdits, pageEdits } from '../part/prepare-mei.ts';
import { glissandoEdits } from '../part/signs/glissando-lines.ts';
import { hiddenClefEdits } from '../part/signs/hidden-clefs.ts';
import { barsOfManyLedgerLines } from '../part/signs/ledger-lines.ts';
import { findMissingAccidentals } from '../part/signs/missing-accidentals.ts';
import { meiGlyphEdits } from '../part/signs/music-glyphs.ts';
import { noteLookEdits, type PlayedNotes } from '../part/signs/note-looks.ts';
import { fifthFingers } from '../part/texts/fingerings.ts';
import { type Footnote, findFootnotes, longDirectionEdits } from '../part/texts/long-directions.ts';
import { scoreTextEdits } from '../part/texts/score-texts.ts';
import { staleBrackets } from '../source/insertion/bracket-notes.ts';
import { ownElements } from '../source/our-markings.ts';
import { lineBreakEdits } from './breaks/breaks.ts';
import { pageLayoutOf } from './breaks/page-layout.ts';
import { elementOwners, type LayoutMei } from './layout-mei.ts';
import { placeholderEdits, type ReservedSpace } from './spaces/reserve-spaces.ts';
import type { Engraver } from './verovio.ts';

/** The harp's part as a document for the layout, from which each pass writes its own text. */
export interface LayoutDocument {
  /** How many pedal markings of the file are left out since ours take their place. */
  readonly replacedMarkings: number;
  /** Bars (indices) with accidentals that the file does not print, one for each. */
  readonly accidentalsAdded: readonly number[];
  /** Bars (indices) with many ledger lines within reach of the other staff. */
  readonly ledgerBars: readonly number[];
  /** Notes of the file that stand under the music. */
  readonly footnotes: readonly Footnote[];
  /** Bars (indices) that follow a final bar line. */
  readonly movements: ReadonlySet<number>;
  /** @param lines bars (indices) with which lines begin, without the first */
  readonly write: (rooms: readonly ReservedSpace[], lines: readonly number[]) => string;
}

/** What the document is made of. */
export interface DocumentRequest {
  readonly score: Score;
  /** The harps whose staves the score holds, from the top; for a part its own. */
  readonly harps: readonly HarpPart[];
  readonly engraving: EngravingOptions;
  readonly played: PlayedNotes;
  readonly signEdits: (mei: LayoutMei) => readonly Edit[];
}

/** @returns null where the layout cannot load the score */
export const prepareDocument = (
  { score, harps, engraving, played, signEdits }: DocumentRequest,
  engraver: Engraver,
): LayoutDocument | null => {
  const others = engraving.fileMarkings ? [] : replacedFileMarkings(score);
  // What an earlier annotation wrote is drawn anew, never twice.
  const replaced = [
    ...ownElements(score).map((element) => element.span),
    ...staleBrackets(score, new Set(played.omitted)),
    ...others,
    ...(engraving.fifthFinger ? [] : fifthFingers(score).map(({ span }) => span)),
  ];
  const prepared =
    score.source.format === 'mei'
      ? ownMei(score, replaced)
      : convertedMei(engraver.convertToMei(extractHarpMusicXml(score, harps, replaced)));
  if (prepared === null) return null;
  const { mei } = prepared;
  const accidentals = findMissingAccidentals(score, mei);
  const lasting = [
    ...prepared.edits,
    ...pageEdits(score, mei, pageLayoutOf(engraving), harps.length > 1),
    ...scoreTextEdits(score, mei),
    ...glissandoEdits(score, mei),
    ...hiddenClefEdits(mei),
    ...longDirectionEdits(score, mei),
    ...fillerRestEdits(mei),
    ...accidentals.edits,
    ...repeatBarEdits(score, mei),
    ...noteLookEdits(score, mei, played, engraving),
    ...signEdits(mei),
  ];
  const rests = engraving.multiBarRests ? findSilences(score).flatMap((silence) => silence.rests) : [];
  return {
    replacedMarkings: others.length,
    accidentalsAdded: accidentals.bars,
    ledgerBars: barsOfManyLedgerLines(score, mei),
    footnotes: findFootnotes(score, mei),
    movements: movementStarts(score, mei),
    write: (rooms, lines) => {
      const begun = new Set([...rooms.map((room) => room.bar), ...lines]);
      const joined = multiBarRests(score, mei, rests, begun);
      const single = measuresOf(mei, score, (bar) => !joined.homes.has(bar));
      const shown = measuresOf(mei, score, (bar) => (joined.homes.get(bar) ?? bar) === bar);
      const edits = [
        ...lasting,
        ...joined.edits,
        ...single.flatMap((measure) => missingStaffEdits(measure, mei.staves, () => '<mRest/>')),
        ...placeholderEdits(score, mei, rooms, engraving.placement, joined.homes),
        ...endTagEdits(shown),
        ...barNumberEdits(score, mei, engraving.barNumbers, new Set(lines)),
        ...ownBreakEdits(mei),
        ...lineBreakEdits(score, mei, lines),
      ];
      return `<?xml version="1.0" encoding="UTF-8"?>\n${editSlices(mei.text, edits)(mei.root.span)}`;
    },
  };
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
): readonly XmlElement[] =>
  score.bars.filter(({ index }) => isWanted(index)).flatMap((bar) => mei.measureOf(bar) ?? []);

interface PreparedMei {
  readonly mei: LayoutMei;
  readonly edits: readonly Edit[];
}

const ownMei = (score: Score, replaced: readonly Span[]): PreparedMei => {
  const { edits, dropped } = extractHarpMei(score);
  const { text, root } = score.source;
  const measures = new Map(descendantsNamed(root, 'measure').map((each) => [each.span.start, each]));
  const tags = new Map(elementOwners(score).map(({ id, span }) => [id, span.start]));
  const mei: LayoutMei = {
    text,
    root,
    staves: score.harp.meiStaves,
    measureOf: (bar) => measures.get(bar.span.start),
    tagOf: ({ id }) => tags.get(id),
    isDropped: ({ span }) => dropped.has(span.start),
  };
  return { mei, edits: [...edits, ...meiGlyphEdits(root), ...replaced.map(cut)] };
};

const convertedMei = (text: string | null): PreparedMei | null => {
  const parsed = text === null ? null : parseXml(text);
  if (text === null || parsed === null || !parsed.ok) return null;
  const root = parsed.value;
  const measures = byId(descendantsNamed(root, 'measure'));
  const events = byId(descendantsNamed(root, 'note', 'rest', 'mRest', 'chord'));
  const staves = [...new Set(descendantsNamed(root, 'staffDef').map((each) => each.attributes.n ?? ''))];
  const mei: LayoutMei = {
    text,
    root,
    staves,
    measureOf: (bar) => measures.get(bar.id),
    tagOf: ({ id }) => events.get(id)?.span.start,
    isDropped: () => false,
  };
  return { mei, edits: spaceEdits(text, root) };
};

/** A space before the end of a styled stretch of words is lost when MEI is loaded: it is made one that stays. */
const spaceEdits = (text: string, root: XmlElement): Edit[] =>
  descendantsNamed(root, 'rend')
    .filter(({ inner }) => inner.end > inner.start && text[inner.end - 1] === ' ')
    .map(({ inner }) => ({ start: inner.end - 1, end: inner.end, put: '\u00a0' }));

const byId = (elements: readonly XmlElement[]): Map<string, XmlElement> =>
  new Map(elements.map((each) => [each.attributes['xml:id'] ?? '', each]));
