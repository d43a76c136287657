import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { planPart } from '../../../engine/plan-part.ts';
import { openScore } from '../../../engine/score/open.ts';
import { type Annotator, createAnnotator, type SharedAnnotator } from '../../../render/annotate.ts';
import { withoutOwnMarkings } from '../../../render/source/our-markings.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { meiScore } from '../small-score.ts';

const DEMO = new Uint8Array(
  readFileSync(new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url)),
);

interface Drawn {
  readonly pages: readonly string[];
  readonly pdf: string;
}

const draw = async (annotator: Annotator, bytes: Uint8Array): Promise<Drawn> => {
  const annotated = await annotateBytes(annotator, bytes, {}, 'pdf');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  const { pages, pdf } = annotated.value;
  return { pages, pdf: Buffer.from(pdf!).toString('base64') };
};

/** The pages as they stay, told one by one. */
const tellPages = async (annotator: Annotator, bytes: Uint8Array): Promise<string[]> => {
  const opened = openScore(bytes, {});
  if (!opened.ok) throw new Error(opened.problem.code);
  const score = withoutOwnMarkings(opened.value);
  const pages: string[] = [];
  for await (const { number, svg } of annotator.engravePageByPage(score, planPart(score, {}), undefined)) {
    pages[number - 1] = svg;
  }
  return pages;
};

describe('the same score', () => {
  let first: Drawn;
  let worn: SharedAnnotator;

  beforeAll(async () => {
    worn = await createAnnotator();
    first = await draw(worn, DEMO);
  });

  it('gives the same bytes after other scores, as SVG and as PDF', async () => {
    await draw(worn, meiScore({ bars: ['c4.4 e4.4 g4.2/c3.1', 'c#4.1/R'] }));
    expect(await draw(worn, DEMO)).toEqual(first);
  });

  it('gives the same bytes from another layout engine that begins anew, and where both share the drawing', async () => {
    const other = await createAnnotator();
    const lent = await worn.lend();
    let shared = 0;
    const helped = other.helpedBy({
      offer: (tasks) =>
        tasks.map((task, i) => () => {
          if (i % 2 === 0) return undefined;
          shared += 1;
          return lent(task);
        }),
    });
    expect(await draw(helped, DEMO)).toEqual(first);
    expect(shared).toBeGreaterThan(1);
  });

  it('gives the same pages one by one where another thread draws all that it can', async () => {
    const lent = await worn.lend();
    const other = await createAnnotator();
    const helped = other.helpedBy({ offer: (tasks) => tasks.map((task) => () => lent(task)) });
    const [pages, alone] = [await tellPages(helped, DEMO), await tellPages(worn, DEMO)];
    expect(pages.length).toBe(first.pages.length);
    expect(pages.every((page, i) => page === alone[i])).toBe(true);
  });

  it('has ids on its pages that say where they stand, the roots among them', () => {
    expect(first.pages.map((page) => /^<svg [^>]*id="([^"]*)"/.exec(page)?.[1])).toEqual(
      first.pages.map((_, i) => `page-${i + 1}`),
    );
    for (const page of first.pages) expect(page).not.toMatch(/ isodate=|20\d\d-\d\d-\d\d/);
  });
});
