import { compare, type Rational, rational, rationalKey, ZERO } from '../../music/rational.ts';
import { childText, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { Landmark } from '../model/texts.ts';
import { isOwnElement } from '../own-marks.ts';
import { offsetOf, soundPlaceOf, typesOf, wordsIn } from './directions/directions.ts';
import { type RawText, readTexts } from './directions/printed-texts.ts';
import { readTempo, type TempoSign } from './directions/tempo.ts';
import { RepeatSigns } from './form/repeat-signs.ts';
import type { Part } from './parts.ts';
import type { BarPlace } from './raw-part.ts';
import type { RemarkList } from './remark-list.ts';
import type { BarItem, WalkedBars } from './walk-bar.ts';

export interface RawTempo extends BarPlace {
  readonly sign: TempoSign;
}

export interface RawLandmark extends BarPlace {
  readonly kind: Landmark['kind'];
  readonly text: string;
}

/** What holds for all parts, whichever part the file has it in. */
export interface SharedSigns {
  readonly tempo: readonly RawTempo[];
  readonly landmarks: readonly RawLandmark[];
  /** Everything that any part prints as text. */
  readonly texts: readonly RawText[];
  /** The bars (indices) that end with a final or a double bar line, in whichever part. */
  readonly ends: ReadonlyMap<number, 'final' | 'double'>;
  readonly repeats: RepeatSigns;
  /** How far the longest voice of any part goes in each bar. */
  readonly lengths: readonly Rational[];
}

/**
 * Reads tempo, rehearsal marks, repeats and jumps from all parts.
 *
 * @throws BadValue for values that are no numbers or out of range
 */
export const readSharedSigns = (
  parts: readonly Part[],
  bars: number,
  walks: WalkedBars,
  remarks: RemarkList,
): SharedSigns => {
  const tempo: RawTempo[] = [];
  const landmarks: RawLandmark[] = [];
  const texts: RawText[] = [];
  const ends = new Map<number, 'final' | 'double'>();
  const repeats = new RepeatSigns(bars, remarks);
  const lengths: Rational[] = Array.from({ length: bars }, () => ZERO);
  for (const [order, part] of parts.entries()) {
    let divisions = rational(1);
    const ofPart = new Map<string, RawTempo>();
    repeats.startPart();
    for (const { index: bar, content } of part.bars) {
      if (bar >= bars) break;
      repeats.startBar(bar);
      const walked = walks.walkSigns(content, divisions, (item) => {
        if (!SHARED_ELEMENTS.has(item.element.name) || isOwnElement(item.element)) return;
        repeats.readItem(item, bar);
        const sign = readTempo(item.element, bar, remarks);
        const at = soundPlaceOf(item);
        // What one part says of a moment last holds.
        if (sign !== null) ofPart.set(`${bar} ${rationalKey(at)} ${sign.origin}`, { bar, at, sign });
        for (const landmark of landmarksAt(item, bar, sign !== null)) landmarks.push(landmark);
        texts.push(...readTexts(item, bar, order));
        const end = endOf(item.element);
        if (end !== null && ends.get(bar) !== 'final') ends.set(bar, end);
      });
      divisions = walked.divisions;
      if (compare(walked.length, lengths[bar]!) > 0) lengths[bar] = walked.length;
    }
    for (const each of ofPart.values()) tempo.push(each);
  }
  return { tempo, landmarks: withoutDoubles(landmarks), texts, ends, repeats, lengths };
};

const SHARED_ELEMENTS: ReadonlySet<string> = new Set(['direction', 'sound', 'barline']);

/** What a bar line says of the end of its bar. */
const endOf = (element: XmlElement): 'final' | 'double' | null => {
  if (element.name !== 'barline' || element.attributes.location === 'left') return null;
  if (firstChild(element, 'repeat') !== undefined) return null;
  const style = childText(element, 'bar-style');
  return style === 'light-heavy' ? 'final' : style === 'light-light' ? 'double' : null;
};

/** Words for a tempo that changes step by step: they structure no page (common practice, no source). */
const GRADUAL =
  /^(?:poco a poco |poco |molto |un poco )*(?:rit|rall|ritard|riten|accel|string|allarg|slent|calando|morendo|cédez|cedez|animez|serrez|retenez)/iu;

const landmarksAt = (item: BarItem, bar: number, hasTempo: boolean): readonly RawLandmark[] => {
  const { element } = item;
  if (element.name !== 'direction') return [];
  const at = offsetOf(item);
  const rehearsals = typesOf(element)
    .filter((each) => each.name === 'rehearsal')
    .map((each): RawLandmark => ({ bar, at, kind: 'rehearsal', text: textOf(each) }));
  const words = wordsIn(element);
  const isTempo = hasTempo && words !== '' && !GRADUAL.test(words);
  return isTempo ? [...rehearsals, { bar, at, kind: 'tempo', text: words }] : rehearsals;
};

const textOf = (element: XmlElement): string => element.text.replace(/\s+/gu, ' ').trim();

/** Parts repeat each other's marks. */
const withoutDoubles = (landmarks: readonly RawLandmark[]): readonly RawLandmark[] => {
  const seen = new Set<string>();
  return landmarks.filter(({ bar, kind, text }) => {
    const key = `${bar} ${kind} ${text}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
};
