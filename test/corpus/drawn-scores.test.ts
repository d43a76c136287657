import { beforeAll, describe, expect, it } from 'vitest';
import type { HarpPlan } from '../../engine/harp-plan.ts';
import type { Bar } from '../../engine/score/model/bar.ts';
import { playMarkings } from '../checker/play-markings.ts';
import { readPrintedMarkings } from '../checker/printed-markings.ts';
import { hasChromium } from '../chromium.ts';
import { changesAgainstNotes } from '../render/changes-against-notes.ts';
import { readHeads } from '../render/heads-on-lines.ts';
import { CASES, type Case, DEMO_CASES, drawn, REAL_CASES } from './drawn-cases.ts';
import { hasScores } from './harp-scores.ts';
import { type MeasuredPage, measurePages } from './measured-pages.ts';

const play = async (each: Case) => {
  const { annotation, score } = await drawn(each);
  const markings = readPrintedMarkings(annotation.pages);
  return { annotation, markings, performance: playMarkings(score, markings) };
};

/** Notes that the plan itself says cannot be played as printed. */
const notesGivenUp = ({ plan }: HarpPlan): Set<string> =>
  new Set(plan.findings.filter((finding) => finding.severity === 'stop').flatMap((finding) => finding.notes));

const expectPlayable = ({ annotation, performance, markings }: Awaited<ReturnType<typeof play>>): void => {
  const givenUp = notesGivenUp(annotation.plan);
  expect(performance.notesPlayed).toBeGreaterThan(0);
  expect(performance.missingNotes.filter(({ note }) => !givenUp.has(note))).toEqual([]);
  const busy = annotation.plan.plan.findings.filter((finding) => finding.code === 'foot-too-busy');
  if (busy.length === 0) expect(performance.hurries).toEqual([]);
  expect(markings[0]).toMatchObject({ kind: 'setting', barIndex: 0, beat: 1 });
  expect(annotation.pdf!.length).toBeGreaterThan(1000);
};

describe.each(DEMO_CASES)('the demo as $file', (each) => {
  it('is served by its printed markings, every note', async () => {
    const played = await play(each);
    expectPlayable(played);
    expect(played.performance.missingNotes).toEqual([]);
    expect(played.performance.hurries).toEqual([]);
  });
});

describe.skipIf(!hasScores)('real scores (skipped where ../shared/scores is absent)', () => {
  it.each(REAL_CASES)(
    '$file is served by its printed markings, but for what the findings name',
    async (each) => expectPlayable(await play(each)),
    60_000,
  );
});

/** Bars that last longer in their file than they may are laid out as they come: the places of their notes contradict. */
const isOverfull = ({ duration, meter }: Bar): boolean =>
  duration.num / duration.den > (4 * meter.beats) / meter.beatUnit;

describe('a player who reads each head by the clef before it reads the notes of the file', () => {
  it.each(CASES)('$file', async (each) => {
    const { annotation, score } = await drawn(each);
    const heads = readHeads(score, annotation.pages);
    const misread = heads.filter(
      ({ note, letter }) => note.pitch.letter !== letter && !isOverfull(score.bars[note.bar]!),
    );
    expect(heads.length).toBeGreaterThan(score.notes.length / 2);
    expect(misread).toEqual([]);
  });

  it('and other notes where a clef is another', async () => {
    const { annotation, score } = await drawn(DEMO_CASES[0]!);
    const [first] = annotation.pages;
    const misread = readHeads(score, [first!.replace('#E050-1', '#E062-1')]).filter(
      ({ note, letter }) => note.pitch.letter !== letter,
    );
    expect(misread.length).toBeGreaterThan(0);
  });
});

const measured = new Map<string, readonly MeasuredPage[]>();
/** A page on which a marking was moved onto the music on purpose. */
let spoilt: MeasuredPage | undefined;

const spoil = (page: string): string =>
  page.replace(
    /(class="pedal-marking[^>]*translate\(\d+(?:\.\d+)? )(\d+)/,
    (_, head: string, y: string) => `${head}${Number(y) - 800}`,
  );

const sum = (pages: readonly MeasuredPage[], of: (page: MeasuredPage) => number): number =>
  pages.reduce((total, page) => total + of(page), 0);

describe.skipIf(!hasChromium)(
  'markings touch nothing on the page, as Chromium draws it, and no change starts right of its note (skipped without Chromium)',
  () => {
    beforeAll(async () => {
      const annotations: (readonly [string, readonly string[]])[] = [];
      for (const each of CASES) annotations.push([each.file, (await drawn(each)).annotation.pages]);
      const svgs = annotations.flatMap(([, pages]) => pages);
      // One browser for all pages: starting it is most of the work.
      const pages = await measurePages([...svgs, spoil(svgs[0]!)]);
      spoilt = pages.at(-1);
      let from = 0;
      for (const [file, of] of annotations) {
        measured.set(file, pages.slice(from, from + of.length));
        from += of.length;
      }
    }, 300_000);

    it('but one that is moved onto the music does, and is found', () => {
      expect(spoilt!.collisions.map(({ marking }) => marking)).toContain('marking-1');
    });

    it.each(CASES)('$file', async (each) => {
      const { file } = each;
      const { annotation, planned, score } = await drawn(each);
      const pages = measured.get(file)!;
      const markings = sum(pages, (page) => page.markings);
      const flags = sum(pages, (page) => page.flags);
      const overlaps = pages.flatMap((page) => page.collisions);
      console.info(
        `${file}: ${pages.length} pages, ${markings} markings, ${flags} numbered places, ${overlaps.length} overlaps`,
      );
      expect(markings).toBe(planned);
      expect(flags).toBe(annotation.unplayablePlaces.length);
      expect(sum(pages, (page) => page.offPaper)).toBe(0);
      expect(overlaps, JSON.stringify(overlaps)).toEqual([]);
      const compared = changesAgainstNotes(score, annotation.pages);
      expect(compared.filter(({ start, noteX }) => start > noteX)).toEqual([]);
      expect(annotation.remarks.filter(({ code }) => code === 'page-crowded')).toEqual([]);
    });
  },
);
