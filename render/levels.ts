import type { Choice, HarpKind } from '../engine/index.ts';
import { ENGRAVING_CATALOGUE } from './engraving-catalogue.ts';

export type Level = keyof typeof ENGRAVING_CATALOGUE.level.values;

/** What a level chooses where the user leaves it open. */
type LevelChoice = Omit<Choice<typeof ENGRAVING_CATALOGUE>, 'level' | 'edition' | 'language'>;

const BEGINNER = {
  staffMm: 8,
  stringColours: 'c-red-f-blue',
  changeWords: true,
  beatCounts: 'every-bar',
  barNumbers: 1,
  legend: true,
} as const satisfies LevelChoice;

const INTERMEDIATE = {
  stringColours: 'c-red-f-blue',
  beatCounts: 'bars-with-changes',
  legend: true,
} as const satisfies LevelChoice;

/** What is usual at each level: of the player, not of the piece (common practice, no source). */
const LEVELS: Readonly<Record<Level, Readonly<Record<HarpKind, LevelChoice>>>> = {
  beginner: {
    pedal: { ...BEGINNER, circleChanged: true, settings: { systemStart: true } },
    lever: { ...BEGINNER, leverHands: true, leverTables: 'each-line' },
  },
  intermediate: {
    pedal: { ...INTERMEDIATE, circleChanged: true, settings: { pageStart: true, afterRestBars: 2 } },
    lever: { ...INTERMEDIATE, leverHands: true, leverTables: 'each-page' },
  },
  advanced: { pedal: {}, lever: {} },
};

export const usualAt = (level: Level, harp: HarpKind): LevelChoice => LEVELS[level][harp];

/** The same by the names of queries, as words: `settings.systemStart` is `true`. */
export const usualWordsAt = (level: string | undefined, harp: HarpKind): Readonly<Record<string, string>> => {
  const known = Object.hasOwn(LEVELS, level ?? '') ? (level as Level) : ENGRAVING_CATALOGUE.level.default;
  return Object.fromEntries(
    Object.entries(usualAt(known, harp)).flatMap(([name, value]) =>
      typeof value === 'object' && value !== null
        ? Object.entries(value).map(([member, each]) => [`${name}.${member}`, `${each}`])
        : [[name, `${value}`]],
    ),
  );
};
