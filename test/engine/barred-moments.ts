import type { PlayEdge, PlayGraph } from '../../engine/time/play-graph.ts';

/** Moments for trying: in bars, the seconds to the moment after each, the order in which bars are played. */
export interface BarredMoments {
  readonly barOf: readonly number[];
  readonly stepSeconds: readonly number[];
  readonly playOrder: readonly number[];
}

/** The moments in the order they are heard, each with the seconds since the one before. */
export const hearMoments = (music: BarredMoments): { moment: number; seconds: number }[] => {
  const heard: { moment: number; seconds: number }[] = [];
  for (const bar of music.playOrder) {
    for (let moment = music.barOf.indexOf(bar); moment <= music.barOf.lastIndexOf(bar); moment += 1) {
      const before = heard.at(-1);
      heard.push({ moment, seconds: before === undefined ? 0 : music.stepSeconds[before.moment]! });
    }
  }
  return heard;
};

export const graphOf = (music: BarredMoments): PlayGraph => {
  const into: PlayEdge[][] = music.barOf.map(() => []);
  const outOf: PlayEdge[][] = music.barOf.map(() => []);
  const heard = hearMoments(music);
  heard.forEach(({ moment, seconds }, i) => {
    const from = heard[i - 1]?.moment;
    if (from === undefined || into[moment]!.some((edge) => edge.from === from)) return;
    const edge = { from, to: moment, seconds };
    into[moment]!.push(edge);
    outOf[from]!.push(edge);
  });
  const played = heard.map(({ moment }) => moment);
  return { moments: music.barOf.length, start: 0, into, outOf, played };
};

/** Ways through three bars: straight on, repeats, endings, and jumps back and ahead. */
export const PLAY_ORDERS: readonly (readonly number[])[] = [
  [0, 1, 2],
  [0, 1, 0, 1, 2],
  [0, 1, 1, 2],
  [0, 1, 2, 0, 1, 2],
  [0, 1, 0, 2],
  [0, 1, 2, 0],
  [0, 1, 2, 1, 2],
  [0, 1, 2, 0, 2],
  [0, 1, 0, 1, 0, 2],
  [0, 1, 0, 2, 0, 1],
];
