import type { XmlElement } from '../../../xml/tree.ts';
import { MAX_PLAYED_BARS } from '../../bars/play-order.ts';
import { contentOf } from '../editorial.ts';
import type { ReadLog } from '../log.ts';
import { readReferences, xmlId } from '../values.ts';

/** A section, ending or reading of the movement, with the bars and parts that it holds in printed order. */
export interface FormPart {
  readonly id: string | undefined;
  readonly items: readonly (FormPart | number)[];
  /** The ids of an `expansion`: what is played instead of `items`. */
  readonly expansion: readonly string[] | null;
}

/** What stands in the flow of the movement: a bar, or a change of definitions. */
export type FlowItem =
  | { readonly kind: 'bar'; readonly element: XmlElement; readonly endings: readonly number[] }
  | { readonly kind: 'definition'; readonly element: XmlElement };

export interface Form {
  readonly flow: readonly FlowItem[];
  readonly whole: FormPart;
}

/** Layout and apparatus, which say nothing of the music. */
const SILENT: ReadonlySet<string> = new Set([
  'anchoredText',
  'annot',
  'cb',
  'colLayout',
  'curve',
  'div',
  'gap',
  'handShift',
  'line',
  'pb',
  'pgDesc',
  'pgFoot',
  'pgFoot2',
  'pgHead',
  'pgHead2',
  'relation',
  'relationList',
  'sb',
  'symbol',
]);

/** Lays out the bars of a `score` (or `part`) in printed order, with the endings and sections they stand in. */
export const readForm = (score: XmlElement, log: ReadLog): Form => {
  const flow: FlowItem[] = [];
  let bars = 0;

  const enter = (element: XmlElement, endings: readonly number[]): FormPart => {
    const items: (FormPart | number)[] = [];
    let expansion: readonly string[] | null = null;
    let siblings = 0;
    for (const each of contentOf(element, log)) {
      siblings = each.name === 'ending' ? siblings + 1 : each.name === 'section' ? 0 : siblings;
      if (each.name === 'measure') {
        flow.push({ kind: 'bar', element: each, endings });
        items.push(bars++);
      } else if (each.name === 'section') items.push(enter(each, endings));
      else if (each.name === 'ending') items.push(enter(each, readEndingNumbers(each, siblings, log)));
      else if (each.name === 'scoreDef' || each.name === 'staffDef')
        flow.push({ kind: 'definition', element: each });
      else if (each.name !== 'expansion') {
        if (!SILENT.has(each.name)) log.skip(`the element “${each.name}” in a ${element.name}`, null);
      } else if (expansion === null) expansion = readReferences(each, 'plist');
      else
        log.remark(
          'alternative-chosen',
          null,
          'The file has several ways to play a section; the first is used.',
        );
    }
    return { id: xmlId(element), items, expansion };
  };

  return { whole: enter(score, []), flow };
};

/** Endings with a number above this are taken for an error. */
const MAX_ENDING = 100;

/** The numbers of an ending: `n` (or `label`) such as `1`, `1, 2` or `1-3`; else its place in the row of endings. */
const readEndingNumbers = (element: XmlElement, place: number, log: ReadLog): readonly number[] => {
  const text = element.attributes.n ?? element.attributes.label ?? '';
  const numbers: number[] = [];
  for (const match of text.matchAll(/(\d{1,6})(?:\s*[-–]\s*(\d{1,6}))?/g)) {
    const [first, last] = [Number(match[1]), Number(match[2] ?? match[1])];
    if (first < 1 || last > MAX_ENDING || last < first) log.badValue('number of an ending', text, element);
    else for (let each = first; each <= last; each += 1) numbers.push(each);
  }
  return numbers.length > 0 ? numbers : [place];
};

const hasExpansion = (part: FormPart): boolean =>
  part.expansion !== null || part.items.some((each) => typeof each !== 'number' && hasExpansion(each));

/**
 * The order of play that `expansion` elements spell out (MEI 5.1, expansion: the participants in order).
 *
 * An expansion may name parts that have expansions of their own; one that comes back to itself, names nothing or
 * passes the cap gives null.
 *
 * @returns indices of bars; undefined where the movement has no expansion; null where an expansion is ill-formed
 */
export const expandForm = (whole: FormPart): readonly number[] | null | undefined => {
  if (!hasExpansion(whole)) return undefined;
  const byId = new Map<string, FormPart>();
  const index = (part: FormPart): void => {
    if (part.id !== undefined) byId.set(part.id, part);
    for (const each of part.items) if (typeof each !== 'number') index(each);
  };
  index(whole);

  const order: number[] = [];
  const open = new Set<FormPart>();
  let entered = 0;
  const play = (part: FormPart): boolean => {
    entered += 1;
    if (open.has(part) || entered > MAX_PLAYED_BARS) return false;
    open.add(part);
    const items = part.expansion?.map((id) => byId.get(id)) ?? part.items;
    const complete = items.every((each) => {
      if (each === undefined) return false;
      if (typeof each !== 'number') return play(each);
      return order.push(each) <= MAX_PLAYED_BARS;
    });
    open.delete(part);
    return complete;
  };
  return play(whole) && order.length > 0 ? order : null;
};
