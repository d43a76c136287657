import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Annotator, createAnnotator } from '../../../render/annotate.ts';
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

describe('the same score', () => {
  let first: Drawn;
  let worn: Annotator;

  beforeAll(async () => {
    worn = await createAnnotator();
    first = await draw(worn, DEMO);
  });

  it('gives the same bytes after other scores, as SVG and as PDF', async () => {
    await draw(worn, meiScore({ bars: ['c4.4 e4.4 g4.2/c3.1', 'c#4.1/R'] }));
    expect(await draw(worn, DEMO)).toEqual(first);
  });

  it('gives the same bytes from another layout engine that begins anew', async () => {
    expect(await draw(await createAnnotator(), DEMO)).toEqual(first);
  });

  it('has ids on its pages that say where they stand, the roots among them', () => {
    expect(first.pages.map((page) => /^<svg [^>]*id="([^"]*)"/.exec(page)?.[1])).toEqual(
      first.pages.map((_, i) => `page-${i + 1}`),
    );
    for (const page of first.pages) expect(page).not.toMatch(/ isodate=|20\d\d-\d\d-\d\d/);
  });
});
