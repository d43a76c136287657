import { group } from 'd3-array';
import { LETTERS, type Score, type Setting } from '../../engine/index.ts';
import type { PlaceToMark } from './places-to-mark.ts';

/** How a part goes when its bars are played more than once. */
export interface Passes {
  /** How often a bar (index) is played. */
  readonly timesPlayed: (bar: number) => number;
  /** Whether some pedal stands otherwise at a place when the music comes back to it. */
  readonly differ: (place: PlaceToMark) => boolean;
}

/** Plays the moves in the order in which the bars sound. Linear in the bars played and the moves made. */
export const comparePasses = (score: Score, initial: Setting, places: readonly PlaceToMark[]): Passes => {
  const timesPlayed = new Map<number, number>();
  const placesOfBar = group(places, ({ bar }) => bar);
  const first = new Map<PlaceToMark, Setting>();
  const different = new Set<PlaceToMark>();
  let setting = initial;
  for (const bar of score.playOrder) {
    timesPlayed.set(bar, (timesPlayed.get(bar) ?? 0) + 1);
    for (const place of placesOfBar.get(bar) ?? []) {
      for (const { letter, to } of place.moves) {
        if (setting[letter] !== to) setting = { ...setting, [letter]: to };
      }
      const before = first.get(place);
      if (before === undefined) first.set(place, setting);
      else if (LETTERS.some((letter) => before[letter] !== setting[letter])) different.add(place);
    }
  }
  return {
    timesPlayed: (bar) => timesPlayed.get(bar) ?? 0,
    differ: (place) => different.has(place),
  };
};
