import {
  type Bar,
  childrenNamed,
  childText,
  descendantsNamed,
  firstChild,
  listParts,
  type Part,
  rational,
  type Score,
  toNumber,
  walkBar,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/**
 * A clef for the grace notes that end a bar goes before them again: the conversion from MusicXML sets it behind them, and there
 * in any order with the clef of the next bar, which would be read in the wrong one. That goes to the start of its bar: between
 * grace notes and a bar line the layout sets no clef.
 */
export const clefBeforeGraceEdits = ({ harp, bars, source }: Score, mei: LayoutMei): Edit[] => {
  if (source.format === 'mei') return [];
  const parts = listParts(source.root, source.format).filter(({ id }) => harp.partIds.includes(id));
  return parts.flatMap((part, index) =>
    clefsBeforeLast(part).flatMap(({ bar, clef, staff }) => {
      const n = mei.staves[parts.length > 1 ? index : staff - 1] ?? '';
      const [own, next] = [bar, bar + 1].map((each) => staffOf(mei, bars[each], n));
      return own === undefined ? [] : moveClefs(mei.text, own, next, clef);
    }),
  );
};

/** A clef that the last notes of a bar stand in, which are grace notes. */
interface LateClef {
  readonly bar: number;
  /** From 1, within its part. */
  readonly staff: number;
  readonly clef: Clef;
}

interface Clef {
  readonly shape: string;
  readonly line: string;
}

const clefsBeforeLast = ({ bars }: Part): LateClef[] => {
  let divisions = rational(1);
  return bars.flatMap(({ content, index }) => {
    const read = readBar(content, divisions);
    divisions = read.divisions;
    return [...new Set(read.clefs.map(({ staff }) => staff))].flatMap((staff) => {
      const last = read.clefs.filter((clef) => clef.staff === staff).at(-1)!;
      const isLate = (read.lastNote.get(staff) ?? 0) < last.at;
      const [firstGrace] = read.graces.filter((grace) => grace.staff === staff && grace.at === read.length);
      if (!isLate || firstGrace === undefined) return [];
      return last.at < read.length || last.order < firstGrace.order
        ? [{ bar: index, staff, clef: last.clef }]
        : [];
    });
  });
};

interface InBar {
  readonly staff: number;
  /** Quarter notes from the bar's start. */
  readonly at: number;
  /** Where it stands in the file. */
  readonly order: number;
}

const readBar = (bar: XmlElement, from: Parameters<typeof walkBar>[1]) => {
  const clefs: (InBar & { readonly clef: Clef })[] = [];
  const graces: InBar[] = [];
  const lastNote = new Map<number, number>();
  const { divisions, length } = walkBar(bar, from, ({ at: time, element }) => {
    const [at, order] = [toNumber(time), element.span.start];
    if (element.name === 'note') {
      const staff = Number(childText(element, 'staff') ?? 1);
      if (firstChild(element, 'grace') !== undefined) graces.push({ staff, at, order });
      else lastNote.set(staff, Math.max(at, lastNote.get(staff) ?? 0));
    } else if (element.name === 'attributes' && at > 0) {
      for (const clef of childrenNamed(element, 'clef')) {
        const [shape, line] = [childText(clef, 'sign') ?? '', childText(clef, 'line') ?? ''];
        clefs.push({ staff: Number(clef.attributes.number ?? 1), at, order, clef: { shape, line } });
      }
    }
  });
  return { clefs, graces, lastNote, divisions, length: toNumber(length) };
};

const staffOf = (mei: LayoutMei, bar: Bar | undefined, n: string): XmlElement | undefined => {
  const measure = bar === undefined ? undefined : mei.measureOf(bar);
  return childrenNamed(measure ?? mei.root, 'staff').find(({ attributes }) => attributes.n === n);
};

/** The clef goes before the grace notes, and what the next bar begins with to that: the layout sets all clefs before them. */
const moveClefs = (
  text: string,
  staff: XmlElement,
  next: XmlElement | undefined,
  { line, shape }: Clef,
): Edit[] =>
  childrenNamed(staff, 'layer').flatMap(({ children }) => {
    const notesUntil = children.findLastIndex(({ name }) => name !== 'clef') + 1;
    const gracesFrom = children.slice(0, notesUntil).findLastIndex((each) => !isGrace(each)) + 1;
    const clefs = clefsAtEnd(children);
    const own = clefs.find(({ attributes }) => attributes.shape === shape && attributes.line === line);
    if (own === undefined || gracesFrom >= notesUntil) return [];
    const to = (clef: XmlElement, at: number): Edit[] => [
      cut(clef.span),
      insertAt(at, text.slice(clef.span.start, clef.span.end)),
    ];
    const begins = next === undefined ? undefined : firstChild(next, 'layer')?.inner.start;
    return [
      ...to(own, children[gracesFrom]!.span.start),
      ...clefs
        .filter((clef) => clef !== own)
        .flatMap((clef) =>
          begins === undefined ? [] : [...to(clef, begins), ...repeatsOf(staff, clef).map(cut)],
        ),
    ];
  });

/** Where other layers have the same clef. */
const repeatsOf = (staff: XmlElement, { attributes }: XmlElement): XmlElement['span'][] =>
  descendantsNamed(staff, 'clef')
    .filter((each) => each.attributes.sameas === `#${attributes['xml:id']}`)
    .map(({ span }) => span);

/** The clefs behind the last note, in its beam too. */
const clefsAtEnd = (children: readonly XmlElement[]): readonly XmlElement[] => {
  const notesUntil = children.findLastIndex(({ name }) => name !== 'clef') + 1;
  const last = children[notesUntil - 1];
  const inBeam = last?.name === 'beam' ? clefsAtEnd(last.children) : [];
  return [...inBeam, ...children.slice(notesUntil)];
};

/** A grace note or chord, or a group that holds nothing else. */
const isGrace = (element: XmlElement): boolean => {
  if (element.attributes.grace !== undefined) return true;
  const notes = descendantsNamed(element, 'note', 'chord', 'rest', 'space');
  const inChords = new Set(notes.filter(({ name }) => name === 'chord').flatMap(({ children }) => children));
  const own = notes.filter((note) => !inChords.has(note));
  return own.length > 0 && own.every(({ attributes }) => attributes.grace !== undefined);
};
