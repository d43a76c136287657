import {
  add,
  beatOffset,
  compare,
  nameBarIn,
  type PedalFinding,
  type Rational,
  rationalKey,
  type Score,
} from '../../engine/index.ts';

/** A place that cannot be played as printed, and the number by which the page refers to the list of findings. */
export interface UnplayablePlace {
  readonly id: string;
  /** From 1, in the order of the pages. */
  readonly number: number;
  /** Index into the score's bars, and its printed number. */
  readonly bar: number;
  readonly barNumber: string;
  /** How people are told of the bar. */
  readonly barName: string;
  readonly beat: Rational;
  readonly at: Rational;
  /** Indices into the plan's findings. */
  readonly findings: readonly number[];
  readonly sentences: readonly string[];
}

/** What a place is flagged for: a finding of either harp. */
type Flagged = Pick<PedalFinding, 'severity' | 'places'>;

/** What is said of a finding at one of its places. */
type Tell<Finding> = (finding: Finding, place: PedalFinding['places'][number]) => string;

const inItsOwnWords: Tell<Flagged> = (_, { sentence }) => sentence;

interface Draft {
  readonly bar: number;
  readonly beat: Rational;
  readonly findings: number[];
  readonly sentences: string[];
}

/** Numbers all places of all findings of severity `stop`: those of one moment share a number. */
export const listUnplayablePlaces = <Finding extends Flagged>(
  score: Score,
  { findings: told }: { readonly findings: readonly Finding[] },
  tell: Tell<Finding> = inItsOwnWords,
): UnplayablePlace[] => {
  const places = new Map<string, Draft>();
  told.forEach((finding, index) => {
    if (finding.severity !== 'stop') return;
    for (const each of finding.places) {
      const { bar, beat } = each;
      const sentence = tell(finding, each);
      const key = `${bar};${rationalKey(beat)}`;
      const place = places.get(key) ?? { bar, beat, findings: [], sentences: [] };
      places.set(key, place);
      if (!place.findings.includes(index)) place.findings.push(index);
      if (!place.sentences.includes(sentence)) place.sentences.push(sentence);
    }
  });
  return [...places.values()]
    .map((place) => ({ ...place, at: timeOf(score, place.bar, place.beat) }))
    .sort((a, b) => compare(a.at, b.at))
    .map((place, i) => ({
      ...place,
      id: `flag-${i + 1}`,
      number: i + 1,
      barNumber: score.bars[place.bar]!.number,
      barName: nameBarIn(score)(place.bar),
    }));
};

const timeOf = (score: Score, barIndex: number, beat: Rational): Rational => {
  const bar = score.bars[barIndex]!;
  return add(bar.onset, beatOffset(bar.meter, beat));
};
