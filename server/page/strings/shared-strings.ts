import type { Foot } from '../../../engine/index.ts';

/** Between two things told in one line, which ends with it rather than begins. */
export const BETWEEN = '\u00a0· ';

/** Each foot as a person calls it. */
export const FOOT: Readonly<Record<Foot, string>> = { left: 'left foot', right: 'right foot' };

/** A double sharp as it is spoken. */
export const DOUBLE_SHARP = 'double sharp';

/** What two plans are told by otherwise: “moves 33 instead of 31”. */
export const tellChangedRows = (
  rows: readonly (readonly [what: string, before: string, after: string])[],
): string =>
  rows.map(([what, before, after]) => `${what.toLowerCase()} ${after} instead of ${before}`).join(', ');
