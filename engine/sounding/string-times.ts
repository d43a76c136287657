/** A string plucked again sooner than this hardly sounds, in seconds (common practice, no source). */
export const RESTRIKE_SECONDS = 0.12;

/** No hand stills a string sooner after it was plucked, in seconds (common practice, no source). */
export const LEAST_SOUNDING_SECONDS = 0.25;

/** How long an undamped string goes on sounding audibly, in seconds, by octave: long in the bass (common practice, no source). */
export const NATURAL_RING_SECONDS: Readonly<Record<number, number>> = {
  0: 5,
  1: 5,
  2: 4,
  3: 3,
  4: 2,
  5: 1.2,
  6: 0.7,
  7: 0.4,
};
