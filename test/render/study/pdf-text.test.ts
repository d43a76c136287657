import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { FEET, nameOfPosition } from '../../../engine/harp/setting.ts';
import type { Letter } from '../../../engine/music/pitch.ts';
import { compare } from '../../../engine/music/rational.ts';
import type { Plan } from '../../../engine/pedals/model.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { placeAsTold } from '../../../engine/time/told-at.ts';
import { formatBeat } from '../../../engine/words/format-beat.ts';
import { completeEngraving } from '../../../render/engraving-options.ts';
import { planAsTold } from '../../../render/markings/plan-as-told.ts';
import { bindPart } from './bound-part.ts';

const poppler = spawnSync('pdftotext', ['-v']).error === undefined;
if (!poppler)
  console.warn('skipped: the text of a study edition’s PDF, because poppler-utils is not installed');

const LANES: readonly Letter[] = [...FEET.left, ...FEET.right];

/** What Poppler reads of a PDF, page by page. */
const readPdf = (pdf: Uint8Array, ...options: readonly string[]): string => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-study-'));
  try {
    const file = join(folder, 'pack.pdf');
    writeFileSync(file, pdf);
    return execFileSync('pdftotext', [...options, file, '-'], { maxBuffer: 1 << 26 }).toString();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

interface Word {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

const wordsByPage = (pdf: Uint8Array): Word[][] =>
  readPdf(pdf, '-bbox')
    .split('<page ')
    .slice(1)
    .map((page) =>
      [...page.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)"[^>]*>([^<]*)<\/word>/g)].map(
        // Of “E♭” the letter is what is looked for in the lanes.
        ([, x, y, text]) => ({ text: text!.replace(/(?<=^[A-G])[♭♮♯]$/u, ''), x: Number(x), y: Number(y) }),
      ),
    );

const POINTS_PER_MM = 72 / 25.4;

/** Points: the setting stands at the margin of 14 mm, the bars begin well right of it. */
const SETTING_RIGHT = (14 + 2.5) * POINTS_PER_MM;
const NEAR_LANE = 8;

/** The pedals that move on chart pages, line by line and from left to right, read from the words of the PDF alone. */
const movesDrawn = (pages: readonly (readonly Word[])[]): string[] =>
  pages.flatMap((words) => {
    const letters = words.filter(({ text }) => (LANES as readonly string[]).includes(text));
    const settings = letters.filter(({ x }) => x < SETTING_RIGHT);
    const tops = settings.filter(({ text }) => text === 'D').toSorted((a, b) => a.y - b.y);
    return tops.flatMap((top) => {
      const bottom = settings
        .filter(({ text, y }) => text === 'A' && y > top.y)
        .toSorted((a, b) => a.y - b.y)[0]!;
      return letters
        .filter(({ x, y }) => x > SETTING_RIGHT && y > top.y - NEAR_LANE && y < bottom.y + NEAR_LANE)
        .toSorted((a, b) => a.x - b.x || LANES.indexOf(a.text as Letter) - LANES.indexOf(b.text as Letter))
        .map(({ text }) => text);
    });
  });

describe.skipIf(!poppler)('the text of a study edition’s PDF', () => {
  let score: Score;
  let told: Plan;
  let pdf: Uint8Array;
  let chapterWords: (chapter: string, next: string) => Word[][];

  beforeAll(() => {
    const url = new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url);
    const opened = openScore(new Uint8Array(readFileSync(url)));
    if (!opened.ok) throw new Error(opened.problem.code);
    score = opened.value;
    const made = bindPart(score);
    told = planAsTold(score, made.plan, completeEngraving({}));
    pdf = made.pdf();
    const placeOf = (chapter: string) => made.bound.bookmarks.find(({ text }) => text === chapter)!;
    chapterWords = (chapter, next) => {
      const [from, until] = [placeOf(chapter), placeOf(next)];
      return wordsByPage(pdf)
        .slice(from.page, until.page + 1)
        .map((words, i) =>
          words.filter(
            ({ y }) =>
              (i > 0 || y >= from.topMm * POINTS_PER_MM) &&
              (from.page + i < until.page || y < until.topMm * POINTS_PER_MM),
          ),
        );
    };
  });

  it('has every move of the plan in its table, in order, where the part has its marking', () => {
    const rows = [
      ...readPdf(pdf, '-layout').matchAll(
        /^\s*(\S+)\s+(\S+)\s+(left|right)\s+([A-G])\s+(flat|natural|sharp)\s+(flat|natural|sharp)\s+\d+\.\d s/gm,
      ),
    ].map((row) => row.slice(1));
    expect(rows).toEqual(
      told.moves.map(({ bar, beat, foot, letter, from, to }) => [
        score.bars[bar]!.number,
        formatBeat(beat),
        foot,
        letter,
        nameOfPosition(from),
        nameOfPosition(to),
      ]),
    );
  });

  it.each(['Pedal chart', 'Footwork line'])('has every move of the plan in the %s, in order', (chapter) => {
    const chapters = ['Pedal chart', 'Footwork line', 'Table of moves'];
    const next = chapters[chapters.indexOf(chapter) + 1]!;
    const inOrder = placeAsTold(score, told.moves)
      .toSorted((a, b) => compare(a.at, b.at) || LANES.indexOf(a.letter) - LANES.indexOf(b.letter))
      .map(({ letter }) => letter);
    expect(movesDrawn(chapterWords(chapter, next))).toEqual(inOrder);
  });

  it('says the opening setting in words', () => {
    expect(readPdf(pdf, '-l', '1')).toContain('Left foot: D natural, C natural, B flat.');
  });
});
