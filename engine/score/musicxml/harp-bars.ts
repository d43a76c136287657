import { equals } from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';
import { fillRepeatedBars } from './form/bar-repeats.ts';
import { readHarpPart } from './harp-part.ts';
import type { Measure, Part, PartBar } from './parts.ts';
import type { RawPart } from './raw-part.ts';
import type { RemarkList } from './remark-list.ts';
import type { SharedSigns } from './shared-signs.ts';
import { placeBars, type TimedPlace, type Timeline } from './timeline.ts';
import type { WalkedBars } from './walk-bar.ts';

/** One bar of the harp, as its first part has it or, where that ends early, its other part. */
export interface HarpBar extends Measure {
  /** The bar of each part; null where a part lacks it. */
  readonly ofParts: readonly (PartBar | null)[];
}

export const listHarpBars = (chosen: readonly Part[]): readonly HarpBar[] => {
  const byIndex = chosen.map((part) => new Map(part.bars.map((bar) => [bar.index, bar])));
  const longest = chosen.reduce(
    (most, part) => (part.measures.length > most.length ? part.measures : most),
    NO_MEASURES,
  );
  return longest.map((measure, index) => {
    const ofParts = byIndex.map((bars) => bars.get(index) ?? null);
    const { number, id } = chosen.find((part) => index < part.measures.length)?.measures[index] ?? measure;
    const span = ofParts.find((bar) => bar !== null)?.content.span ?? measure.span;
    return { number, id, span, ofParts };
  });
};

const NO_MEASURES: readonly Measure[] = [];

export const readRawParts = (
  chosen: readonly Part[],
  bars: readonly HarpBar[],
  walks: WalkedBars,
  remarks: RemarkList,
): readonly RawPart[] => {
  const raw: RawPart[] = [];
  let staffOffset = 0;
  for (const [index, part] of chosen.entries()) {
    const voicePrefix = chosen.length > 1 ? `${part.id}:` : '';
    const own = bars.map((bar) => bar.ofParts[index] ?? null);
    const read = readHarpPart(own, { staffOffset, voicePrefix }, walks, remarks);
    raw.push(fillRepeatedBars(read, bars, remarks));
    staffOffset += read.staves;
  }
  return raw;
};

export const reportUnequalLengths = (parts: readonly Part[], bars: number, remarks: RemarkList): void => {
  const unequal = parts.filter((part) => part.measures.length !== bars);
  if (unequal.length === 0) return;
  const list = unequal.map((part) => `${part.id} has ${part.measures.length}`).join(', ');
  remarks.add(
    'skipped',
    null,
    `The harp has ${bars} bars, but ${list}: bars are matched in order from the start`,
  );
};

/** Every time that will be added to the onset of a bar. */
const timesOf = (
  raw: readonly RawPart[],
  guide: SharedSigns,
  bars: readonly HarpBar[],
): readonly TimedPlace[] => {
  const spanOf = (bar: number): Span => bars[bar]!.span;
  const places = [
    ...guide.tempo,
    ...guide.landmarks,
    ...guide.texts,
    ...raw.flatMap((part) => [...part.damps, ...part.handWords, ...part.sharing]),
  ];
  return [
    ...raw.flatMap((part) => [
      ...part.notes,
      ...part.rests,
      ...part.markings,
      ...part.unreadWords,
      ...part.leverWords,
    ]),
    ...raw.flatMap((part) =>
      part.notes
        .filter(({ duration, chordDuration }) => !equals(duration, chordDuration))
        .map(({ bar, at, chordDuration, span }) => ({ bar, at, duration: chordDuration, span })),
    ),
    ...places.map(({ bar, at }) => ({ bar, at, span: spanOf(bar) })),
  ];
};

/** When the bars of the harp begin, and how long they are. */
export const placeHarpBars = (
  bars: readonly HarpBar[],
  raw: readonly RawPart[],
  guide: SharedSigns,
  remarks: RemarkList,
): Timeline =>
  placeBars(
    bars.map((bar, index) => ({
      number: bar.number,
      span: bar.span,
      harp: raw.flatMap((part) => part.bars[index] ?? []),
      longest: guide.lengths[index]!,
    })),
    timesOf(raw, guide, bars),
    remarks,
  );
