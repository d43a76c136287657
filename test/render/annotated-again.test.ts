import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createAnnotator } from '../../render/annotate.ts';
import { annotateBytes } from './annotate-bytes.ts';
import { annotateFile } from './annotate-file.ts';

const demo = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`../../server/demo/lanterns-at-the-lock.${name}`, import.meta.url)));

describe('a file that we annotated before', () => {
  it.each(['musicxml', 'mei'])(
    'prints like the file as it was, its markings never doubled (%s)',
    async (name) => {
      const annotator = await createAnnotator();
      const once = annotateFile(demo(name), { others: 'keep' });
      if (!once.ok) throw new Error(once.problem.code);
      const pagesOf = async (bytes: Uint8Array): Promise<readonly string[]> => {
        const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
        if (!annotated.ok) throw new Error(annotated.problem.code);
        return annotated.value.pages;
      };
      const words = (pages: readonly string[]): string[] =>
        pages.map((page) => page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' '));
      expect(words(await pagesOf(once.value.bytes))).toEqual(words(await pagesOf(demo(name))));
    },
  );
});
