import { childrenNamed, listParts, type Part, type Score, type XmlElement } from '../../../engine/index.ts';
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
  const parts = listParts(root, format);
  const own = harp.partIds.flatMap((id) => parts.find((part) => part.id === id) ?? []);
  const candidates = [...own, ...parts].map(({ bars }) => printedBreaks(bars));
  return candidates.find(({ systems }) => systems.length > 0) ?? { systems: [], pages: [] };
};

const printedBreaks = (bars: Part['bars']): Breaks => {
  const barsThatSay = (...names: readonly string[]): readonly number[] =>
    bars
      .filter(
        ({ index, content }) =>
          index > 0 &&
          childrenNamed(content, 'print').some(({ attributes }) =>
            names.some((name) => attributes[name] === 'yes'),
          ),
      )
      .map(({ index }) => index);
  return { systems: barsThatSay('new-system', 'new-page'), pages: barsThatSay('new-page') };
};
