import {
  childrenNamed,
  descendantsNamed,
  firstChild,
  type Score,
  type Span,
  type XmlElement,
} from '../../engine/index.ts';
import { cut, type Edit, editSlices, escapeText, insertAt, setAttribute } from '../edit.ts';

type Slice = (span: Span) => string;

/**
 * A partwise MusicXML document that holds the harp alone, made for the layout and never shown: the source's own
 * text, with the score's ids on every note, rest and bar, and without what the layout does itself (credits, page
 * sizes, joined rests).
 *
 * @param dropped what else of the source is left out
 */
export const extractHarpMusicXml = (score: Score, dropped: readonly Span[]): string => {
  const { text, root } = score.source;
  const parts = harpMeasures(score);
  const slice = editSlices(text, [
    ...idEdits(score),
    ...layoutEdits(parts.flatMap((part) => part.contents)),
    ...dropped.map(cut),
    ...parts.flatMap((part) => missingAttributes(part, parts.length > 1 ? 1 : score.harp.staves)),
    ...parts.flatMap((part) => endingNumbers(score, part)),
  ]);
  const headers = ['work', 'movement-number', 'movement-title', 'identification']
    .flatMap((name) => childrenNamed(root, name))
    .map((element) => slice(element.span));
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n<score-partwise version="4.0">',
    ...headers,
    partList(root, score.harp.partIds, slice),
    ...parts.map((part) => part.write(slice)),
    '</score-partwise>',
  ].join('\n');
};

/** One part of the harp: the elements that hold its bars' contents, and how to write it as a partwise part. */
interface HarpMeasures {
  readonly contents: readonly XmlElement[];
  readonly write: (slice: Slice) => string;
}

const harpMeasures = (score: Score): HarpMeasures[] => {
  const { root, format } = score.source;
  if (format === 'musicxml-partwise') {
    return score.harp.partIds.map((id) => {
      const part = childrenNamed(root, 'part').find((each) => each.attributes.id === id)!;
      return { contents: childrenNamed(part, 'measure'), write: (slice) => slice(part.span) };
    });
  }
  return score.harp.partIds.map((id) => {
    const bars = childrenNamed(root, 'measure').flatMap((measure) =>
      childrenNamed(measure, 'part')
        .filter((part) => part.attributes.id === id)
        .map((part) => ({ measure, part })),
    );
    return {
      contents: bars.map(({ part }) => part),
      write: (slice) =>
        [
          `<part id="${id}">`,
          ...bars.map(
            ({ measure, part }) =>
              `${slice({ start: measure.span.start, end: measure.inner.start })}${slice(part.inner)}</measure>`,
          ),
          '</part>',
        ].join('\n'),
    };
  });
};

const partList = (root: XmlElement, partIds: readonly string[], slice: Slice): string => {
  const list = firstChild(root, 'part-list');
  const listed = list === undefined ? [] : childrenNamed(list, 'score-part');
  const parts = partIds.map((id) => {
    const entry = listed.find((each) => each.attributes.id === id);
    // The reader takes a part that the file forgets to list; the conversion does not.
    return entry === undefined
      ? `<score-part id="${escapeText(id)}"><part-name/></score-part>`
      : slice(entry.span);
  });
  const braced = [
    '<part-group type="start" number="1"><group-symbol>brace</group-symbol><group-barline>yes</group-barline></part-group>',
    ...parts,
    '<part-group type="stop" number="1"/>',
  ];
  return ['<part-list>', ...(parts.length > 1 ? braced : parts), '</part-list>'].join('\n');
};

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
const missingAttributes = ({ contents }: HarpMeasures, staves: number): Edit[] => {
  const first = contents[0];
  if (first === undefined || firstChild(first, 'attributes') !== undefined) return [];
  const clefs = [
    '<clef number="1"><sign>G</sign><line>2</line></clef>',
    '<clef number="2"><sign>F</sign><line>4</line></clef>',
  ];
  const put = `<attributes><divisions>1</divisions><staves>${staves}</staves>${clefs.slice(0, staves).join('')}</attributes>`;
  return first.inner.start === first.span.end ? [] : [insertAt(first.inner.start, put)];
};

/** The conversion leaves out an ending whose start has no number: it gets the one that was read. */
const endingNumbers = (score: Score, { contents }: HarpMeasures): Edit[] =>
  contents.flatMap((content, bar) => {
    const numbers = score.bars[bar]?.repeat.endings ?? [];
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
