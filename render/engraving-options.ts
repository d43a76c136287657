import {
  type Choice,
  completeChoice,
  fail,
  type HarpKind,
  ok,
  type PlacedCue,
  type PlacedFullSetting,
  type Result,
  type Values,
} from '../engine/index.ts';
import { ENGRAVING_CATALOGUE } from './engraving-catalogue.ts';
import { usualAt } from './levels.ts';
import { PAPERS } from './options/paper.ts';
import { LANGUAGES } from './words/language.ts';

/** How the printed page looks: every option of the catalogue, and what was decided place by place. */
export interface EngravingOptions extends Values<typeof ENGRAVING_CATALOGUE> {
  /** Places where a full setting is printed, or is not, whatever the occasions and the density say. */
  readonly fullSettings: readonly PlacedFullSetting[];
  /** What is cued before an entry, whatever is usual. */
  readonly cueParts: readonly PlacedCue[];
}

export type MarkingPlacement = EngravingOptions['placement'];

export type FileSettings = EngravingOptions['fileSettings'];

/** How large a vu of the music is, half the space between two staff lines, in millimetres. */
export const mmPerVu = ({ staffMm }: Pick<EngravingOptions, 'staffMm'>): number => staffMm / 8;

/** A choice of a user, with the defaults for what it leaves open; `settings` may be given in part. */
export type EngravingChoice = Choice<typeof ENGRAVING_CATALOGUE> &
  Partial<Pick<EngravingOptions, 'fullSettings' | 'cueParts'>>;

/** The choice, and what is usual for the harp where it leaves something open. */
export const completeEngraving = (
  choice: EngravingChoice = {},
  harp: HarpKind = 'pedal',
): EngravingOptions => ({
  ...completeChoice(ENGRAVING_CATALOGUE, completeByLevel(choice, harp), harp),
  naming: choice.naming ?? LANGUAGES[choice.language ?? ENGRAVING_CATALOGUE.language.default].naming,
  fullSettings: choice.fullSettings ?? [],
  cueParts: choice.cueParts ?? [],
});

/** What the level of the player chooses, and over it what the user has chosen. */
const completeByLevel = (choice: EngravingChoice, harp: HarpKind): EngravingChoice => {
  const usual = usualAt(choice.level ?? ENGRAVING_CATALOGUE.level.default, harp);
  const given = Object.fromEntries(Object.entries(choice).filter(([, value]) => value !== undefined));
  return { ...usual, ...given, settings: { ...usual.settings, ...choice.settings } };
};

export const DEFAULT_ENGRAVING: EngravingOptions = completeEngraving();

export const paperSize = (
  paper: EngravingOptions['paper'],
): { readonly widthMm: number; readonly heightMm: number } =>
  typeof paper === 'string' ? PAPERS[paper] : paper;

/** @returns the options, or `unsupported` for sizes that no page can be laid out with */
export const checkEngraving = (options: EngravingOptions): Result<EngravingOptions> => {
  const { widthMm, heightMm } = paperSize(options.paper);
  const { staffMm: staff, paper } = ENGRAVING_CATALOGUE;
  if (!isWithin(options.staffMm, staff)) {
    return fail({
      code: 'unsupported',
      feature: `A staff of ${options.staffMm} mm`,
      advice: `Choose ${staff.least} to ${staff.most} mm.`,
    });
  }
  const { widthMm: width, heightMm: height } = paper.members;
  if (!isWithin(widthMm, width) || !isWithin(heightMm, height)) {
    return fail({
      code: 'unsupported',
      feature: `Paper of ${widthMm} x ${heightMm} mm`,
      advice: `Choose ${width.least} to ${width.most} mm for each side.`,
    });
  }
  const { settingMm } = options;
  if (settingMm !== null && settingMm > widthMm - MARGINS_MM) {
    return fail({
      code: 'unsupported',
      feature: `A full setting ${settingMm} mm wide on paper of ${widthMm} mm`,
      advice: `Choose at most ${widthMm - MARGINS_MM} mm, or larger paper.`,
    });
  }
  return ok(options);
};

/** Left and right of the music, and what a line has before its first note. */
const MARGINS_MM = 60;

const isWithin = (
  value: number,
  { least, most }: { readonly least: number; readonly most: number },
): boolean => value >= least && value <= most;
