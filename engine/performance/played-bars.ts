import { numberPasses } from '../score/bars/one-time.ts';
import type { Playback, PlaybackBar } from './playback.ts';

/** One time through a bar. */
export interface PlayedBar {
  /** Index into the printed bars. */
  readonly bar: number;
  readonly at: number;
  /** Which time it is played, from 1. */
  readonly pass: number;
  /** Beats played before it. */
  readonly beatsBefore: number;
  readonly sound: PlaybackBar;
}

/** The notes that a player does not play, by id. */
export type LeftOut = ReadonlySet<string>;

/** The bars in the order they sound, without what is left out. */
export const playBars = (hearing: Playback, omitted: LeftOut): readonly PlayedBar[] =>
  inOrder(omitted.size === 0 ? hearing : without(hearing, omitted));

/** From the beginning to the end of the last bar. */
export const lengthSeconds = (bars: readonly PlayedBar[]): number => {
  const last = bars.at(-1);
  return last === undefined ? 0 : last.at + last.sound.seconds;
};

const without = ({ bars, playOrder }: Playback, omitted: LeftOut): Playback => ({
  playOrder,
  bars: bars.map((sound) => ({
    ...sound,
    plucks: sound.plucks.filter(({ note }) => !omitted.has(note)),
    heads: sound.heads.filter(({ note }) => !omitted.has(note)),
  })),
});

const inOrder = ({ bars, playOrder }: Playback): readonly PlayedBar[] => {
  // Grace notes before the very first note are played before its bar.
  let at = Math.max(0, -(bars[playOrder[0] ?? 0]?.plucks[0]?.at ?? 0));
  let beatsBefore = 0;
  return numberPasses(playOrder).map(({ item: bar, pass }) => {
    const sound = bars[bar]!;
    const played = { bar, at, pass, beatsBefore, sound };
    at += sound.seconds;
    beatsBefore += sound.durationQuarters / sound.beatQuarters;
    return played;
  });
};

/** Seconds from a bar's start at a printed score time. */
export const secondsInBar = ({ tempi }: PlaybackBar, quarters: number): number => {
  const { fromQuarters, at, secondsPerQuarter } =
    tempi.findLast((tempo) => tempo.fromQuarters <= quarters) ?? tempi[0]!;
  return at + (quarters - fromQuarters) * secondsPerQuarter;
};
