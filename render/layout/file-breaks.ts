import { group } from 'd3-array';
import type { Score } from '../../engine/score/model.ts';
import { childrenNamed, type XmlElement } from '../../engine/xml/tree.ts';
import type { Breaks } from './breaks.ts';

/**
 * Where the file itself begins lines and pages; null where it says nothing of it. Programs often write the breaks of a
 * full score into its first part alone: a part without any takes those of the first part that has some.
 */
export const fileBreaks = (score: Score): Breaks | null => {
  const found = score.source.format === 'mei' ? meiBreaks(score) : musicXmlBreaks(score);
  return found.systems.length === 0 ? null : found;
};

const meiBreaks = (score: Score): Breaks => {
  const indexOf = new Map(score.bars.map(({ span, index }) => [span.start, index]));
  const systems: number[] = [];
  const pages: number[] = [];
  let pending: 'sb' | 'pb' | null = null;
  const visit = (element: XmlElement): void => {
    if (element.name === 'pb' || (element.name === 'sb' && pending === null)) pending = element.name;
    if (element.name === 'measure') {
      const bar = indexOf.get(element.span.start);
      if (bar !== undefined && bar > 0 && pending !== null) {
        systems.push(bar);
        if (pending === 'pb') pages.push(bar);
      }
      pending = null;
      return;
    }
    for (const each of element.children) visit(each);
  };
  visit(score.source.root);
  return { systems, pages };
};

const musicXmlBreaks = ({ source: { root, format }, harp }: Score): Breaks => {
  const bars = format === 'musicxml-partwise' ? barsByPart(root) : barsByPartTimewise(root);
  const own = harp.partIds.map((id) => bars.get(id) ?? []);
  const candidates = [...own, ...bars.values()].map(printedBreaks);
  return candidates.find(({ systems }) => systems.length > 0) ?? { systems: [], pages: [] };
};

/** The contents of each part's bars, in order. */
const barsByPart = (root: XmlElement): Map<string, readonly XmlElement[]> =>
  new Map(
    childrenNamed(root, 'part').map((part) => [part.attributes.id ?? '', childrenNamed(part, 'measure')]),
  );

const barsByPartTimewise = (root: XmlElement): Map<string, XmlElement[]> =>
  group(
    childrenNamed(root, 'measure').flatMap((measure) => childrenNamed(measure, 'part')),
    ({ attributes }) => attributes.id ?? '',
  );

const printedBreaks = (bars: readonly XmlElement[]): Breaks => {
  const says = (bar: XmlElement, name: string): boolean =>
    childrenNamed(bar, 'print').some(({ attributes }) => attributes[name] === 'yes');
  const indices = bars.map((_, index) => index).filter((index) => index > 0);
  const pages = indices.filter((index) => says(bars[index]!, 'new-page'));
  const systems = indices.filter(
    (index) => says(bars[index]!, 'new-system') || says(bars[index]!, 'new-page'),
  );
  return { systems, pages };
};
