import { nameCount } from './counts.ts';

/** What the page and the command say alike of plans. */

/** That a plan is not proven to be the best. */
export const SEARCH_ENDED = 'the best plan found; there were too many possible plans to try them all';

/** What stands beside a grade. */
export const OWN_SCALE = 'No scale for this is published: the grades are our own.';

/** That not all tunings of a lever harp were tried. */
export const TUNINGS_UNTRIED = 'there were too many changes to try all tunings';

/** That comparing found no other key. */
export const NO_BETTER_KEY = 'No other key was found that suits the lever harp better.';

/** Heads of a table of tunings. */
export const TUNING_COLUMNS = [
  'tuning',
  'changes',
  'levers up',
  'to retune',
  'on next string',
  'missing notes',
] as const;

/** The levers that are up before the first note. @param names as `F♯4` */
export const nameLeversUp = (names: readonly string[]): string =>
  names.length === 0 ? 'all levers down' : `levers up: ${names.join(', ')}`;

/** What a respelling would bring. @param savesMoves below 0 where it costs some */
export const describeGains = (savesMoves: number, fixesPlaces: number): string =>
  [
    ...(savesMoves > 0 ? [`saves ${nameCount(savesMoves, 'move')}`] : []),
    ...(fixesPlaces > 0 ? [`makes ${nameCount(fixesPlaces, 'place')} playable`] : []),
    ...(savesMoves < 0 ? [`costs ${nameCount(-savesMoves, 'more move')}`] : []),
  ].join(', ');

/** Whether a part can be played. @param stops places that cannot */
export const describePlayable = (stops: number): string =>
  stops === 0 ? 'playable' : `${nameCount(stops, 'place')} not playable`;

/** Another key by its distance. @param semitones not 0 */
export const nameTransposition = (semitones: number): string =>
  `${nameCount(Math.abs(semitones), 'semitone')} ${semitones > 0 ? 'up' : 'down'}`;

/** A key that was tried, with its name. @example nameKeyTried(3, 'C minor') // '3 semitones up: C minor' */
export const nameKeyTried = (semitones: number, key: string): string =>
  `${semitones === 0 ? 'as written' : nameTransposition(semitones)}: ${key}`;

/** Over the keys of the pedal harp. */
export const PEDAL_KEYS_HEADING = 'Keys for the pedal harp, the best first';
