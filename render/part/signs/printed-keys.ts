import { childrenNamed, parseFifths, type XmlElement } from '../../../engine/index.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/** The key signature (sharps positive) that the page shows at the start of a measure on a staff; undefined where none is told. */
export type PrintedKeys = (measure: XmlElement, staff: string) => number | undefined;

/**
 * Follows the key signatures of the layout's document. They may differ from those of the score: MusicXML's change of key
 * within a bar is printed at the bar's start.
 */
export const followPrintedKeys = ({ root }: LayoutMei): PrintedKeys => {
  const atMeasure = new Map<XmlElement, ReadonlyMap<string, number>>();
  let keys: ReadonlyMap<string, number> = new Map();
  const visit = (element: XmlElement): void => {
    if (element.name === 'measure') {
      atMeasure.set(element, keys);
      return;
    }
    const key = keyOf(element);
    if (key !== undefined && element.name === 'scoreDef') keys = new Map([[ALL, key]]);
    if (key !== undefined && element.name === 'staffDef')
      keys = new Map([...keys, [element.attributes.n ?? ALL, key]]);
    for (const child of element.children) visit(child);
  };
  visit(root);
  return (measure, staff) => {
    const here = atMeasure.get(measure);
    return here?.get(staff) ?? here?.get(ALL);
  };
};

/** Stands for the staves of a score definition. */
const ALL = '';

/** The signature that a definition states (`key.sig` before MEI 5). */
const keyOf = (element: XmlElement): number | undefined => {
  const { keysig } = element.attributes;
  const sig = keysig ?? element.attributes['key.sig'] ?? childrenNamed(element, 'keySig')[0]?.attributes.sig;
  return parseFifths(sig ?? '') ?? undefined;
};
