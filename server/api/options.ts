import { z } from 'zod';
import type { PlacedWork } from '../../engine/decisions/place-work.ts';
import type { PedalHarpProfile } from '../../engine/harp/profile.ts';
import { FARTHEST_CENTS, parseScordatura } from '../../engine/harp/scordatura.ts';
import type { PlanOptions } from '../../engine/pedals/options.ts';
import { DEFAULT_WEIGHTS, type WeightName } from '../../engine/pedals/weights.ts';
import {
  DEFAULT_ENGRAVING,
  type EngravingChoice,
  PAPER_MM_LIMITS,
  PAPERS,
  type PaperName,
  STAFF_MM_LIMITS,
} from '../../render/engraving-options.ts';
import { describeLooks } from '../../render/looks/describe-looks.ts';
import { SETTING_LOOK_NAMES, SETTING_LOOKS } from '../../render/looks/setting-looks.ts';
import { instrumentChoice } from './instruments.ts';
import { leverLookShape, leverShape } from './lever-options.ts';
import { type OpenWeight, WEIGHT_WORDS } from './weight-words.ts';
import { workShape } from './work.ts';

/** The part to read, where the score does not say which is the harp. */
export const partShape = {
  part: z
    .string()
    .max(500)
    .refine((part) => part.trim() !== '', 'name a part by its id or its name')
    .exactOptional()
    .meta({ description: 'The part by its id or its name; without it the harp is looked for.' }),
};

export const instrumentShape = { instrument: instrumentChoice.exactOptional() };

const footRest = z
  .number()
  .min(0)
  .max(10)
  .exactOptional()
  .meta({
    description: `Seconds: the least time between two moves of one foot; ${DEFAULT_WEIGHTS.footRestSeconds} if not given.`,
  });

export const footRestShape = { footRest };

const OPEN_WEIGHTS = (Object.keys(DEFAULT_WEIGHTS) as WeightName[]).filter(
  (name): name is OpenWeight => name !== 'footRestSeconds',
);

/** Prices stay far below where sums of them lose their last digits; seconds below where plans take long. */
const MOST = { price: 10_000_000, seconds: 600 };

const weights = z
  .strictObject(
    Object.fromEntries(
      OPEN_WEIGHTS.map((name) => [
        name,
        z
          .number()
          .min(0)
          .max(name.endsWith('Seconds') ? MOST.seconds : MOST.price)
          .exactOptional()
          .meta({ description: `${WEIGHT_WORDS[name]} ${DEFAULT_WEIGHTS[name]} if not given.` }),
      ]),
    ) as Record<OpenWeight, z.ZodExactOptional<z.ZodNumber>>,
  )
  .meta({ id: 'Weights', description: 'Prices and clock times that make one plan better than another.' });

const scordatura = z
  .string()
  .max(1000)
  .refine((text) => parseScordatura(text).ok, `strings with cents, at most ${FARTHEST_CENTS}: A4 +50, B3 -50`)
  .meta({
    description: 'Strings tuned away from their pitch before the piece, with cents: `A4 +50, B3 -50`.',
    examples: ['A4 +50, B3 -50'],
  });

/** How the pedals are planned. */
export const planShape = {
  ...instrumentShape,
  spelling: z.enum(['keep', 'suggest', 'free']).exactOptional().meta({
    description:
      'keep: as written; suggest: as written, with respellings that would save moves or mend a place; free: the cheapest choice of spelling and setting. keep if not given.',
  }),
  keepMarkings: z
    .boolean()
    .exactOptional()
    .meta({ description: 'Take the pedal markings that the file holds as pins.' }),
  pedalsTogether: z
    .boolean()
    .exactOptional()
    .meta({ description: 'As a last resort, let one foot take two neighbouring pedals together.' }),
  crossFeet: z
    .boolean()
    .exactOptional()
    .meta({ description: 'As a last resort, let a foot cross to the nearest pedal of the other side.' }),
  footRest,
  scordatura: scordatura.exactOptional(),
  weights: weights.exactOptional(),
  ...leverShape,
  ...workShape,
};

const millimetres = ({ least, most }: { readonly least: number; readonly most: number }) =>
  z.number().min(least).max(most);

const occasion = (description: string) => z.boolean().exactOptional().meta({ description });

const PAPER_NAMES = Object.keys(PAPERS) as [PaperName, ...PaperName[]];

