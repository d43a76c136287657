import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { completeEngraving } from '../../../render/engraving-options.ts';
import type { LeverLookName } from '../../../render/looks/lever-looks.ts';
import { markingsFor } from '../../../render/markings/printed-markings.ts';
import { annotateSource } from '../../../render/source/annotate-source.ts';
import { withoutOwnMarkings } from '../../../render/source/our-markings.ts';
import { leverPlanFor, type SmallLeverPlan } from '../../lever-plan-builder.ts';
import { meiScore } from '../small-score.ts';

const open = (bytes: Uint8Array): Score => {
  const opened = openScore(bytes, {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const FAIR = new Uint8Array(
  readFileSync(new URL('../../../server/demo/the-ribbon-stall.musicxml', import.meta.url)),
);
const FAIR_PLAN: SmallLeverPlan = { up: 'A3 A4 A5', moves: ['9.4 F#4', '16.4 F4', '18.4 E3 Ab5'] };

const REEDS = meiScore({ bars: ['f4.4 g4.4 r.2/f3.1', 'f#4.1/f3.1'] });
const REEDS_PLAN: SmallLeverPlan = { moves: ['1.3 F#4'] };

const write = (bytes: Uint8Array, plan: SmallLeverPlan, look: LeverLookName = 'names') => {
  const score = withoutOwnMarkings(open(bytes));
  const options = completeEngraving({ leverLook: look }, 'lever');
  const done = annotateSource(score, markingsFor(score, leverPlanFor(score, plan), options), {
    others: 'keep',
    placement: options.placement,
  });
  if (!done.ok) throw new Error(done.problem.code);
  return done.value;
};

const PATTERNS = {
  musicxml: /\s*<direction [^>]*id="tringle-.*?<\/direction>/gs,
  mei: /\s*<dir [^>]*id="tringle-.*?<\/dir>/gs,
};

describe.each([
  ['MusicXML', FAIR, FAIR_PLAN, PATTERNS.musicxml],
  ['MEI', REEDS, REEDS_PLAN, PATTERNS.mei],
] as const)('levers in %s', (_, bytes, plan, pattern) => {
  it('are insertions alone: without them the file is what it was', () => {
    const { text } = write(bytes, plan);
    expect(text.replace(pattern, '')).toBe(open(bytes).source.text);
  });

  it('take the place of those written before, and are written alike', () => {
    const once = write(bytes, plan);
    expect(write(once.bytes, plan).text).toBe(once.text);
    expect(write(once.bytes, {}).text.match(pattern)).toHaveLength(1);
  });

  it('are told in words, whatever the look on the page', () => {
    expect(write(bytes, plan, 'notes').text).toBe(write(bytes, plan).text);
  });
});

describe('what a file tells of levers', () => {
  it('is the tuning and the levers before the first note, and each change by letter, accidental and octave', () => {
    const words = [...write(FAIR, FAIR_PLAN).text.matchAll(PATTERNS.musicxml)].map(
      ([xml]) => /<words [^>]*>(.*?)<\/words>/s.exec(xml)![1],
    );
    expect(words).toEqual(['Tuning E♭ major&#10;Levers up: A♮3, A♮4, A♮5', 'F♯4', 'F♮4', 'E♮3 A♭5']);
  });

  it('stands between the staves: above the lower one', () => {
    expect(write(FAIR, FAIR_PLAN).text).toMatch(
      /<direction placement="above" id="tringle-[^>]*><direction-type><words [^>]*>F♯4<\/words><\/direction-type><staff>2<\/staff>/,
    );
    expect(write(REEDS, REEDS_PLAN).text).toMatch(
      /<dir [^>]*staff="2" place="above"[^>]*><rend [^>]*>F♯4<\/rend><\/dir>/,
    );
  });

  it('never uses the signs of pedals', () => {
    expect(write(FAIR, FAIR_PLAN).text).not.toContain('harp-pedals');
    expect(write(REEDS, REEDS_PLAN).text).not.toContain('harpPedal');
  });
});

const SCHEMAS = fileURLToPath(new URL('../../../../shared/schema/', import.meta.url));
const runs = (program: string): boolean => spawnSync(program, ['--version']).error === undefined;
const canValidate = existsSync(SCHEMAS) && runs('xmllint') && runs('jing');

describe.skipIf(!canValidate)(
  'the schema (skipped where xmllint, jing or ../shared/schema is absent)',
  () => {
    const validate = (text: string, program: string, args: readonly string[]): string => {
      const folder = mkdtempSync(join(tmpdir(), 'tringle-levers-'));
      try {
        const path = join(folder, 'score.xml');
        writeFileSync(path, text);
        const env = { ...process.env, XML_CATALOG_FILES: join(SCHEMAS, 'musicxml/catalog.xml') };
        const { status, stdout, stderr } = spawnSync(program, [...args, path], { env, encoding: 'utf8' });
        return status === 0 ? '' : `${stdout}${stderr}`;
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    };

    it('accepts MusicXML with lever markings', () => {
      const args = ['--nonet', '--noout', '--schema', join(SCHEMAS, 'musicxml/musicxml.xsd')];
      expect(validate(write(FAIR, FAIR_PLAN).text, 'xmllint', args)).toBe('');
    });

    it('has nothing more against MEI with lever markings than against the file as it was', () => {
      const errors = (text: string) =>
        validate(text, 'jing', [join(SCHEMAS, 'mei/5.1/mei-all.rng')])
          .split('\n')
          .filter((line) => line.includes('error')).length;
      expect(errors(write(REEDS, REEDS_PLAN).text)).toBe(errors(open(REEDS).source.text));
    });
  },
);
