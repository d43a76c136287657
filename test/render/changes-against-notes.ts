import type { Score } from '../../engine/score/model/score.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import { groupsOf, treeOf } from './page-tree.ts';

/** From left to right on its page: a printed change, and the first note from its moment on, if that is in its bar. */
export interface ComparedChange {
  readonly id: string;
  readonly start: number;
  readonly end: number;
  /** The left edge of the notehead. */
  readonly noteX: number;
  /** Where the point of its wedge is, of one that is made with its note. */
  readonly wedgeX: number | null;
}

const numberIn = (pattern: RegExp, text: string): number => Number(pattern.exec(text)?.[1]);

const quarters = (key: string): number => {
  const [num, den = 1] = key.split('/').map(Number);
  return num! / den;
};

/** Reads the SVG alone: where changes and noteheads are drawn. */
export const changesAgainstNotes = (score: Score, pages: readonly string[]): ComparedChange[] =>
  pages.flatMap((page) => {
    const heads = noteheadsOf(page);
    return groupsOf(page, 'pedal-change').flatMap((change): ComparedChange[] => {
      const { 'data-onset': onset = '', 'data-bar-index': bar, transform = '', id = '' } = change.attributes;
      const at = quarters(onset);
      const coming = score.notes
        .filter((note) => note.bar === Number(bar) && note.role === 'played' && note.grace === null)
        .map((note) => ({ note, onset: note.onset.num / note.onset.den }))
        .filter((each) => each.onset >= at);
      const next = Math.min(...coming.map((each) => each.onset));
      const xs = coming.filter((each) => each.onset === next).flatMap(({ note }) => heads.get(note.id) ?? []);
      if (xs.length === 0) return [];
      const left = numberIn(/translate\((-?[\d.]+)/, transform);
      const scale = numberIn(/scale\(([\d.]+)/, transform);
      const paths = pathsIn(change);
      const inks = paths.map(({ attributes, x }) => inkOf(attributes, x));
      const wedge = paths.findIndex(({ attributes }) => attributes.class === 'with-note');
      const start = left + scale * Math.min(...inks.map(({ x0 }) => x0));
      const end = left + scale * Math.max(...inks.map(({ x1 }) => x1));
      const wedgeX = wedge < 0 ? null : left + scale * inks[wedge]!.x1;
      return [{ id, start, end, noteX: Math.min(...xs), wedgeX }];
    });
  });

/** The paths in a group, each with how far the groups about it move it to the right. */
const pathsIn = (group: XmlElement, x = 0): (Pick<XmlElement, 'attributes'> & { readonly x: number })[] =>
  group.children.flatMap((child) =>
    child.name === 'path'
      ? [{ attributes: child.attributes, x }]
      : pathsIn(child, x + (numberIn(/translate\((-?[\d.]+)/, child.attributes.transform ?? '') || 0)),
  );

/** The left edges of the noteheads on a page, by the ids of their notes. */
export const noteheadsOf = (page: string): ReadonlyMap<string, number> =>
  new Map(
    descendantsNamed(treeOf(page), 'g')
      .filter(({ attributes }) => /^note\b/.test(attributes.class ?? ''))
      .flatMap((group) => headX(group).map((x) => [group.attributes.id!, x] as const)),
  );

/** A note may be drawn without a head, as one that another voice shows. */
const headX = (group: XmlElement): number[] =>
  descendantsNamed(group, 'g')
    .filter(({ attributes }) => attributes.class === 'notehead')
    .flatMap((head) => descendantsNamed(head, 'use').slice(0, 1))
    .map(({ attributes }) => numberIn(/translate\((-?[\d.]+)/, attributes.transform ?? ''));

/** Of an outline of our own: moved, perhaps scaled, its points in pairs (curves lie between theirs). */
const inkOf = (
  { d = '', transform = '' }: Readonly<Record<string, string>>,
  moved: number,
): { x0: number; x1: number } => {
  const x = moved + (numberIn(/translate\((-?[\d.]+)/, transform) || 0);
  const scale = numberIn(/scale\(([\d.]+)/, transform) || 1;
  const points = pathXs(d).map((each) => x + scale * each);
  return { x0: Math.min(...points), x1: Math.max(...points) };
};

/** The x of every point of a path in absolute commands. */
const pathXs = (d: string): number[] =>
  [...d.matchAll(/([MLHVCQZ])([^MLHVCQZ]*)/g)].flatMap(([, command, rest]) => {
    const numbers = [...rest!.matchAll(/-?\d*\.?\d+/g)].map(([each]) => Number(each));
    if (command === 'V' || command === 'Z') return [];
    return command === 'H' ? numbers : numbers.filter((_, i) => i % 2 === 0);
  });
