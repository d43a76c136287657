import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { add, compare, equals } from '../../../engine/music/rational.ts';
import { problemMessage } from '../../../engine/problem.ts';
import { openScore } from '../../../engine/score/open.ts';
import { isThorough } from '../../thorough.ts';

/** Scores by others, which the project does not hold: where they are absent these tests skip. */
const SCORES = fileURLToPath(new URL('../../../../shared/scores', import.meta.url));
const isPresent = existsSync(SCORES);

/** Full scores without a harp take many seconds to parse: read only where the whole corpus is asked for. */
const LARGE_BYTES = 500_000;
const readsAll = isThorough;

const files = isPresent
  ? readdirSync(SCORES, { recursive: true, encoding: 'utf8' }).filter((path) =>
      /\.(?:xml|musicxml|mxl)$/u.test(path),
    )
  : [];

const isLarge = (path: string): boolean =>
  statSync(join(SCORES, path)).size > LARGE_BYTES && path.endsWith('.mxl');

const opened = new Map<string, ReturnType<typeof openScore>>();

/** Reads a part of a file; once for all claims about it. */
const open = (path: string, part?: string): ReturnType<typeof openScore> => {
  const key = JSON.stringify([path, part]);
  const made =
    opened.get(key) ?? openScore(readFileSync(join(SCORES, path)), part === undefined ? {} : { part });
  opened.set(key, made);
  return made;
};

/** Reads a file; without a harp, its first part of two staves. */
const checkFile = (path: string): void => {
  const chosen = open(path);
  const parts = !chosen.ok && chosen.problem.code === 'harp-not-found' ? chosen.problem.parts : [];
  const part = parts.find((each) => each.notes > 0 && each.staves === 2)?.id;
  const result = part === undefined ? chosen : open(path, part);
  if (!result.ok) {
    expect(['harp-not-found', 'no-notes', 'bad-value', 'malformed-xml']).toContain(result.problem.code);
    return;
  }
  const { bars, notes } = result.value;
  for (const [index, bar] of bars.entries()) {
    const next = bars[index + 1];
    if (next !== undefined) expect(equals(next.onset, add(bar.onset, bar.duration))).toBe(true);
  }
  for (const [index, note] of notes.entries()) {
    const next = notes[index + 1];
    if (next !== undefined) expect(compare(note.onset, next.onset)).toBeLessThanOrEqual(0);
    expect(result.value.source.text.startsWith('<note', note.span.start)).toBe(true);
  }
};

/** Notes of the harp as counted by another program for the folder's README. */
const HARP_NOTES: Readonly<
  Record<string, { readonly notes: number; readonly bars: number; readonly parts: string }>
> = {
  "openscore-orchestra/D'un_matin_de_printemps.mxl": { notes: 549, bars: 207, parts: 'P27' },
  'openscore-orchestra/Brahms_Op.45_1.mxl': { notes: 409, bars: 158, parts: 'P12' },
  'mx/freezing.xml': { notes: 962, bars: 144, parts: 'P5 P6' },
  'mx/FreezingSmall.xml': { notes: 70, bars: 12, parts: 'P5 P6' },
  'mx/Bombe.xml': { notes: 78, bars: 4, parts: 'P1' },
  'openscore-lieder/lc6583907.mxl': { notes: 834, bars: 69, parts: 'P2' },
  'openscore-lieder/lc6486038.mxl': { notes: 891, bars: 99, parts: 'P2' },
};

describe.skipIf(!isPresent)(`scores by others${isPresent ? '' : `: skipped, ${SCORES} is absent`}`, () => {
  it.each(Object.entries(HARP_NOTES))('%s: the harp is found with all its notes', (path, expected) => {
    const result = open(path);
    if (!result.ok) throw new Error(problemMessage(result.problem));
    const { bars, harp, notes } = result.value;
    expect({ notes: notes.length, bars: bars.length, parts: harp.partIds.join(' ') }).toEqual(expected);
  });

  it.each(files.filter((path) => !isLarge(path)))('%s is read whole or refused with a reason', checkFile);

  it.skipIf(!readsAll).each(files.filter(isLarge))(
    '%s is read whole or refused with a reason (only with TRINGLE_THOROUGH=1)',
    checkFile,
  );

  it('the settings printed in the orchestral piece are found at bars 175, 180 and 199, the last ahead of need', () => {
    const result = open("openscore-orchestra/D'un_matin_de_printemps.mxl");
    if (!result.ok) throw new Error(problemMessage(result.problem));
    const { bars, markings } = result.value;
    expect(markings.map((each) => [bars[each.bar]!.number, each.ahead])).toEqual([
      ['175', false],
      ['180', false],
      ['199', true],
    ]);
    expect(markings[2]!.positions).toEqual({ D: 1, C: 0, B: -1, E: 0, F: 0, G: -1, A: 0 });
  });

  it('a file with no such note name is refused with the place', () => {
    expect(open('libmusicxml/Error.xml', 'P1')).toMatchObject({
      ok: false,
      problem: { code: 'bad-value', line: 32 },
    });
  });

  it('the reference example of pedals gives its seven positions', () => {
    const result = open('w3c-examples/harp-pedals-element.musicxml', 'P1');
    expect(result.ok && result.value.markings[0]!.text).toBe('D♭ C♯ B♭ E♮ F♭ G♮ A♯');
  });
});
