import {
  noteheadsSoundingAt,
  type Performance,
  placeAt,
  secondsAtPosition,
  soundsOf,
} from '../../../../engine/index.ts';
import { type Player, startPlayer } from './listen-player.ts';
import type { Listening } from './listening.ts';
import { createHarpSound, type HarpSound } from './sound/sound-harp.ts';

/** Notes are handed to the sound so far ahead: the drawing of a page must not hold them up. */
const AHEAD_SECONDS = 0.4;
const EVERY_MS = 60;
/** Timers of a page that is not seen run once a second. */
const AHEAD_UNSEEN_SECONDS = 1.6;
/** The sound rests when nothing has been played for as long: what rings may ring out. */
const REST_AFTER_MS = 9000;

/** A player with its sound. */
export interface Session {
  readonly player: Player;
  readonly listening: Listening;
  readonly setVolume: (volume: number) => void;
  /** Starts or stops; a browser lets sound begin only from a click or key. */
  readonly toggle: (countedIn?: boolean) => void;
  readonly close: () => void;
}

/** Calls back at each frame while the player plays, and whenever it was moved. */
const notifyEachFrame = (player: Player) => {
  const watchers = new Set<() => void>();
  let frame = 0;
  const tell = (): void => {
    for (const watcher of watchers) watcher();
  };
  const turn = (): void => {
    frame = 0;
    tell();
    if (player.isPlaying()) frame = requestAnimationFrame(turn);
  };
  player.watch(() => {
    tell();
    if (player.isPlaying() && frame === 0) frame = requestAnimationFrame(turn);
  });
  return (watcher: () => void) => {
    watchers.add(watcher);
    return () => watchers.delete(watcher);
  };
};

/** Makes the sounds of the part one after the other while nothing else is to be done. */
const prepareSounds = (sound: HarpSound, performance: Performance, isOpen: () => boolean): void => {
  const tones = function* () {
    for (const [i, { pass }] of performance.bars.entries()) {
      if (pass === 1) yield* soundsOf(performance, i).plucks;
    }
  };
  const coming = tones();
  const step = (): void => {
    const started = globalThis.performance.now();
    while (isOpen() && globalThis.performance.now() - started < 8) {
      const { value, done } = coming.next();
      if (done === true) return;
      sound.prepare(value);
    }
    if (isOpen()) setTimeout(step, 20);
  };
  setTimeout(step);
};

const listenTo = (player: Player, watch: Listening['watch']): Listening => ({
  isPlaying: player.isPlaying,
  watch,
  place: () => {
    const { played, quarters } = placeAt(player.performance(), player.seconds());
    return { bar: player.performance().bars[played]?.bar ?? 0, quarters };
  },
  heads: () => {
    const seconds = player.seconds();
    return noteheadsSoundingAt(player.performance(), placeAt(player.performance(), seconds), seconds);
  },
  seekPlace: (bar, quarters) => {
    const { bars } = player.performance();
    const now = player.seconds();
    const next = bars.findIndex((each) => each.bar === bar && each.at + each.sound.seconds > now);
    const played = next === -1 ? bars.findIndex((each) => each.bar === bar) : next;
    if (played !== -1) player.seek(secondsAtPosition(player.performance(), { played, quarters }));
  },
});

export const openSession = (performance: Performance): Session => {
  const context = new AudioContext();
  const sound = createHarpSound(context);
  const player = startPlayer(sound, performance);
  let open = true;
  let rest: ReturnType<typeof setTimeout> | undefined;
  const schedule = (): void => player.schedule(document.hidden ? AHEAD_UNSEEN_SECONDS : AHEAD_SECONDS);
  const timer = setInterval(schedule, EVERY_MS);
  player.watch(() => {
    clearTimeout(rest);
    if (!player.isPlaying()) rest = setTimeout(() => open && void context.suspend(), REST_AFTER_MS);
  });
  prepareSounds(sound, performance, () => open);
  const start = async (countedIn: boolean): Promise<void> => {
    clearTimeout(rest);
    await context.resume();
    if (!open) return;
    player.play(countedIn);
    schedule();
  };
  return {
    player,
    listening: listenTo(player, notifyEachFrame(player)),
    setVolume: sound.setVolume,
    toggle: (countedIn = false) => {
      if (player.isPlaying()) player.pause();
      else void start(countedIn);
    },
    close: () => {
      open = false;
      clearInterval(timer);
      clearTimeout(rest);
      sound.silence();
      void context.close();
    },
  };
};
