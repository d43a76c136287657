import type { PedalFinding } from '../../engine/findings/catalogue.ts';
import {
  add,
  compare,
  multiply,
  type Rational,
  rational,
  rationalKey,
  subtract,
} from '../../engine/music/rational.ts';
import type { Score } from '../../engine/score/model.ts';

/** A place that cannot be played as printed, and the number by which the page refers to the list of findings. */
export interface PlaceFlag {
  readonly id: string;
  /** From 1, in the order of the pages. */
  readonly number: number;
  /** Index into the score's bars, and its printed number. */
  readonly bar: number;
  readonly barNumber: string;
  readonly beat: Rational;
  readonly at: Rational;
  /** Indices into the plan's findings. */
  readonly findings: readonly number[];
  readonly sentences: readonly string[];
}

/** What a place is flagged for: a finding of either harp. */
type Flagged = Pick<PedalFinding, 'severity' | 'bar' | 'beat' | 'sentence'>;

/** Numbers the places of all findings of severity `stop`: those of one moment share a number. */
export const flagPlaces = (
  score: Score,
  { findings: told }: { readonly findings: readonly Flagged[] },
): PlaceFlag[] => {
  const places = new Map<string, { bar: number; beat: Rational; findings: number[] }>();
  told.forEach(({ severity, bar, beat }, index) => {
    if (severity !== 'stop') return;
    const key = `${bar};${rationalKey(beat)}`;
    const place = places.get(key) ?? { bar, beat, findings: [] };
    places.set(key, place);
    place.findings.push(index);
  });
  return [...places.values()]
    .map((place) => ({ ...place, at: timeOf(score, place.bar, place.beat) }))
    .sort((a, b) => compare(a.at, b.at))
    .map((place, i) => ({
      ...place,
      id: `flag-${i + 1}`,
      number: i + 1,
      barNumber: score.bars[place.bar]!.number,
      sentences: place.findings.map((index) => told[index]!.sentence),
    }));
};

const timeOf = (score: Score, barIndex: number, beat: Rational): Rational => {
  const bar = score.bars[barIndex]!;
  return add(bar.onset, multiply(subtract(beat, rational(1)), rational(4, bar.meter.beatUnit)));
};
