import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Grade } from '../../../engine/difficulty/model.ts';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import type { HarpPlan } from '../../../engine/harp-plan.ts';
import { planPart } from '../../../engine/plan-part.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import {
  checkEngraving,
  completeEngraving,
  type EngravingChoice,
  type EngravingOptions,
} from '../../../render/engraving-options.ts';
import { findStand } from '../../../render/facts/harp-stand.ts';
import { tellStands } from '../../../render/facts/tell-stands.ts';
import { bindClassSet } from '../../../render/pack/class-set.ts';
import {
  type ClassPiece,
  drawFront,
  type FrontLook,
  sortByDifficulty,
} from '../../../render/pack/front-sheets.ts';
import { type Sheet, sheetOn } from '../../../render/sheets/sheet.ts';
import { finishSheet } from '../../../render/sheets/sheet-page.ts';
import { type Reading, readingOf } from '../../../render/study/reading-sheet.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { demoScore } from '../../demo-score.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';
import { findTouchingWords } from '../touching-words.ts';

const PAGE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" viewBox="0 0 21000 29700"></svg>';

const piece = (title: string, grade: Grade, changesPerMinute: number, pages: number): ClassPiece => ({
  facts: {
    name: title,
    title,
    subtitle: '',
    authors: [],
    harp: 'Harp',
    bars: 8,
    grade,
    playable: true,
    changes: 3,
    changesPerMinute,
    playedChangesPerMinute: changesPerMinute,
    seconds: 65,
    stand: { kind: 'pedal', begins: tuneToKey(0).letters, ends: tuneToKey(3).letters },
  },
  pages: Array.from({ length: pages }, () => PAGE),
  bookmarks: [{ text: title, page: 0, topMm: 0, level: 1 }],
  reading: null,
});

const PIECES = [piece('Rowan', 'hard', 9, 3), piece('Alder', 'easy', 4, 1), piece('Birch', 'easy', 1, 2)];

const poppler = spawnSync('pdftotext', ['-v']).error === undefined;
if (!poppler) console.warn('skipped: the text of a class set, because poppler-utils is not installed');

