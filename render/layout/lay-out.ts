import { ok, type Result, refuse } from '../../engine/problem.ts';
import type { Score } from '../../engine/score/model.ts';
import { descendantsNamed, parseXml, type XmlElement } from '../../engine/xml/tree.ts';
import { cut, type Edit, editSlices } from '../edit.ts';
import { harpMeiEdits } from './extract-mei.ts';
import { extractHarpMusicXml } from './extract-musicxml.ts';
import { headingEdit, type LayoutMei, type MarkingRoom, placeholderEdits } from './prepare-mei.ts';
import type { Engraver, PageLayout } from './verovio.ts';

/**
 * Lays the harp's staves out on pages with room for every marking.
 *
 * @returns one SVG a page in which each marking is still a placeholder, or `layout-failed`
 */
export const layOutHarp = (
  score: Score,
  rooms: readonly MarkingRoom[],
  engraver: Engraver,
  layout: PageLayout,
): Result<string[]> => {
  const prepared = score.source.format === 'mei' ? ownMei(score) : convertedMei(score, engraver);
  if (prepared === null) return refuse({ code: 'layout-failed' });
  const { mei, edits } = prepared;
  const all = [...edits, ...headingEdit(score, mei), ...placeholderEdits(score, mei, rooms)];
  const text = `<?xml version="1.0" encoding="UTF-8"?>\n${editSlices(mei.text, all)(mei.root.span)}`;
  const pages = engraver.layOut(text, layout);
  return pages === null || pages.length === 0 ? refuse({ code: 'layout-failed' }) : ok(pages);
};

interface PreparedMei {
  readonly mei: LayoutMei;
  readonly edits: readonly Edit[];
}

const ownMei = (score: Score): PreparedMei => {
  const { text, root } = score.source;
  const measures = new Map(descendantsNamed(root, 'measure').map((each) => [each.span.start, each]));
  return {
    mei: {
      text,
      root,
      staves: score.harp.meiStaves,
      measureOf: (bar) => measures.get(bar.span.start),
      hasEvent: () => true,
    },
    edits: harpMeiEdits(score),
  };
};

const convertedMei = (score: Score, engraver: Engraver): PreparedMei | null => {
  const text = engraver.convertToMei(extractHarpMusicXml(score));
  const parsed = text === null ? null : parseXml(text);
  if (text === null || parsed === null || !parsed.ok) return null;
  const root = parsed.value;
  const measures = byId(descendantsNamed(root, 'measure'));
  const events = byId(descendantsNamed(root, 'note', 'rest', 'mRest', 'chord'));
  const staves = [...new Set(descendantsNamed(root, 'staffDef').map((each) => each.attributes.n ?? ''))];
  return {
    mei: { text, root, staves, measureOf: (bar) => measures.get(bar.id), hasEvent: (id) => events.has(id) },
    edits: [
      ...descendantsNamed(root, 'pgHead', 'pgFoot').map((element) => cut(element.span)),
      ...spaceEdits(text, root),
    ],
  };
};

/** A space before the end of a styled stretch of words is lost when MEI is loaded: it is made one that stays. */
const spaceEdits = (text: string, root: XmlElement): Edit[] =>
  descendantsNamed(root, 'rend')
    .filter(({ inner }) => inner.end > inner.start && text[inner.end - 1] === ' ')
    .map(({ inner }) => ({ start: inner.end - 1, end: inner.end, put: '\u00a0' }));

const byId = (elements: readonly XmlElement[]): Map<string, XmlElement> =>
  new Map(elements.map((each) => [each.attributes['xml:id'] ?? '', each]));
