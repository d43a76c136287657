import {
  amount,
  amountOrNever,
  type Catalogue,
  entry,
  namedOrOwn,
  oneOf,
  yesOrNo,
} from '../../engine/index.ts';

interface Size {
  readonly widthMm: number;
  readonly heightMm: number;
}

export const PAPERS = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
  // 9 x 12 in, the size of orchestral parts (common practice, no source).
  'concert-part': { widthMm: 228.6, heightMm: 304.8 },
  a3: { widthMm: 297, heightMm: 420 },
} as const satisfies Readonly<Record<string, Size>>;

export type PaperName = keyof typeof PAPERS;

const PAPER_WORDS: Readonly<Record<PaperName, string>> = {
  a4: 'A4',
  letter: 'Letter',
  'concert-part': '9 × 12 in',
  a3: 'A3',
};

const USUAL_PAPER = 'a4' satisfies PaperName;

/** What can be laid out at all: smaller or larger is no part for a stand. */
const STAFF_MM_LIMITS = { least: 3, most: 14 } as const;
const PAPER_MM_LIMITS = { least: 100, most: 1000 } as const;

const paperSide = (label: string, description: string, usual: number) =>
  amount({
    label,
    description,
    unit: 'millimetres',
    default: usual,
    ...PAPER_MM_LIMITS,
    step: null,
    offered: null,
  });

/** The paper, and how the music is set on it. */
export const PAPER_OPTIONS = {
  paper: entry(
    'both',
    'page',
    namedOrOwn({
      label: 'Paper',
      description: 'A paper by name, or its size in millimetres.',
      values: PAPER_WORDS,
      default: USUAL_PAPER,
      own: 'custom size',
      members: {
        widthMm: paperSide('Width in mm', 'Width of the paper.', PAPERS[USUAL_PAPER].widthMm),
        heightMm: paperSide('Height in mm', 'Height of the paper.', PAPERS[USUAL_PAPER].heightMm),
      },
    }),
  ),
  staffMm: entry(
    'both',
    'page',
    amount({
      label: 'Staff height',
      description: 'Height of one staff, from its lowest to its highest line.',
      unit: 'millimetres',
      // Usual in parts (common practice, no source).
      default: 7,
      ...STAFF_MM_LIMITS,
      step: null,
      offered: { values: [5, 6, 7, 8, 9, 10, 12, 14], words: '{}' },
    }),
  ),
  pageTurns: entry(
    'both',
    'page',
    oneOf({
      label: 'Page turns',
      description:
        'Which pages should end where the player has time to turn: every one (sheets, screens), right-hand pages only (a bound part), or none.',
      values: {
        'right-hand-pages': 'after right-hand pages',
        'every-page': 'after every page',
        anywhere: 'anywhere',
      },
      default: 'right-hand-pages',
    }),
  ),
  turnWords: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Say at the foot of a page how it is turned',
      // Common practice, no source.
      description:
        'At the foot of each page that must be turned while playing: “V.S.” (turn quickly) where there is little or no time, “time” where there is enough.',
      default: false,
    }),
  ),
  keepBreaks: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Keep the line and page breaks of the file',
      description: 'Keep the line and page breaks of the file.',
      default: false,
    }),
  ),
  multiBarRests: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Print long rests as multi-bar rests',
      description: 'Print long rests as multi-bar rests.',
      default: true,
    }),
  ),
  restRanges: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Print under multi-bar rests which bars they are',
      // Common practice, no source.
      description: 'Print the numbers of the first and the last bar of each multi-bar rest under it: 12–22.',
      default: false,
    }),
  ),
  barNumbers: entry(
    'both',
    'page',
    amountOrNever({
      label: 'Bar numbers',
      description:
        'Bar numbers stand at the start of each line and at every so many bars; null for the start of each line alone.',
      unit: 'bars',
      default: null,
      least: 1,
      most: 1000,
      step: 1,
      offered: { values: [1, 2, 4, 5, 8, 10], words: 'also every {}' },
      never: 'at the start of each line',
    }),
  ),
} as const satisfies Catalogue;
