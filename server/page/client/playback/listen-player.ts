import { type Performance, type PlayedPluck, placeAt, soundsOf } from '../../../../engine/index.ts';

/** What the player plays on; times in seconds of its own clock. */
export interface Sound {
  readonly now: () => number;
  readonly pluck: (pluck: PlayedPluck, at: number) => void;
  /** Stills the strings that were plucked for a staff; all where it is null. */
  readonly damp: (staff: number | null, at: number) => void;
  /** Ends all that sounds and all that was to sound. */
  readonly silence: () => void;
}

/** Plays a performance: where it is, and ways to move it. */
export interface Player {
  readonly performance: () => Performance;
  /** Seconds into the performance, at its written tempo. */
  readonly seconds: () => number;
  readonly isPlaying: () => boolean;
  /** 1 is the written tempo. */
  readonly tempo: () => number;
  readonly play: () => void;
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

/** Grace notes are played before their bar, by no more. */
const LONGEST_GRACES_SECONDS = 3;

/** What comes later than this is left out, as after the thread was held up: a heap of notes at once helps nobody. */
const TOO_LATE_SECONDS = 0.08;

interface Due {
  readonly at: number;
  readonly sound: (clock: number) => void;
}

export const startPlayer = (sound: Sound, first: Performance): Player => {
  let performance = first;
  let tempo = 1;
  let playing = false;
  /** A place of the performance and the clock's time at it. */
  let anchor = { seconds: 0, clock: 0 };
  let queue: Due[] = [];
  let nextBar = 0;
  /** What is played before was handed to the sound. */
  let handedUntil = 0;
  const watchers = new Set<() => void>();

  const notifyAll = (): void => {
    for (const watcher of watchers) watcher();
  };
  const seconds = (): number => {
    const gone = playing ? (sound.now() - anchor.clock) * tempo : 0;
    return Math.min(performance.seconds, Math.max(0, anchor.seconds + gone));
  };
  const takeBar = (played: number): Due[] => {
    const { plucks, damps } = soundsOf(performance, played);
    return [
      ...damps.map(({ at, staff }) => ({ at, sound: (clock: number) => sound.damp(staff, clock) })),
      ...plucks.map((pluck) => ({ at: pluck.at, sound: (clock: number) => sound.pluck(pluck, clock) })),
    ];
  };
  /** What comes from there on: what began before is passed over. */
  const fill = (from: number): void => {
    const { played } = placeAt(performance, from);
    queue = performance.bars.length === 0 ? [] : takeBar(played).filter(({ at }) => at >= from - 1e-6);
    nextBar = played + 1;
    handedUntil = from;
  };
  const aim = (from: number): void => {
    anchor = { seconds: from, clock: sound.now() };
    fill(from);
  };
  const move = (change: () => void): void => {
    sound.silence();
    const here = seconds();
    change();
    aim(Math.min(here, performance.seconds));
    notifyAll();
  };
  const schedule = (aheadSeconds: number): void => {
    if (!playing) return;
    const until = seconds() + aheadSeconds * tempo;
    const { bars } = performance;
    for (; nextBar < bars.length && bars[nextBar]!.at - LONGEST_GRACES_SECONDS <= until; nextBar += 1) {
      queue.push(...takeBar(nextBar));
    }
    queue.sort((a, b) => a.at - b.at);
    const due = queue.filter(({ at }) => at < until);
    queue = queue.slice(due.length);
    handedUntil = Math.max(handedUntil, until);
    const now = sound.now();
    for (const each of due) {
      const clock = anchor.clock + (each.at - anchor.seconds) / tempo;
      if (clock >= now - TOO_LATE_SECONDS) each.sound(Math.max(now, clock));
    }
    // The end is reached: the last notes ring out, and the next start is from the beginning.
    if (seconds() >= performance.seconds) {
      playing = false;
      aim(0);
      notifyAll();
    }
  };
  return {
    performance: () => performance,
    seconds,
    isPlaying: () => playing,
    tempo: () => tempo,
    play: () => {
      if (playing) return;
      aim(anchor.seconds);
      playing = true;
      notifyAll();
    },
    pause: () =>
      move(() => {
        playing = false;
      }),
    seek: (to) => {
      sound.silence();
      aim(Math.min(performance.seconds, Math.max(0, to)));
      notifyAll();
    },
    setTempo: (wanted) => {
      anchor = { seconds: seconds(), clock: sound.now() };
      tempo = wanted;
      notifyAll();
    },
    setPerformance: (other) => {
      performance = other;
      if (playing) fill(Math.min(handedUntil, other.seconds));
      notifyAll();
    },
    schedule,
    watch: (watcher) => {
      watchers.add(watcher);
      return () => watchers.delete(watcher);
    },
  };
};
