import type { SettingAt } from '../engine/decisions/place-work.ts';
import type { HarpKind } from '../engine/harp/harps.ts';
import { ok, type Result, refuse } from '../engine/problem.ts';
import type { LeverLookName } from './looks/lever-looks.ts';
import type { SettingLookName } from './looks/setting-looks.ts';
import type { NoteNaming } from './markings/note-names.ts';

/** Where the markings of a system stand: below its lowest staff, above its highest, or between its staves. */
export type MarkingPlacement = 'below' | 'above' | 'between';

/** How much is printed: every change, full settings alone, or both. */
export type MarkingDensity = 'changes' | 'settings' | 'both';

/** Where a full setting is printed; each can be switched. */
export interface SettingOccasions {
  /** Before the first note. */
  readonly start: boolean;
  /** After a rest of at least so many whole bars; null for never. */
  readonly afterRestBars: number | null;
  readonly rehearsalMarks: boolean;
  /** Before each glissando. */
  readonly glissandi: boolean;
  /** Where three or more pedals move at one moment or within one silence. */
  readonly threeChanges: boolean;
  readonly systemStart: boolean;
  readonly pageStart: boolean;
}

/** A named size, or one in millimetres. */
export type Paper = PaperName | { readonly widthMm: number; readonly heightMm: number };

export type PaperName = 'a4' | 'a3' | 'letter' | 'concert-part';

/**
 * Noteheads in the colours of the strings as on the instrument: C red, F black or blue, the others black (common
 * practice, no source).
 */
export type StringColours = 'none' | 'c-red-f-black' | 'c-red-f-blue';

/** How notes that are played on another string are shown: not, the notehead in brackets, or its name beside it. */
export type RespelledLook = 'plain' | 'bracketed' | 'named';

/** Which page ends are page turns: every one (sheets, screens), those of right-hand pages (a bound part), or none. */
export type PageTurns = 'every-page' | 'right-hand-pages' | 'ignored';

/** How the printed page looks. Everything has a default: `DEFAULT_ENGRAVING`. */
export interface EngravingOptions {
  /** How a full setting looks. */
  readonly settingLook: SettingLookName;
  readonly naming: NoteNaming;
  /** How a lever change looks. */
  readonly leverLook: LeverLookName;
  readonly placement: MarkingPlacement;
  readonly density: MarkingDensity;
  readonly settings: SettingOccasions;
  /** Places where a full setting is printed, or is not, whatever the occasions and the density say. */
  readonly settingsAt: readonly SettingAt[];
  /** Ring the pedals that stand differently from the full setting before. */
  readonly ringChanged: boolean;
  readonly paper: Paper;
  /** Height of one staff, from its lowest to its highest line. */
  readonly staffMm: number;
  /** Break systems and pages where the file does. */
  readonly keepBreaks: boolean;
  /** Join bars of rest. */
  readonly condenseRests: boolean;
  /** Which page ends are to fall on rests. */
  readonly pageTurns: PageTurns;
  /** Print pedal markings that the file already holds beside ours; otherwise ours take their place. */
  readonly fileMarkings: boolean;
  readonly stringColours: StringColours;
  readonly respelled: RespelledLook;
  /** Number the places that cannot be played as printed. */
  readonly numberImpossible: boolean;
}

export const PAPERS: Readonly<Record<PaperName, { readonly widthMm: number; readonly heightMm: number }>> = {
  a4: { widthMm: 210, heightMm: 297 },
  a3: { widthMm: 297, heightMm: 420 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
  // 9 x 12 in, the size of orchestral parts (common practice, no source).
  'concert-part': { widthMm: 228.6, heightMm: 304.8 },
};

/** What can be laid out at all: a staff smaller or larger than these is no part for a stand. */
export const STAFF_MM_LIMITS = { least: 3, most: 12 } as const;
export const PAPER_MM_LIMITS = { least: 100, most: 1000 } as const;

export const DEFAULT_ENGRAVING: EngravingOptions = {
  settingLook: 'diagram',
  naming: 'english',
  leverLook: 'names',
  // Below or above both staves, never between (Harp Notation, Sibelius Academy, Helsinki).
  placement: 'below',
  density: 'both',
  settings: {
    start: true,
    afterRestBars: 4,
    rehearsalMarks: true,
    glissandi: true,
    threeChanges: true,
    systemStart: false,
    pageStart: false,
  },
  settingsAt: [],
  ringChanged: false,
  paper: 'a4',
  // Usual in parts (common practice, no source).
  staffMm: 7,
  keepBreaks: false,
  condenseRests: true,
  pageTurns: 'right-hand-pages',
  fileMarkings: false,
  stringColours: 'none',
  respelled: 'plain',
  numberImpossible: true,
};

/** A choice of a user, with the defaults for what it leaves open; `settings` may be given in part. */
export type EngravingChoice = Partial<Omit<EngravingOptions, 'settings'>> & {
  readonly settings?: Partial<SettingOccasions>;
};

/**
 * What is usual for each harp: lever changes stand between the staves (common practice, no source). On the lever harp
 * the tuning decides the strings, not the player: a string of another name is told beside the note.
 */
const USUAL: Readonly<Record<HarpKind, EngravingChoice>> = {
  pedal: {},
  lever: { placement: 'between', respelled: 'named' },
};

export const completeEngraving = (
  choice: EngravingChoice = {},
  harp: HarpKind = 'pedal',
): EngravingOptions => ({
  ...DEFAULT_ENGRAVING,
  ...USUAL[harp],
  ...choice,
  settings: { ...DEFAULT_ENGRAVING.settings, ...choice.settings },
});

export const paperSize = (paper: Paper): { readonly widthMm: number; readonly heightMm: number } =>
  typeof paper === 'string' ? PAPERS[paper] : paper;

/** @returns the options, or `unsupported` for sizes that no page can be laid out with */
export const checkEngraving = (options: EngravingOptions): Result<EngravingOptions> => {
  const { widthMm, heightMm } = paperSize(options.paper);
  if (!isWithin(options.staffMm, STAFF_MM_LIMITS)) {
    return refuse({
      code: 'unsupported',
      feature: `A staff of ${options.staffMm} mm`,
      advice: `Choose ${STAFF_MM_LIMITS.least} to ${STAFF_MM_LIMITS.most} mm.`,
    });
  }
  if (!isWithin(widthMm, PAPER_MM_LIMITS) || !isWithin(heightMm, PAPER_MM_LIMITS)) {
    return refuse({
      code: 'unsupported',
      feature: `Paper of ${widthMm} x ${heightMm} mm`,
      advice: `Choose ${PAPER_MM_LIMITS.least} to ${PAPER_MM_LIMITS.most} mm for each side.`,
    });
  }
  return ok(options);
};

const isWithin = (
  value: number,
  { least, most }: { readonly least: number; readonly most: number },
): boolean => value >= least && value <= most;
