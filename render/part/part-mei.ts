import {
  descendantsNamed,
  type HarpPart,
  parseXml,
  type Score,
  type Span,
  type XmlElement,
} from '../../engine/index.ts';
import { cut, type Edit, editSlices } from '../edit.ts';
import { elementOwners, type LayoutMei } from '../layout/document/layout-mei.ts';
import { shownStaffEdits } from './bars/hidden-staves.ts';
import { hiddenVoices } from './bars/hidden-voices.ts';
import { extractHarpMei } from './extract-mei.ts';
import { extractHarpMusicXml } from './extract-musicxml.ts';
import { setForTwo } from './for-two/set-for-two.ts';
import { meiGlyphEdits } from './signs/music-glyphs.ts';
import { convertedWordEdits } from './texts/converted-words.ts';
import { stretchEdits } from './texts/words-apart.ts';

/** A part as MEI, and the edits that leave it alone in its document. */
export interface PartMei {
  readonly mei: LayoutMei;
  readonly edits: readonly Edit[];
}

/** What is to be set: the staves of a harp, of several, or of one part for each of two players. */
export interface StavesToSet {
  readonly score: Score;
  /** From the top; for a part its own, twice where two players share it. */
  readonly harps: readonly HarpPart[];
  /** Ids of the notes that the player on whose staves they stand does not play. */
  readonly others: ReadonlySet<string>;
}

/**
 * The part of a score as MEI.
 *
 * @param replaced what else of the source is left out
 * @param convert of MusicXML, to MEI
 * @returns null where the layout cannot load the score
 */
export const preparePartMei = (
  { score, harps, others }: StavesToSet,
  replaced: readonly Span[],
  convert: (musicXml: string) => string | null,
): PartMei | null => {
  const [first, second] = harps;
  const isShared = second !== undefined && first!.partIds[0] === second.partIds[0];
  const part = isShared ? { ...score, harp: first! } : score;
  const prepared =
    score.source.format === 'mei'
      ? ownMei(part, replaced)
      : convertedMei(convert(extractHarpMusicXml(part, isShared ? [first!] : harps, replaced)));
  if (prepared === null || !isShared) return prepared;
  const { mei, edits } = prepared;
  const set = setForTwo(editSlices(mei.text, edits)(mei.root.span), mei.staves, harps, others);
  return set === null ? null : { mei: set, edits: [] };
};

const ownMei = (score: Score, replaced: readonly Span[]): PartMei => {
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
  const others = score.source.movement?.others ?? [];
  const left = [...replaced, ...others, ...hiddenVoices(root, mei.staves)];
  const shown = shownStaffEdits(text, root, mei.staves);
  return {
    mei,
    edits: [...edits, ...shown, ...meiGlyphEdits(root), ...stretchEdits(text, root), ...left.map(cut)],
  };
};

const convertedMei = (text: string | null): PartMei | null => {
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
  return { mei, edits: convertedWordEdits(text, root) };
};

const byId = (elements: readonly XmlElement[]): Map<string, XmlElement> =>
  new Map(elements.map((each) => [each.attributes['xml:id'] ?? '', each]));
