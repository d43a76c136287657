/** A time of playing of a bar that is played more than once: the first, or each after it. */
export type OneTime = 'first' | 'later';

/**
 * Whether what is for one time of playing, or for each (null), is done then.
 *
 * @param pass how often the bar has been played, this time included: 1 the first time
 */
export const isMadeAt = (time: OneTime | null, pass: number): boolean =>
  time === null || (time === 'first') === (pass === 1);
