import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findGlissandi } from '../../../engine/glissando/settings.ts';

/** Counts made by two programs apart from this one (shared facts, `ct-families`), by family and root. */
interface Family {
  readonly pcs: readonly number[];
  readonly total_settings: number;
  readonly per_root: Readonly<Record<string, number>>;
}

const FILE = new URL('../../../../shared/counts.json', import.meta.url);
const families: Readonly<Record<string, Family>> = existsSync(FILE)
  ? (JSON.parse(readFileSync(FILE, 'utf8')) as { families: Record<string, Family> }).families
  : {};

const ROOTS = ['C', 'C#/Db', 'D', 'D#/Eb', 'E', 'F', 'F#/Gb', 'G', 'G#/Ab', 'A', 'A#/Bb', 'B'];

describe.skipIf(!existsSync(FILE))(
  'settings by family (skipped where ../shared/counts.json is absent)',
  () => {
    it.each(Object.entries(families))('%s', (_, { pcs, per_root }) => {
      for (const [root, count] of Object.entries(per_root)) {
        const shift = ROOTS.indexOf(root);
        const pitchClasses = new Set(pcs.map((pitchClass) => (pitchClass + shift) % 12));
        expect(findGlissandi([{ pitchClasses }]).exact.length, root).toBe(count);
      }
    });
  },
);
