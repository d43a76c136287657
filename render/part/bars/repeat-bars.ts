import { descendantsNamed, type Score, type XmlElement } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

const SIGNS: ReadonlySet<string> = new Set(['mRpt', 'mRpt2', 'multiRpt']);

/**
 * Gives bars that hold nothing but signs of repetition the width of their beats: Verovio leaves them no wider than a bar
 * line, so that the signs run into each other. A layer of spaces is laid beside the sign.
 */
export const repeatBarEdits = (score: Score, mei: LayoutMei): Edit[] => {
  const isOfHarp = ({ attributes }: XmlElement): boolean => mei.staves.includes(attributes.n ?? '');
  return score.bars.flatMap((bar) => {
    const measure = mei.measureOf(bar);
    const staves = measure === undefined ? [] : descendantsNamed(measure, 'staff').filter(isOfHarp);
    const layers = staves.flatMap((staff) => descendantsNamed(staff, 'layer'));
    if (layers.length === 0 || !layers.every(isRepeat)) return [];
    const { beats, beatUnit } = bar.meter;
    const spaces = `<space dur="${beatUnit}"/>`.repeat(Math.min(beats, MOST_BEATS));
    return [insertAt(staves[0]!.inner.end, `<layer n="${SPARE_LAYER}">${spaces}</layer>`)];
  });
};

/** A bar of more beats is wide enough with so many. */
const MOST_BEATS = 16;

/** No staff has so many voices. */
export const SPARE_LAYER = 9;

const isRepeat = ({ children }: XmlElement): boolean => children.length === 1 && SIGNS.has(children[0]!.name);