/** The text of each page. */
const readPages = (pdf: Uint8Array): string[] => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-set-'));
  try {
    writeFileSync(join(folder, 'set.pdf'), pdf);
    return execFileSync('pdftotext', ['-layout', join(folder, 'set.pdf'), '-'])
      .toString()
      .split('\f')
      .slice(0, -1);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const lookOn = (sheet: Sheet): FrontLook => ({ sheet, naming: 'english', title: 'Class set' });

const bind = (pieces = PIECES, refused: Parameters<typeof bindClassSet>[1] = []) => {
  const bound = bindClassSet(pieces, refused);
  if (!bound.ok) throw new Error(bound.problem.code);
  return bound.value;
};

describe('a class set', () => {
  it('sorts its table by difficulty, then by changes a minute', () => {
    expect(sortByDifficulty(PIECES).map(({ facts }) => facts.title)).toEqual(['Birch', 'Alder', 'Rowan']);
  });

  it.skipIf(!poppler)('tells of each piece the page it begins on, a right-hand one', () => {
    const pages = readPages(bind().pdf);
    expect(pages).toHaveLength(10);
    const listed = [...pages[0]!.matchAll(/^\s*(Rowan|Alder|Birch)\s+(\d+)$/gm)];
    expect(listed.map(([, title, page]) => [title, page])).toEqual([
      ['Rowan', '3'],
      ['Alder', '7'],
      ['Birch', '9'],
    ]);
    for (const [, title, page] of listed) expect(pages[Number(page) - 1]).toContain(title);
    const rows = [...pages[1]!.matchAll(/^\s*(\d+)\s+(easy|hard)\s+3\s+(\S+)\s+1 min 05 s\s+(\w+)$/gm)];
    expect(rows.map((row) => row.slice(1))).toEqual([
      ['9', 'easy', '1.0', 'Birch'],
      ['7', 'easy', '4.0', 'Alder'],
      ['3', 'hard', '9.0', 'Rowan'],
    ]);
  });

  it.skipIf(!poppler)('has its title over the contents, and the settings from piece to piece', () => {
    const bound = bindClassSet(PIECES, [], { title: 'Spring concert' });
    if (!bound.ok) throw new Error(bound.problem.code);
    const [contents, tables] = readPages(bound.value.pdf);
    expect(contents).toMatch(/Spring concert\s+Contents/);
    // Each begins in C major and ends in A major.
    expect(tables).toContain('Opening setting: D♮ C♮ B♮ | E♮ F♮ G♮ A♮.');
    expect(tables!.match(/To set after the piece before: C♮, F♮, G♮\./g)).toHaveLength(2);
  });

  it('names strings to retune and which way, and leaves levers alone whose strings are not played', () => {
    const plain = smallPart({ upper: 'C4/4' });
    const stand = (up: string, tuning = tuneToKey(-3), moves: readonly string[] = []) =>
      findStand(plain, leverPlanFor(plain, { tuning, up, moves }));
    const told = tellStands(
      [
        stand('A4 B4', tuneToKey(-3)),
        stand('F4'),
        stand('', tuneToKey(-2)),
        // The lever of B4 is up since the first piece; that of A4 went down when the string was tuned.
        stand('A4 B4', tuneToKey(-2)),
        stand('F4'),
      ],
      'english',
      wordsOf({ language: 'english' }),
    ).map(([, ...between]) => between.join(' '));
    expect(told).toEqual([
      // F4 is not played by the first piece: as for a set of tunes, it is set before all of them.
      'For later pieces, to set now as well: Levers up: F♯4.',
      'Nothing to set after the piece before.',
      'To retune, with the levers of these strings down: All A♭ strings up to A. Whether a string bears a higher pitch than its usual one is for a harp technician to say: ask first.',
      'To set after the piece before: Levers up: A♯4.',
      'To retune, with the levers of these strings down: All A strings down to A♭.',
    ]);
  });

  it.skipIf(!poppler)('numbers its pages through', () => {
    const pages = readPages(bind().pdf);
    for (const [i, page] of pages.entries()) expect(page).toContain(`${i + 1}/${pages.length}`);
  });

  it.skipIf(!poppler)('names what was refused, with the reason', () => {
    const [contents] = readPages(bind(PIECES, [{ name: 'broken.mei', refusal: 'unreadable' }]).pdf);
    expect(contents).toContain('broken.mei: The file cannot be read as a score.');
  });

  it.skipIf(!poppler)('goes on over as many pages of contents as many pieces need', () => {
    const many = Array.from({ length: 120 }, (_, i) => piece(`Piece ${i}`, 'easy', i, 1));
    const pages = readPages(bind(many).pdf);
    const [, first] = /^\s*Piece 0\s+(\d+)$/m.exec(pages[0]!)!;
    expect(Number(first) % 2).toBe(1);
    expect(pages[Number(first) - 1]).toContain('Piece 0');
  });

  it.each(Object.keys(LANGUAGES) as Language[])(
    'keeps the words of its front sheets apart in %s',
    (language) => {
      const long = 'The mill wheel turns again in the winter light, and the heron waits beside the old lock';
      const chapters = ['Pedal chart', 'Hard spots'].map((text) => ({
        text,
        page: 1,
        topMm: 0,
        level: 1 as const,
      }));
      const last = piece(`${long}, ${long}`, 'very-hard', 123.4, 5);
      const listed = [
        ...PIECES,
        { ...last, facts: { ...last.facts, authors: [long, long], playable: false } },
      ];
      const placed = listed.map((each, i) => ({
        ...each,
        bookmarks: [...each.bookmarks, ...chapters],
        start: 998 + 2 * i,
      }));
      const refused = [{ name: `${long.replaceAll(' ', '-')}.musicxml`, refusal: 'noHarp' as const }];
      for (const paper of [
        { widthMm: 210, heightMm: 297 },
        { widthMm: 100, heightMm: 100 },
      ]) {
        const sheet = sheetOn(paper, language);
        const front = drawFront(placed, refused, lookOn(sheet)).sheets;
        expect(front.length % 2).toBe(0);
        const foot = { words: long, page: '1/1000' };
        const touching = front.flatMap((drawing) => findTouchingWords(finishSheet(drawing, sheet, foot).svg));
        expect(touching).toEqual([]);
      }
    },
  );

  it('has what is not playable at the end of its table, whatever its grade, and says so', () => {
    const easy = piece('Sedge', 'easy', 1, 1);
    const unplayable = { ...easy, facts: { ...easy.facts, playable: false } };
    expect(sortByDifficulty([unplayable, ...PIECES]).at(-1)).toBe(unplayable);
    const placed = [{ ...unplayable, start: 2 }];
    const drawn = drawFront(placed, [], lookOn(sheetOn({ widthMm: 210, heightMm: 297 }, 'english')));
    expect(drawn.sheets.join('')).toContain('>Sedge (not playable as printed)<');
    expect(drawn.sheets.join('')).toContain('>easy<');
  });

  describe('whose pieces are studied', () => {
    const score = demoScore('the-ribbon-stall');
    const levers = planPart(score, { levers: {} });
    const quiet = smallPart({ upper: 'C4/4' });
    const pedals = planPart(quiet, {});
    const reading = (
      harp: HarpPlan,
      choice: EngravingChoice = {},
      of: Score = harp.kind === 'lever' ? score : quiet,
    ): Reading | null => {
      const { value } = checkEngraving(
        completeEngraving({ edition: 'study', level: 'beginner', ...choice }, harp.kind),
      ) as { value: EngravingOptions };
      return readingOf(of, harp, value);
    };
    const studied = (readings: readonly (Reading | null)[]): ClassPiece[] =>
      readings.map((each, i) => ({ ...piece(`Piece ${i}`, 'easy', i, 2), reading: each }));
    const TITLE = 'How the markings are read';
    const headsOf = (pages: readonly string[]): readonly number[] =>
      pages.flatMap((page, i) =>
        [...page.matchAll(/^\s*How (the|pedal|lever) markings are read\s*$/gm)].map(() => i + 1),
      );

    it.skipIf(!poppler)('tells once how the markings are read, and on which page', () => {
      const pages = readPages(bind(studied([reading(pedals), reading(pedals), reading(pedals)])).pdf);
      const [at, ...more] = headsOf(pages);
      expect(more).toEqual([]);
      expect(pages[0]).toMatch(new RegExp(`${TITLE}\\s+${at}\n`));
      expect(pages[at! - 1]).not.toContain('as this piece begins');
      const [, first] = /^\s*Piece 0\s+(\d+)$/m.exec(pages[0]!)!;
      expect(at).toBeLessThan(Number(first));
    });

    it.skipIf(!poppler)('tells it for each harp, and for pages that are printed otherwise', () => {
      const otherwise = reading(pedals, { marksAt: 'note' });
      const all = studied([reading(pedals), reading(levers), reading(pedals), otherwise, null]);
      expect(headsOf(readPages(bind(all).pdf))).toHaveLength(3);
    });

    it('tells only of the signs that some piece has', () => {
      const moving = smallPart({ upper: 'C4/4 | C#4/4' });
      const moved = reading(planPart(moving, {}), {}, moving);
      const toldOf = (readings: readonly (Reading | null)[]): string =>
        drawFront(
          studied(readings).map((each) => ({ ...each, start: 2 })),
          [],
          lookOn(sheetOn({ widthMm: 210, heightMm: 297 }, 'english')),
        ).sheets.join('');
      const CHANGE = 'A letter with its sign is a change';
      const FEET = 'Where both feet move';
      expect(toldOf([reading(pedals)])).toContain('A diagram shows');
      expect(toldOf([reading(pedals)])).not.toContain(CHANGE);
      expect(toldOf([reading(pedals), moved])).toContain(CHANGE);
      expect(toldOf([reading(pedals), moved])).not.toContain(FEET);
      expect(toldOf([reading(levers)])).not.toContain(CHANGE);
      expect(toldOf([reading(levers, { beatCounts: 'none' })])).not.toContain('grey figures');
      expect(toldOf([reading(levers, { beatCounts: 'every-bar' })])).toContain('grey figures');
    });

    it('does not tell it where no piece has it', () => {
      expect(reading(pedals, { legend: false })).toBeNull();
      const { readings } = drawFront(
        studied([null]).map((each) => ({ ...each, start: 2 })),
        [],
        lookOn(sheetOn({ widthMm: 210, heightMm: 297 }, 'english')),
      );
      expect(readings).toEqual([]);
    });
  });

  it('is refused where it would have too many pages', () => {
    expect(bindClassSet([piece('Long', 'easy', 1, 1_501)], [])).toMatchObject({
      ok: false,
      problem: { code: 'limit-exceeded', what: 'pages' },
    });
  });
});
