import { z } from 'zod';
import type { PlacedWork } from '../../engine/decisions/place-work.ts';
import type { LeverHarpProfile } from '../../engine/harp/lever-profile.ts';
import { readTuning } from '../../engine/harp/read-tuning.ts';
import { DEFAULT_LEVER_OPTIONS, type LeverOptions, type TuningChoice } from '../../engine/levers/options.ts';
import { DEFAULT_ENGRAVING } from '../../render/engraving-options.ts';
import { describeLooks } from '../../render/looks/describe-looks.ts';
import { LEVER_LOOK_NAMES, LEVER_LOOKS } from '../../render/looks/lever-looks.ts';

const SEARCHES = ['sparing', 'best-key', 'best'] as const;

const isSearch = (text: string): text is (typeof SEARCHES)[number] =>
  (SEARCHES as readonly string[]).includes(text);

/** How the levers are planned. */
export const leverShape = {
  tuning: z
    .string()
    .max(100)
    .refine((text) => isSearch(text) || readTuning(text).ok, {
      error: 'it is sparing, best-key, best, a key such as “E♭ major”, or seven note names',
    })
    .exactOptional()
    .meta({
      description:
        'For the lever harp. How the open strings are tuned: a key by name, or seven note names; sparing looks among the key signatures and weighs strings to retune against changes (if not given), best-key takes the one with the fewest changes, best looks among all tunings. Where these leave changes for which no hand has time, they take a tuning with fewer places that stop the player, if one is found.',
      examples: ['E♭ major', 'best', 'C D Eb F# G A Bb'],
    }),
  leverSeconds: z
    .number()
    .min(0)
    .max(10)
    .exactOptional()
    .meta({
      description: `For the lever harp. Seconds that a hand needs for one change of a lever; ${DEFAULT_LEVER_OPTIONS.moveSeconds} if not given.`,
    }),
};

export const leverLookShape = {
  leverLook: z
    .enum(LEVER_LOOK_NAMES)
    .exactOptional()
    .meta({
      description: `For the lever harp. How changes are printed. ${describeLooks(LEVER_LOOKS)}; ${DEFAULT_ENGRAVING.leverLook} if not given.`,
    }),
};

export type LeverChoice = z.infer<z.ZodObject<typeof leverShape>>;

const tuningOf = (text: string): TuningChoice => {
  if (isSearch(text)) return text;
  const read = readTuning(text);
  if (!read.ok) throw new Error(`${text} has passed as a tuning`);
  return read.value;
};

/** The planner's options out of a request's and the user's work at its places. */
export const leverOptionsFor = (
  { tuning, leverSeconds }: LeverChoice,
  profile: LeverHarpProfile,
  { respelled, leftOut }: Pick<PlacedWork, 'respelled' | 'leftOut'>,
): LeverOptions => ({
  ...DEFAULT_LEVER_OPTIONS,
  profile,
  ...(tuning === undefined ? {} : { tuning: tuningOf(tuning) }),
  ...(leverSeconds === undefined ? {} : { moveSeconds: leverSeconds }),
  respelled,
  leftOut,
});
