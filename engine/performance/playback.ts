import type { HarpString } from '../harp/profile.ts';

/**
 * What is heard and seen of a part, bar by bar as printed: plain data that goes from thread to thread. `performPart`
 * plays it. Times within a bar are seconds from the bar's start at the written tempo.
 */
export interface Playback {
  /** One for each printed bar. */
  readonly bars: readonly PlaybackBar[];
  /** Indices into `bars` in the order they sound. */
  readonly playOrder: readonly number[];
}

export interface PlaybackBar {
  readonly seconds: number;
  /** Printed score time of the bar's start, in quarter notes. */
  readonly onsetQuarters: number;
  readonly durationQuarters: number;
  /** Length of a beat. */
  readonly beatQuarters: number;
  /** The tempi of the bar in order, the first from its start. */
  readonly tempi: readonly BarTempo[];
  /** In order of time; grace notes that lead to the bar's first note have negative times. */
  readonly plucks: readonly Pluck[];
  /** Every notehead, tied ones too, in order of time. */
  readonly heads: readonly SoundingNotehead[];
  readonly damps: readonly BarDamp[];
}

export interface BarTempo {
  /** Printed score time from which it holds, in quarter notes. */
  readonly fromQuarters: number;
  /** The same in seconds from the bar's start. */
  readonly at: number;
  readonly secondsPerQuarter: number;
}

/** A finger leaves a string. */
export interface Pluck {
  readonly at: number;
  /** Written length of the sound, ties counted. */
  readonly seconds: number;
  readonly string: HarpString;
  /** MIDI key of what sounds, fractional for microtones; null for a string swept over: as its pedal stands. */
  readonly midi: number | null;
  /** `slid`: not plucked, the pedal bends the ringing string to it. */
  readonly kind: 'plucked' | 'implied' | 'swept' | 'slid';
  readonly harmonic: boolean;
  /** 1 is the upper staff. */
  readonly staff: number;
  /** Id of the note it is plucked for. */
  readonly note: string;
}

/** A notehead and when it is sounded. */
export interface SoundingNotehead {
  readonly note: string;
  readonly at: number;
  readonly until: number;
}

/** From `at` on the strings of a staff are stilled, or all of them where `staff` is null. */
export interface BarDamp {
  readonly at: number;
  readonly staff: number | null;
}
