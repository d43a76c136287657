import { FINDINGS } from '../findings/catalogue.ts';
import type { BySide, Side } from '../harp/side.ts';
import { perObject } from '../memoize.ts';
import { add } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';
import { notesById } from '../score/notes-by-id.ts';
import { isPlucked } from '../score/plucked.ts';
import type { Measures, PlannedDifficulty, TimedChange } from './model.ts';
import type { BarSpan } from './passages.ts';
import { readingsOf } from './readings.ts';

/** Counts what makes passages hard: spans of bars in order. */
export type MeasureSpans = (spans: readonly BarSpan[]) => Measures;

/** Prepares to measure the passages of one part. */
export const createMeasure = (planned: PlannedDifficulty): MeasureSpans => {
  const plucks = countPlucks(planned);
  const readings = readingsOf(planned);
  const overloads = planned.findings
    .filter(({ code }) => FINDINGS[code].overloadsHand)
    .flatMap(({ places }) => places);
  return (spans) => {
    const isInside = ({ bar }: { readonly bar: number }): boolean =>
      spans.some(({ from, until }) => from <= bar && bar <= until);
    const changes = planned.changes.filter(isInside);
    const seconds = sum(spans.map((span) => secondsOf(planned, span)));
    const notes = sum(spans.map(({ from, until }) => sum(plucks.slice(from, until + 1))));
    const crowded = overloads.filter(isInside);
    const perSecond = (count: number): number => (seconds === 0 ? 0 : count / seconds);
    const read = readings(changes);
    const pluckedWith = changes.filter(({ atThePluck }) => atThePluck).length;
    return {
      seconds,
      changes: changes.length,
      changesPerMinute: perSecond(changes.length) * 60,
      mostInTenSeconds: mostWithin(read, 10),
      shortestSpacing: bySide((side) =>
        shortestGap(read.map((each) => each.filter((change) => change.side === side))),
      ),
      atThePluck: changes.length === 0 ? 0 : pluckedWith / changes.length,
      stringsBent: changes.filter(({ bendsString }) => bendsString).length,
      barsOverloaded: bySide((side) => countBars(crowded.filter(({ hand }) => hand === side))),
      feetTogether: planned.harp === 'pedal' ? countShared(changes) : 0,
      notesPerSecond: perSecond(notes),
    };
  };
};

/** How many notes are plucked in each bar. */
const countPlucks = ({ score, omitted }: PlannedDifficulty): readonly number[] => {
  const plucks = [...writtenPlucks(score)];
  const byId = notesById(score.notes);
  for (const id of omitted) {
    const note = byId.get(id);
    if (note !== undefined && isPlucked(note)) plucks[note.bar]! -= 1;
  }
  return plucks;
};

const writtenPlucks = perObject((score: Score): readonly number[] => {
  const plucks = new Array<number>(score.bars.length).fill(0);
  for (const note of score.notes) if (isPlucked(note)) plucks[note.bar]! += 1;
  return plucks;
});

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);

const countBars = (places: readonly { readonly bar: number }[]): number =>
  new Set(places.map(({ bar }) => bar)).size;

const bySide = <Value>(get: (side: Side) => Value): BySide<Value> => ({
  left: get('left'),
  right: get('right'),
});

const secondsOf = ({ score, secondsAt }: PlannedDifficulty, { from, until }: BarSpan): number => {
  const last = score.bars[until]!;
  return secondsAt(add(last.onset, last.duration)) - secondsAt(score.bars[from]!.onset);
};

/** The most changes that begin within a span of clock time, however the part is read. */
export const mostWithin = (
  readings: readonly (readonly Pick<TimedChange, 'seconds'>[])[],
  span: number,
): number => {
  let most = 0;
  for (const changes of readings) {
    let first = 0;
    changes.forEach(({ seconds }, i) => {
      while (seconds - changes[first]!.seconds >= span) first += 1;
      most = Math.max(most, i - first + 1);
    });
  }
  return most;
};

const shortestGap = (readings: readonly (readonly TimedChange[])[]): number | null => {
  const gaps = readings.flatMap((changes) =>
    changes.slice(1).map(({ seconds }, i) => seconds - changes[i]!.seconds),
  );
  return gaps.length === 0 ? null : Math.min(...gaps);
};

const countShared = (changes: readonly TimedChange[]): number =>
  new Set(
    changes
      .filter(({ seconds }, i) => i > 0 && changes[i - 1]!.seconds === seconds)
      .map(({ seconds }) => seconds),
  ).size;
