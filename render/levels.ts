import type { Choice, HarpKind } from '../engine/index.ts';
import { ENGRAVING_CATALOGUE } from './engraving-catalogue.ts';
import { LANGUAGES, type Language } from './words/language.ts';

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

/** What a control of a page has chosen, as words. */
interface ChosenWords {
  readonly level?: string | undefined;
  readonly language?: string | undefined;
}

/**
 * What is usual beside other choices, by the names of queries and as words: the level’s values, such as `true` for
 * `settings.systemStart`, and the note names of the language.
 */
export const usualWords = (
  { level, language }: ChosenWords,
  harp: HarpKind,
): Readonly<Record<string, string>> => {
  const known = Object.hasOwn(LEVELS, level ?? '') ? (level as Level) : ENGRAVING_CATALOGUE.level.default;
  const named = Object.hasOwn(LANGUAGES, language ?? '') ? LANGUAGES[language as Language].naming : null;
  const words = Object.entries(usualAt(known, harp)).flatMap(([name, value]) =>
    typeof value === 'object' && value !== null
      ? Object.entries(value).map(([member, each]) => [`${name}.${member}`, `${each}`])
      : [[name, `${value}`]],
  );
  return { ...Object.fromEntries(words), ...(named === null ? {} : { naming: named }) };
};
