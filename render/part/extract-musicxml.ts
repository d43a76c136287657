import {
  childrenNamed,
  descendantsNamed,
  escapeText,
  firstChild,
  type HarpPart,
  listParts,
  type Part,
  type Score,
  type Span,
  type XmlElement,
} from '../../engine/index.ts';
import { cut, type Edit, editSlices, insertAt, setAttribute } from '../edit.ts';
import { endOrderEdits } from './signs/ends-after-starts.ts';
import { musicGlyphEdits } from './signs/music-glyphs.ts';
import { octaveLineEdits } from './signs/octave-lines.ts';
import { lineEndEdits } from './texts/line-ends.ts';
import { directionWordEdits } from './texts/words-apart.ts';

type Slice = (span: Span) => string;

/**
 * A partwise MusicXML document that holds the harp alone, made for the layout and never shown: the source's own
 * text, with the score's ids on every note, rest and bar, and without what the layout does itself (credits, page
 * sizes, joined rests).
 *
 * @param harps the harps of the score, from the top; for a part its own
 * @param dropped what else of the source is left out
 */
export const extractHarpMusicXml = (
  score: Score,
  harps: readonly HarpPart[],
  dropped: readonly Span[],
): string => {
  const { text, root } = score.source;
  const parts = harpParts(score);
  const stavesOf = ({ id }: Part): number => {
    const harp = harps.find(({ partIds }) => partIds.includes(id))!;
    return harp.partIds.length > 1 ? 1 : harp.staves;
  };
  const slice = editSlices(text, [
    ...idEdits(score),
    ...layoutEdits(parts.flatMap(contentsOf)),
    ...musicGlyphEdits(parts.flatMap(contentsOf)),
    ...lineEndEdits(parts.flatMap(contentsOf)),
    ...directionWordEdits(parts.flatMap(contentsOf)),
    ...dropped.map(cut),
    ...parts.flatMap((part) => octaveLineEdits(text, contentsOf(part))),
    ...parts.flatMap((part) => endOrderEdits(text, contentsOf(part))),
    ...parts.flatMap((part) => missingAttributes(contentsOf(part), stavesOf(part))),
    ...parts.flatMap((part) => endingNumbers(score, part)),
  ]);
  const headers = ['work', 'movement-number', 'movement-title', 'identification']
    .flatMap((name) => childrenNamed(root, name))
    .map((element) => slice(element.span));
  const write =
    score.source.format === 'musicxml-partwise' ? writeByPart(slice) : writeByBar(score, stavesOf, slice);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n<score-partwise version="4.0">',
    ...headers,
    partList(root, parts, harps, slice),
    ...parts.map((part, hand) => `<part id="${idOfHand(hand)}">${write(part)}</part>`),
    '</score-partwise>',
  ].join('\n');
};

/** The file's own ids of parts may be empty, or hold signs that the conversion cannot look up. */
const idOfHand = (hand: number): string => `P${hand + 1}`;

const harpParts = ({ source, harp }: Score): readonly Part[] => {
  const byId = new Map(listParts(source.root, source.format).map((part) => [part.id, part]));
  return harp.partIds.flatMap((id) => byId.get(id) ?? []);
};

const contentsOf = ({ bars }: Part): readonly XmlElement[] => bars.map(({ content }) => content);

const writeByPart =
  (slice: Slice) =>
  (part: Part): string =>
    contentsOf(part)
      .map(({ span }) => slice(span))
      .join('\n');

/**
 * A score sorted by bar has the part's music in elements of its bars: each bar is written anew, with the score's id.
 * Where a bar has nothing for the part, it rests.
 */
const writeByBar = (
  { source, bars }: Score,
  stavesOf: (part: Part) => number,
  slice: Slice,
): ((part: Part) => string) => {
  const openings = childrenNamed(source.root, 'measure').map(({ attributes }, bar) =>
    Object.entries({ ...attributes, id: bars[bar]!.id }).map(
      ([name, value]) => ` ${name}="${escapeText(value)}"`,
    ),
  );
  return (part) => {
    const music = new Map(part.bars.map(({ index, content }) => [index, slice(content.inner)]));
    return openings
      .map(
        (attributes, bar) =>
          `<measure${attributes.join('')}>${music.get(bar) ?? silentBar(bar, stavesOf(part))}</measure>`,
      )
      .join('\n');
  };
};

