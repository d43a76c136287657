import { describe, expect, it } from 'vitest';
import { planPart } from '../../../engine/plan-part.ts';
import { openScore } from '../../../engine/score/open.ts';
import { drawSet, type SetTune } from '../../../render/pack/set-sheets.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { groupsOf } from '../page-tree.ts';

const BARS = 40;

/** A tune of several lines. */
const tune = (title: string, pitch: string): SetTune => {
  const text = buildHarp(...Array.from({ length: BARS }, () => note(pitch, 4)));
  const opened = openScore(new TextEncoder().encode(text));
  if (!opened.ok) throw new Error(opened.problem.code);
  const score = { ...opened.value, titles: { ...opened.value.titles, title } };
  return { score, plan: planPart(score, { levers: {} }) };
};

const TUNES = [tune('Rowan', 'F4'), tune('Alder', 'G4')];

const TABLE = {
  title: 'A set for the lever harp',
  legend: 'The strings are tuned in E♭ major.',
  heads: ['', 'Title'],
  rows: [
    ['1', 'Rowan'],
    ['2', 'Alder'],
  ],
  below: [],
};

const draw = async (music: Parameters<typeof drawSet>[2]): Promise<readonly string[]> => {
  const drawn = await drawSet(TABLE, music === 'none' ? [] : TUNES, music);
  if (!drawn.ok) throw new Error(drawn.problem.code);
  return drawn.value.pages;
};

const barsOn = (pages: readonly string[]): number =>
  pages.flatMap((page) => groupsOf(page, 'measure')).length;

describe('the sheet of a set', () => {
  it('has no music unless it is wanted', async () => {
    expect(barsOn(await draw('none'))).toBe(0);
  });

  it('has the line with the first bars of each tune under its table, in the order of the set', async () => {
    const pages = await draw('first-bars');
    expect(pages).toHaveLength(1);
    expect(pages[0]!.indexOf('>1. Rowan<')).toBeLessThan(pages[0]!.indexOf('>2. Alder<'));
    expect(barsOn(pages)).toBeGreaterThanOrEqual(8);
    expect(barsOn(pages)).toBeLessThan(2 * BARS);
  });

  it('is followed by the pages of the tunes where they are wanted', async () => {
    const pages = await draw('pages');
    expect(barsOn(pages.slice(0, 1))).toBe(0);
    expect(barsOn(pages)).toBe(2 * BARS);
  });
});
