import { equals } from '../../../music/rational.ts';
import { descendantsNamed, type XmlElement } from '../../../xml/tree.ts';
import { isOwnElement } from '../../own-marks.ts';
import { describeMetronome } from '../../texts/metronome.ts';
import type { PrintedText } from '../../texts/shared-texts.ts';
import type { BarDraft, Control } from '../draft.ts';
import { wordsOf } from '../text.ts';
import type { MarkTimes } from './mark-times.ts';

/** What MEI states for all players, and words, which may be anyone's. */
const SIGNS: ReadonlyMap<string, 'words' | 'rehearsal' | 'repeat' | 'attacca'> = new Map([
  ['tempo', 'words'],
  ['dir', 'words'],
  ['reh', 'rehearsal'],
  ['repeatMark', 'repeat'],
  ['attacca', 'attacca'],
]);

const LARGE = /^(?:x{1,2}-large|(?:1[4-9]|[2-9]\d)(?:\.\d+)?pt)$/u;

/**
 * What stands beside the staves as text.
 *
 * @param parts for each part from the top, the `n` of its staves
 */
export const readPrintedTexts = (
  controls: readonly Control[],
  bars: readonly BarDraft[],
  times: MarkTimes,
  parts: readonly (readonly string[])[],
  source: string,
): readonly PrintedText[] =>
  controls.flatMap((control): PrintedText[] => {
    const { element } = control;
    const sign = SIGNS.get(element.name);
    if (sign === undefined || isOwnElement(element)) return [];
    const start = times.startOf(control);
    const bar = bars[start?.bar ?? control.bar];
    if (bar === undefined) return [];
    const at = start?.onset ?? bar.onset;
    const staves = times.stavesOf(control, start);
    const printed = {
      at,
      bar: bar.index,
      part: Math.max(
        0,
        parts.findIndex((part) => staves.some((n) => part.includes(n))),
      ),
      forAll: element.name !== 'dir',
      place: placeOf(element),
      bold: boldIn(element),
      large: descendantsNamed(element, 'rend').some(({ attributes }) =>
        LARGE.test(attributes.fontsize ?? ''),
      ),
      atBarStart: equals(at, bar.onset),
    };
    const text = wordsOf(element, source) || metronomeOf(element);
    const returns = element.attributes.func;
    if (sign === 'repeat' && (returns === 'segno' || returns === 'coda'))
      return [{ ...printed, sign: returns, text: '' }];
    // Without words it says its name (MEI 5.1, `attacca`: to begin what follows without pause).
    if (sign === 'attacca') return [{ ...printed, sign, text: text || 'attacca' }];
    return text === '' ? [] : [{ ...printed, sign: sign === 'repeat' ? 'words' : sign, text }];
  });

const boldIn = (element: XmlElement): boolean | null => {
  const weights = descendantsNamed(element, 'rend').flatMap(({ attributes }) => attributes.fontweight ?? []);
  return weights.length === 0 ? null : weights.includes('bold');
};

const placeOf = ({ attributes: { place } }: XmlElement): PrintedText['place'] =>
  place === 'above' || place === 'below' ? place : null;

const VALUES: Readonly<Record<string, string>> = {
  breve: 'breve',
  1: 'whole',
  2: 'half',
  4: 'quarter',
  8: 'eighth',
  16: '16th',
  32: '32nd',
  64: '64th',
};

/** A tempo that is written in attributes alone (MEI 5.1, att.mmTempo). */
const metronomeOf = ({ attributes }: XmlElement): string => {
  const unit = VALUES[attributes['mm.unit'] ?? ''];
  if (attributes.mm === undefined || unit === undefined) return '';
  const dots = Array.from({ length: Math.min(4, Number(attributes['mm.dots']) || 0) }, () => 'dot');
  return describeMetronome([`note ${unit}`, ...dots, `= ${attributes.mm}`]);
};
