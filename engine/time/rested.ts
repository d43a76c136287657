/** Far below anything that can be felt or counted: sums of seconds differ in their last digits. */
const TOLERANCE_SECONDS = 1e-6;

/** Whether one clock time is truly before another, in seconds, and not only by the rounding of sums. */
export const isEarlier = (seconds: number, than: number): boolean => seconds < than - TOLERANCE_SECONDS;

/**
 * Whether a foot, or a hand at the levers, has had its time since it last moved.
 *
 * @param sinceSeconds since its last move; infinite where it has not moved yet
 */
export const hasRested = (sinceSeconds: number, restSeconds: number): boolean =>
  !isEarlier(sinceSeconds, restSeconds);
