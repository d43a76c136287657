import { countIn, type Performance, placeAt } from '../../../../engine/index.ts';
import { type HeardKind, listDue } from './sound/due-sounds.ts';
import type { Sound } from './sound/sound.ts';

/** Plays a performance: where it is, and ways to move it. */
export interface Player {
  readonly performance: () => Performance;
  /** Seconds into the performance, at its written tempo. */
  readonly seconds: () => number;
  readonly isPlaying: () => boolean;
  /** Strokes are counted before the music goes on. */
  readonly isCountedIn: () => boolean;
  /** 1 is the written tempo. */
  readonly tempo: () => number;
  /** What is heard from here on; before it is said, the strings. */
  readonly setHeard: (kinds: ReadonlySet<HeardKind>) => void;
  /** Goes on from where it stands, on request after a bar of strokes. */
  readonly play: (countedIn?: boolean) => void;
  readonly pause: () => void;
  readonly seek: (seconds: number) => void;
  readonly setTempo: (tempo: number) => void;
  /** Goes on with another plan of the same part. */
  readonly setPerformance: (performance: Performance) => void;
  /** Hands to the sound what comes within the next `aheadSeconds` of the clock; to be called sooner than that again. */
  readonly schedule: (aheadSeconds: number) => void;
  /** Tells when it was moved, started or stopped. */
  readonly watch: (watcher: () => void) => () => void;
}

/** What comes later than this is left out, as after the thread was held up: a heap of notes at once helps nobody. */
const TOO_LATE_SECONDS = 0.08;

/** Where the music is: a place of the performance and the clock's time at it, which lies ahead while strokes are counted. */
interface Anchor {
  readonly seconds: number;
  readonly clock: number;
}

/** What a player is doing. */
interface PlayerState {
  performance: Performance;
  /** 1 is the written tempo. */
  tempo: number;
  playing: boolean;
  heard: ReadonlySet<HeardKind>;
  anchor: Anchor;
  due: ReturnType<typeof listDue>;
  /** What is played before was handed to the sound. */
  handedUntil: number;
}

/** Seconds into the performance at a time of the clock. */
const secondsAt = ({ performance, tempo, playing, anchor }: PlayerState, clock: number): number => {
  const gone = playing ? Math.max(0, clock - anchor.clock) * tempo : 0;
  return Math.min(performance.seconds, Math.max(0, anchor.seconds + gone));
};

/** Goes to a place, the music beginning there so many seconds from now. */
const aim = (state: PlayerState, from: number, clock: number): void => {
  state.anchor = { seconds: from, clock };
  state.due = listDue(state.performance, from);
  state.handedUntil = from;
};

/** Hands what is due to the sound. */
const handOut = (state: PlayerState, sound: Sound, until: number): void => {
  const now = sound.now();
  for (const { kind, at, play } of state.due.take(until)) {
    const clock = state.anchor.clock + (at - state.anchor.seconds) / state.tempo;
    if (state.heard.has(kind) && clock >= now - TOO_LATE_SECONDS) play(sound, Math.max(now, clock));
  }
  state.handedUntil = Math.max(state.handedUntil, until);
};

/** Strokes of a bar before the place that the player goes on from; the seconds that they take. */
const countBefore = ({ performance, anchor, tempo }: PlayerState, sound: Sound): number => {
  const strokes = countIn(performance, placeAt(performance, anchor.seconds).played);
  const lead = (strokes[0]?.before ?? 0) / tempo;
  for (const { before, isFirst } of strokes) sound.click(isFirst, sound.now() + lead - before / tempo);
  return lead;
};

/** Hands out what comes within the next seconds of the clock. @returns whether the end is reached: the last notes ring out */
const handNext = (state: PlayerState, sound: Sound, aheadSeconds: number): boolean => {
  const { seconds: from, clock } = state.anchor;
  handOut(state, sound, from + (sound.now() + aheadSeconds - clock) * state.tempo);
  return secondsAt(state, sound.now()) >= state.performance.seconds;
};

const changeTempo = (state: PlayerState, wanted: number, now: number): void => {
  state.anchor = { seconds: secondsAt(state, now), clock: Math.max(now, state.anchor.clock) };
  state.tempo = wanted;
};

const changePerformance = (state: PlayerState, other: Performance): void => {
  state.performance = other;
  const handed = state.playing ? state.handedUntil : state.anchor.seconds;
  state.due = listDue(other, Math.min(handed, other.seconds));
};

const atStart = (performance: Performance): PlayerState => ({
  performance,
  tempo: 1,
  playing: false,
  heard: new Set(['strings']),
  anchor: { seconds: 0, clock: 0 },
  due: listDue(performance, 0),
  handedUntil: 0,
});

const createWatchers = (): { readonly notifyAll: () => void; readonly watch: Player['watch'] } => {
  const watchers = new Set<() => void>();
  return {
    notifyAll: () => {
      for (const watcher of watchers) watcher();
    },
    watch: (watcher) => {
      watchers.add(watcher);
      return () => watchers.delete(watcher);
    },
  };
};

export const startPlayer = (sound: Sound, first: Performance): Player => {
  const state = atStart(first);
  const { notifyAll, watch } = createWatchers();
  const seconds = (): number => secondsAt(state, sound.now());
  const goTo = (to: number): void => {
    sound.silence();
    aim(state, Math.min(state.performance.seconds, Math.max(0, to)), sound.now());
    notifyAll();
  };
  return {
    performance: () => state.performance,
    seconds,
    isPlaying: () => state.playing,
    isCountedIn: () => state.playing && sound.now() < state.anchor.clock,
    tempo: () => state.tempo,
    setHeard: (kinds) => {
      state.heard = kinds;
      // What was handed over is taken back, so that what is no longer wished falls silent at once.
      if (state.playing) goTo(seconds());
    },
    play: (countedIn = false) => {
      if (state.playing) return;
      const lead = countedIn ? countBefore(state, sound) : 0;
      aim(state, state.anchor.seconds, sound.now() + lead);
      state.playing = true;
      notifyAll();
    },
    pause: () => {
      const here = seconds();
      state.playing = false;
      goTo(here);
    },
    seek: goTo,
    setTempo: (wanted) => {
      changeTempo(state, wanted, sound.now());
      notifyAll();
    },
    setPerformance: (other) => {
      changePerformance(state, other);
      notifyAll();
    },
    schedule: (aheadSeconds) => {
      if (!state.playing || !handNext(state, sound, aheadSeconds)) return;
      // The next start is from the beginning.
      state.playing = false;
      aim(state, 0, sound.now());
      notifyAll();
    },
    watch,
  };
};
