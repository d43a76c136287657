import { group, rollup } from 'd3-array';
import { numberPasses, type Score } from '../../engine/index.ts';

/** How often each bar (index) is played. */
export const countPasses = ({ playOrder }: Pick<Score, 'playOrder'>): ((bar: number) => number) => {
  const timesPlayed = rollup(
    playOrder,
    (bars) => bars.length,
    (bar) => bar,
  );
  return (bar) => timesPlayed.get(bar) ?? 0;
};

/** How a part goes when its bars are played more than once. */
export interface Passes<Place, Setting> {
  /** How often a bar (index) is played. */
  readonly timesPlayed: (bar: number) => number;
  /** Whether some pedal or lever stands otherwise at a place when the music comes back to it. */
  readonly differ: (place: Place) => boolean;
  /** How they stand at a place when the music first comes to it, its own moves made; null where it never does. */
  readonly firstTime: (place: Place) => Setting | null;
}

/** What the moves of a place make of a setting, of pedals or of levers. */
export interface SettingRules<Setting, Place> {
  readonly initial: Setting;
  /** @param pass how often the place has been met, this time included */
  readonly after: (setting: Setting, place: Place, pass: number) => Setting;
  readonly areAlike: (one: Setting, other: Setting) => boolean;
}

/**
 * Plays the moves in the order in which the bars sound. Linear in the bars played and the moves made.
 *
 * @param places in the order in which they are met
 */
export const comparePasses = <Setting, Place extends { readonly bar: number }>(
  score: Score,
  places: readonly Place[],
  { initial, after, areAlike }: SettingRules<Setting, Place>,
): Passes<Place, Setting> => {
  const placesOfBar = group(places, ({ bar }) => bar);
  const first = new Map<Place, Setting>();
  const different = new Set<Place>();
  let setting = initial;
  for (const { item: bar, pass } of numberPasses(score.playOrder)) {
    for (const place of placesOfBar.get(bar) ?? []) {
      setting = after(setting, place, pass);
      const before = first.get(place);
      if (before === undefined) first.set(place, setting);
      else if (!areAlike(before, setting)) different.add(place);
    }
  }
  return {
    timesPlayed: countPasses(score),
    differ: (place) => different.has(place),
    firstTime: (place) => first.get(place) ?? null,
  };
};
