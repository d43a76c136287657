import { beforeAll, describe, expect, it } from 'vitest';
import { planPart } from '../../../engine/plan-part.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { completeEngraving, type EngravingChoice } from '../../../render/engraving-options.ts';
import { type Drawer, drawWith } from '../../../render/layout/drawer/drawer.ts';
import { startEngraver } from '../../../render/layout/drawer/verovio.ts';
import { workOut } from '../../../render/layout/stepwise.ts';
import type { Shown } from '../../../render/pages/drawn-score.ts';
import { engravePages } from '../../../render/pages/engrave-pages.ts';
import type { ReadyPage } from '../../../render/pages/page-finisher.ts';
import { writeLongPart } from '../../bench/long-part.ts';
import { annotator } from '../shared-annotator.ts';

const scoreOf = (musicXml: string): Score => {
  const opened = openScore(new TextEncoder().encode(musicXml), {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** Of some five pages. */
const LONG = scoreOf(writeLongPart(100));

/** The pages as someone has them who replaces those that come again. */
const keepLatest = (told: readonly ReadyPage[]): string[] => {
  const pages: string[] = [];
  for (const { number, svg } of told) pages[number - 1] = svg;
  return pages;
};

describe('pages that are told as they are ready', () => {
  let drawer: Drawer;
  let linesLaidOut = 0;
  let barsMeasured = 0;
  let converted = 0;

  beforeAll(async () => {
    const engraver = await startEngraver();
    drawer = drawWith({
      ...engraver,
      layOutUnbroken: (mei, layout) => {
        barsMeasured += mei.match(/<measure[\s>]/g)?.length ?? 0;
        return engraver.layOutUnbroken(mei, layout);
      },
      convertToMei: (musicXml) => {
        converted += musicXml.match(/<measure[\s>]/g)?.length ?? 0;
        return engraver.convertToMei(musicXml);
      },
      drawPages: (mei, layout, pages, apartVu) => {
        linesLaidOut += pages?.length ?? 0;
        return engraver.drawPages(mei, layout, pages, apartVu);
      },
    });
  });

  it('begin with the first, before the others are laid out or even measured', () => {
    const told: (ReadyPage & { lines: number; bars: number })[] = [];
    const drawing = engravePages(LONG, planPart(LONG, {}), completeEngraving({}), drawer, { early: true });
    let step = drawing.next();
    for (; step.done !== true; step = drawing.next()) {
      told.push({ ...step.value, lines: linesLaidOut, bars: barsMeasured });
    }
    const whole = step.value;
    if (!whole.ok) throw new Error(whole.problem.code);
    const first = told[0]!;
    expect(first.number).toBe(1);
    // By what was measured the page might have held one line more.
    expect(first.lines).toBeLessThan((first.svg.match(/class="system"/g)?.length ?? 0) + 2);
    expect(first.bars).toBeLessThan(LONG.bars.length - 10);
    // The early pages come in order, and the last only at the end, when it is known what stands under it.
    expect(told.map(({ number }) => number)).toEqual(told.map((_, i) => i + 1));
    expect(told).toHaveLength(whole.value.pages.length - 1);
    // No line was laid out twice for it.
    expect(linesLaidOut).toBe(whole.value.pages.join('').match(/class="system"/g)?.length);
  });

  it('begin, of a long part, with what its first bars tell: nothing else is read before', () => {
    const long = scoreOf(writeLongPart(170, 4));
    [linesLaidOut, barsMeasured, converted] = [0, 0, 0];
    const plan = planPart(long, {});
    const drawing = engravePages(long, plan, completeEngraving({}), drawer, { early: true });
    const first = drawing.next();
    expect([converted, barsMeasured].every((bars) => bars > 0 && bars < 90)).toBe(true);
    const whole = workOut(drawing);
    if (first.done === true || !whole.ok) throw new Error('not drawn');
    // What was laid out for the first page is what the whole part has there.
    expect(linesLaidOut).toBe(whole.value.pages.join('').match(/class="system"/g)?.length);
    expect(whole.value.pages[0]).toBe(first.value.svg);
  });

  it('begin with that of a bar that is looked at, and are the same', () => {
    const order = (first: number | null, choice: EngravingChoice): ReadyPage[] => {
      const told: ReadyPage[] = [];
      const drawing = engravePages(LONG, planPart(LONG, {}), completeEngraving(choice), drawer, {
        first,
        early: true,
      });
      for (let step = drawing.next(); step.done !== true; step = drawing.next()) told.push(step.value);
      return told;
    };
    const bar = 70;
    const changed = { fullSettings: [{ at: LONG.bars[bar]!.onset, bar, print: true }] };
    const holding = (pages: readonly ReadyPage[]): ReadyPage =>
      pages.find(({ svg }) => svg.includes(` id="${LONG.bars[bar]!.id}"`))!;
    const inOrder = order(null, changed);
    const page = holding(inOrder);
    expect(page.number).toBeGreaterThan(1);
    const first = order(bar, changed);
    expect(first.map(({ number }) => number)).toEqual([
      page.number,
      ...inOrder.map(({ number }) => number).filter((number) => number !== page.number),
    ]);
    expect(keepLatest(first)).toEqual(keepLatest(inOrder));
  });

  it('are laid out again only where a change touches them, and not converted or measured again', () => {
    const bar = 50;
    const fullSettings = [{ at: LONG.bars[bar]!.onset, bar, print: true }];
    [linesLaidOut, barsMeasured, converted] = [0, 0, 0];
    const changed = completeEngraving({ fullSettings });
    const again = workOut(engravePages(LONG, planPart(LONG, {}), changed, drawer));
    expect([barsMeasured, converted]).toEqual([0, 0]);
    expect(linesLaidOut).toBeGreaterThan(0);
    expect(linesLaidOut).toBeLessThan(4);
    const fresh = workOut(engravePages(LONG, planPart(LONG, {}), changed, drawWith(drawer.engraver)));
    if (!again.ok || !fresh.ok) throw new Error('not drawn');
    expect(again.value.pages).toEqual(fresh.value.pages);
  });

  it('are not laid out at all where the same rooms are left to be written in', () => {
    const draw = (by: Drawer, shown: Shown): readonly string[] => {
      const drawn = workOut(engravePages(LONG, planPart(LONG, {}), completeEngraving(), by, { shown }));
      if (!drawn.ok) throw new Error(drawn.problem.code);
      return drawn.value.pages;
    };
    const told = draw(drawer, 'all');
    linesLaidOut = 0;
    const blank = draw(drawer, 'boxes');
    expect(linesLaidOut).toBe(0);
    expect(blank).not.toEqual(told);
    expect(blank).toEqual(draw(drawWith(drawer.engraver), 'boxes'));
    expect(draw(drawer, 'all')).toEqual(told);
  });

  it.each([
    ['a part of one page', scoreOf(writeLongPart(6)), {}],
    ['a part with settings at the starts of pages', LONG, { settings: { pageStart: true } }],
    ['a study edition', scoreOf(writeLongPart(12)), { edition: 'study' as const }],
    ['a card', scoreOf(writeLongPart(12)), { edition: 'card' as const }],
    ['a part of which the last page is looked at', LONG, {}, 99],
    ['a part without the bar that is looked at', LONG, {}, 100],
  ])('are in the end those that are given at once: %s', async (_, score, choice, first?: number) => {
    const plan = planPart(score, {});
    const told: ReadyPage[] = [];
    const drawing = annotator.engravePageByPage(score, plan, choice, first);
    let step = await drawing.next();
    for (; step.done !== true; step = await drawing.next()) told.push(step.value);
    const [paged, whole] = [step.value, await annotator.engrave(score, plan, choice, 'svg')];
    if (!paged.ok || !whole.ok) throw new Error('not drawn');
    const { letters } = paged.value;
    const pages = keepLatest(told).map((svg) => svg.replace(/<\/svg>\s*$/, (end) => `${letters}\n${end}`));
    expect(pages.map((page) => page.length)).toEqual(whole.value.pages.map((page) => page.length));
    expect(pages).toEqual(whole.value.pages);
    if (first === 99) expect(told[0]!.number).toBe(pages.length);
    expect(paged.value.remarks).toEqual(whole.value.remarks);
  });
});
