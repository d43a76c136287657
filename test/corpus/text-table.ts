import type { Drawer } from '../../render/layout/drawer/drawer.ts';
import { SURVEYED, type SurveyedScore, type SurveyedText, surveyScore } from './text-survey.ts';

/** Why a text over the first staff is left to the part that has it. */
const REASONS: readonly (readonly [RegExp, string])[] = [
  [/^(?:[a-z])$/u, 'letter of an analysis'],
  [/^(?:cresc\.?|dim\.?)(?: poco a poco)?$|^sempre$/iu, 'dynamics of one part'],
  [/dolce|espress|zart|languide|douloureux|déchirant|doux|ad lib/iu, 'expression of one part'],
  [/sul pont|^ord$|con sord|pizz|arco|bouche fermée/iu, 'technique of one part'],
  [/^solo$|^\/? ?(?:voice|gesang)$|^clari$|^leoda$/iu, 'who plays or sings'],
  [/^AIl° molto\.$/u, 'misread by the scanner of the file: “Al” as “AI”'],
];

export const reasonFor = (text: string): string | null =>
  REASONS.find(([words]) => words.test(text))?.[1] ?? null;

export interface TextRow extends SurveyedScore {
  /** The code of the problem where the part is not read. */
  readonly texts: readonly SurveyedText[] | string;
}

export const surveyAll = (drawer: Drawer, scores = SURVEYED): readonly TextRow[] =>
  scores.map((score) => ({ ...score, texts: surveyScore(score, drawer) }));

const count = (texts: readonly string[]): string =>
  [...new Set(texts)]
    .map((text) => {
      const times = texts.filter((each) => each === text).length;
      return times === 1 ? text : `${text} (${times})`;
    })
    .join(', ');

const rowOf = ({ file, movement, part, texts }: TextRow): string => {
  const score = movement === undefined ? file : `${file}, movement ${movement}`;
  if (typeof texts === 'string') return `| ${score} | ${part ?? 'harp'} | ${texts} | | |`;
  const left = texts.filter(({ printed }) => !printed).map(({ text }) => text);
  const reasons = [...new Set(left.map(reasonFor))].map(
    (reason) => `${count(left.filter((text) => reasonFor(text) === reason))}: ${reason ?? 'NONE'}`,
  );
  const printed = texts.filter((each) => each.printed).map(({ text }) => text);
  return `| ${score} | ${part ?? 'harp'} | ${texts.length} | ${count(printed)} | ${reasons.join('; ')} |`;
};

/** The table as Markdown. */
export const writeTextTable = (rows: readonly TextRow[]): string =>
  [
    '# Text over the first staff of real scores, and what of it their parts print',
    '',
    'Written by `npx tsx test/corpus/write-text-table.ts`. Read from the files without the engine’s rule; held against the document that is laid out.',
    '',
    '| score | part | texts | printed in the part | left out, and why |',
    '| --- | --- | --- | --- | --- |',
    ...rows.map(rowOf),
    '',
  ].join('\n');