const silentBar = (bar: number, staves: number): string => {
  const rests = Array.from(
    { length: staves },
    (_, staff) => `<note><rest measure="yes"/><duration>1</duration><staff>${staff + 1}</staff></note>`,
  );
  return `${bar === 0 ? openingAttributes(staves) : ''}${rests.join('<backup><duration>1</duration></backup>')}`;
};

const partList = (
  root: XmlElement,
  parts: readonly Part[],
  harps: readonly HarpPart[],
  slice: Slice,
): string => {
  const list = firstChild(root, 'part-list');
  const listed = list === undefined ? [] : childrenNamed(list, 'score-part');
  const write = ({ id }: Part, name: string | null): string => {
    const entry = listed.find(({ attributes }) => (attributes.id ?? '') === id);
    // The reader takes a part that the file forgets to list; the conversion does not.
    const own = entry === undefined ? '<part-name/>' : slice(entry.inner);
    const content = name === null ? own : `<part-name>${escapeText(name)}</part-name>`;
    return `<score-part id="${idOfHand(parts.findIndex((part) => part.id === id))}">${content}</score-part>`;
  };
  const lists = harps.map(({ name, partIds }) => {
    const own = parts.filter(({ id }) => partIds.includes(id));
    const nameOf = (hand: number): string | null => (harps.length > 1 ? (hand === 0 ? name : '') : null);
    const written = own.map((part, hand) => write(part, nameOf(hand)));
    return written.length > 1 ? [BRACE_START, ...written, BRACE_END] : written;
  });
  return ['<part-list>', ...lists.flat(), '</part-list>'].join('\n');
};

const BRACE_START =
  '<part-group type="start" number="1"><group-symbol>brace</group-symbol><group-barline>yes</group-barline></part-group>';
const BRACE_END = '<part-group type="stop" number="1"/>';

/** Ids by which bars, notes and rests are found again after the conversion. */
const idEdits = (score: Score): Edit[] => {
  const { text } = score.source;
  const tagged = [
    ...score.bars.map(({ span, id }) => ({ span, id, tag: '<measure' })),
    ...score.notes.map(({ span, id }) => ({ span, id, tag: '<note' })),
    ...score.rests.map(({ span, id }) => ({ span, id, tag: '<note' })),
  ];
  const done = new Set<number>();
  return tagged
    .filter(
      ({ span, tag }) => text.startsWith(tag, span.start) && !done.has(span.start) && done.add(span.start),
    )
    .map(({ span, id }) => setAttribute(text, span.start, 'id', id));
};

/**
 * The conversion loses the notes of a part whose first bar says nothing of divisions, staves and clefs. The lengths are
 * written in the notes' types as well, so any divisions do.
 */
const missingAttributes = ([first]: readonly XmlElement[], staves: number): Edit[] => {
  if (first === undefined || firstChild(first, 'attributes') !== undefined) return [];
  return first.inner.start === first.span.end ? [] : [insertAt(first.inner.start, openingAttributes(staves))];
};

const openingAttributes = (staves: number): string => {
  const clefs = [
    '<clef number="1"><sign>G</sign><line>2</line></clef>',
    '<clef number="2"><sign>F</sign><line>4</line></clef>',
  ];
  return `<attributes><divisions>1</divisions><staves>${staves}</staves>${clefs.slice(0, staves).join('')}</attributes>`;
};

/** The conversion leaves out an ending whose start has no number: it gets the one that was read. */
const endingNumbers = (score: Score, { bars }: Part): Edit[] =>
  bars.flatMap(({ index, content }) => {
    const numbers = score.bars[index]?.repeat.endings ?? [];
    if (numbers.length === 0) return [];
    return childrenNamed(content, 'barline')
      .flatMap((barline) => childrenNamed(barline, 'ending'))
      .filter(({ attributes }) => attributes.type === 'start' && (attributes.number ?? '').trim() === '')
      .map(({ span }) => setAttribute(score.source.text, span.start, 'number', numbers.join(', ')));
  });

/** Joined rests make the conversion lose bars: they are written out bar by bar, and joined again on the page. */
const layoutEdits = (bars: readonly XmlElement[]): Edit[] =>
  bars.flatMap((bar) =>
    descendantsNamed(bar, 'measure-style')
      .filter((style) => firstChild(style, 'multiple-rest') !== undefined)
      .map((style) => cut(style.span)),
  );