/** How the pages look. */
export const engravingShape = {
  ...leverLookShape,
  settingLook: z
    .enum(SETTING_LOOK_NAMES)
    .exactOptional()
    .meta({
      description: `How a full setting is printed. ${describeLooks(SETTING_LOOKS)}; ${DEFAULT_ENGRAVING.settingLook} if not given.`,
    }),
  naming: z
    .enum(['english', 'german', 'fixed-do'])
    .exactOptional()
    .meta({ description: 'How notes are named in letters.' }),
  placement: z
    .enum(['below', 'above', 'between'])
    .exactOptional()
    .meta({ description: 'Where the markings of a system stand.' }),
  density: z
    .enum(['changes', 'settings', 'both'])
    .exactOptional()
    .meta({ description: 'How much is printed: every change, full settings alone, or both.' }),
  settings: z
    .strictObject({
      start: occasion('Before the first note.'),
      afterRestBars: z
        .int()
        .min(1)
        .max(1000)
        .nullable()
        .exactOptional()
        .meta({ description: 'After a rest of at least so many whole bars; null for never.' }),
      rehearsalMarks: occasion('At rehearsal marks.'),
      glissandi: occasion('Before each glissando.'),
      threeChanges: occasion('Where three or more pedals change.'),
      systemStart: occasion('At the start of each system.'),
      pageStart: occasion('At the start of each page.'),
    })
    .exactOptional()
    .meta({ description: 'Where a full setting is printed.' }),
  ringChanged: z
    .boolean()
    .exactOptional()
    .meta({ description: 'Ring the pedals that stand differently from the full setting before.' }),
  paper: z
    .union([
      z.enum(PAPER_NAMES),
      z.strictObject({
        widthMm: millimetres(PAPER_MM_LIMITS).meta({ description: 'Width of the paper in millimetres.' }),
        heightMm: millimetres(PAPER_MM_LIMITS).meta({ description: 'Its height.' }),
      }),
    ])
    .exactOptional()
    .meta({ description: 'A paper by name, or its size in millimetres.' }),
  staffMm: millimetres(STAFF_MM_LIMITS)
    .exactOptional()
    .meta({ description: `Height of one staff; ${DEFAULT_ENGRAVING.staffMm} mm if not given.` }),
  keepBreaks: z
    .boolean()
    .exactOptional()
    .meta({ description: 'Break systems and pages where the file does.' }),
  condenseRests: z.boolean().exactOptional().meta({ description: 'Join bars of rest.' }),
  pageTurns: z
    .enum(['every-page', 'right-hand-pages', 'ignored'])
    .exactOptional()
    .meta({ description: 'Which page ends are to fall on rests.' }),
  fileMarkings: z.boolean().exactOptional().meta({
    description: 'Leave the pedal markings that the file holds beside ours; else ours take their place.',
  }),
  stringColours: z
    .enum(['none', 'c-red-f-black', 'c-red-f-blue'])
    .exactOptional()
    .meta({ description: 'Noteheads in the colours of the strings.' }),
  respelled: z.enum(['plain', 'bracketed', 'named']).exactOptional().meta({
    description:
      'How notes that are played on a string of another name are shown: not, with the notehead in brackets, or with the name of the string beside it. If not given, plain for a pedal harp and named for a lever harp.',
  }),
  numberImpossible: z
    .boolean()
    .exactOptional()
    .meta({ description: 'Number the places that cannot be played as printed.' }),
};

export const planOptions = z.strictObject({ ...partShape, ...planShape }).meta({ id: 'PlanOptions' });

export const proofOptions = z
  .strictObject({ ...partShape, ...instrumentShape, ...footRestShape })
  .meta({ id: 'ProofOptions' });

export const annotateOptions = z
  .strictObject({
    ...partShape,
    page: z
      .int()
      .min(1)
      .max(999_999)
      .exactOptional()
      .meta({ description: 'The page wanted, from 1; for image/svg+xml.' }),
    pages: z.enum(['all', 'none']).exactOptional().meta({
      description: 'Whether the report holds the pages as drawings; for application/json.',
    }),
    ...planShape,
    ...engravingShape,
  })
  .meta({ id: 'AnnotateOptions' });

export type PlanChoice = z.infer<typeof planOptions>;
export type ProofChoice = z.infer<typeof proofOptions>;
export type AnnotateChoice = z.infer<typeof annotateOptions>;

/** The planner's options out of a request's and the user's work at its places. */
export const planOptionsFor = (
  choice: PlanChoice,
  profile: PedalHarpProfile,
  { pins, respelled, leftOut }: Pick<PlacedWork, 'pins' | 'respelled' | 'leftOut'>,
): Partial<PlanOptions> => {
  const { spelling, keepMarkings, pedalsTogether, crossFeet } = choice;
  const tuned = parseScordatura(choice.scordatura ?? '');
  const own = {
    ...choice.weights,
    ...(choice.footRest === undefined ? {} : { footRestSeconds: choice.footRest }),
  };
  return {
    profile,
    // The option was checked when it was read.
    ...(tuned.ok ? { scordatura: tuned.value } : {}),
    ...(spelling === undefined ? {} : { spelling }),
    ...(keepMarkings === undefined ? {} : { keepMarkings }),
    ...(pedalsTogether === undefined ? {} : { pedalsTogether }),
    ...(crossFeet === undefined ? {} : { crossFeet }),
    weights: { ...DEFAULT_WEIGHTS, ...own },
    pins,
    respelled,
    leftOut,
  };
};

/** The engraver's options out of a request's: those of the shape, and no others. */
export const engravingOf = (choice: AnnotateChoice): EngravingChoice =>
  Object.fromEntries(Object.entries(choice).filter(([name]) => Object.hasOwn(engravingShape, name)));
