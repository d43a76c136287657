import { add, buildClock, type Grade, type HarpPlan, type Measures, type Score } from '../../engine/index.ts';
import { findStand, type HarpStand } from './harp-stand.ts';
import { titleOf } from './title-of.ts';

/** What is told of a part where it is one among several: on its card, and in the table of a class set. */
export interface PartFacts {
  /** The piece in one line: the work, and which piece of it. */
  readonly name: string;
  readonly title: string;
  readonly subtitle: string;
  /** Composer and arranger, those that are named. */
  readonly authors: readonly string[];
  /** The name of the part. */
  readonly harp: string;
  readonly bars: number;
  readonly grade: Grade;
  readonly playable: boolean;
  readonly changes: number;
  /** While the harp plays, each bar counted once. */
  readonly changesPerMinute: Measures['changesPerMinute'];
  /** Of the whole length, those of repeated bars each time. */
  readonly playedChangesPerMinute: number;
  /** How long the piece lasts with its repeats, at the written tempo. */
  readonly seconds: number;
  readonly stand: HarpStand;
}

export const collectFacts = (score: Score, harp: HarpPlan): PartFacts => {
  const { plan } = harp;
  const { title, subtitle, composer, arranger } = score.titles;
  const { grade, playable, measures } = plan.summary.difficulty;
  const seconds = playedSeconds(score);
  const changes = playedChanges(score, plan.moves);
  return {
    name: titleOf(score),
    title: title || score.harp.name,
    subtitle,
    authors: [composer, arranger].filter((name) => name !== ''),
    harp: score.harp.name,
    bars: score.bars.length,
    grade,
    playable,
    changes: plan.moves.length,
    changesPerMinute: measures.changesPerMinute,
    playedChangesPerMinute: seconds === 0 ? 0 : (60 * changes) / seconds,
    seconds,
    stand: findStand(score, harp),
  };
};

/** How many changes are made in the order in which the bars are played. */
const playedChanges = (
  { playOrder }: Pick<Score, 'playOrder'>,
  moves: readonly { readonly bar: number }[],
): number => {
  const inBar = new Map<number, number>();
  for (const { bar } of moves) inBar.set(bar, (inBar.get(bar) ?? 0) + 1);
  return playOrder.reduce((sum, bar) => sum + (inBar.get(bar) ?? 0), 0);
};

/** The clock time of all bars in the order in which they are played. */
export const playedSeconds = ({
  bars,
  playOrder,
  tempo,
}: Pick<Score, 'bars' | 'playOrder' | 'tempo'>): number => {
  const secondsAt = buildClock(tempo);
  return playOrder.reduce((sum, index) => {
    const { onset, duration } = bars[index]!;
    return sum + secondsAt(add(onset, duration)) - secondsAt(onset);
  }, 0);
};
