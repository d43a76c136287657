import { HARP_NAMES, HARPS, type HarpName } from '../../../../engine/index.ts';

/** The lever harps, the usual one first. */
export const LEVER_HARPS: readonly HarpName[] = HARP_NAMES.filter((name) => HARPS[name].kind === 'lever');

/** The harp of tunes where nothing names another. */
export const TUNE_HARP: HarpName = LEVER_HARPS[0]!;
