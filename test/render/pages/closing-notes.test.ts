import { describe, expect, it } from 'vitest';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { planPart } from '../../../engine/plan-part.ts';
import { openScore } from '../../../engine/score/open.ts';
import type { Annotation } from '../../../render/annotation.ts';
import { completeEngraving, type EngravingChoice } from '../../../render/engraving-options.ts';
import { pageLayoutOf, SVG_UNITS_PER_MM } from '../../../render/layout/breaks/page-layout.ts';
import { addClosingNotes } from '../../../render/pages/words/closing-notes.ts';
import { legendWords } from '../../../render/pages/words/legend.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';
import { twoHarps } from '../../two-harps.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf, treeOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore } from '../small-score.ts';

const annotate = async (bars: readonly string[], engraving: EngravingChoice = {}): Promise<Annotation> => {
  const annotated = await annotateBytes(annotator, meiScore({ bars }), { engraving }, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value;
};

/** The words under the music, without the signs among them. */
const closingWords = (page: string): string =>
  /<svg class="closing-notes"[\s\S]*?<\/svg>/
    .exec(page)?.[0]
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim() ?? '';

const CLASH = 'c4+c#5.1/R';

describe('the key to the numbered places', () => {
  it('says under the last line of music what each number means', async () => {
    const { pages } = await annotate(['d4.1/R', CLASH]);
    expect(pages).toHaveLength(1);
    expect(closingWords(pages[0]!)).toMatch(/^Not playable as printed Bar 2, beat 1: .*at the same time/);
  });

  it('never stands alone on a page where the last line of music has room beside it', async () => {
    for (const heightMm of [120, 124, 128, 132, 136, 140, 144, 148, 152, 156]) {
      const { pages } = await annotate([CLASH, ...Array.from({ length: 11 }, () => 'd4.1/R')], {
        paper: { widthMm: 100, heightMm },
      });
      const last = pages.at(-1)!;
      expect(closingWords(last)).toMatch(/^Not playable/);
      expect(groupsOf(last, 'measure').length).toBeGreaterThan(0);
    }
  });

  it('goes to the next page as a whole where it does not fit, and a longer one ends there with some of its rows', () => {
    const layout = pageLayoutOf(completeEngraving({ paper: { widthMm: 150, heightMm: 120 } }, 'pedal'));
    const notesByPage = (count: number, freeMm: number): number[] => {
      const notes = Array.from({ length: count }, (_, i) => ({ art: null, text: `Bar ${i}` }));
      const page = { svg: '<svg></svg>', characters: new Map(), missing: [] };
      return addClosingNotes([page], [{ heading: 'Places', notes }], layout, {
        free: (layout.heightMm - layout.marginMm - freeMm) * SVG_UNITS_PER_MM,
        language: 'english',
      }).map(({ svg }) => svg.match(/Bar/g)?.length ?? 0);
    };
    expect(notesByPage(3, 40)).toEqual([3]);
    expect(notesByPage(12, 40)).toEqual([0, 12]);
    for (let count = 1; count < 80; count += 1) {
      const pages = notesByPage(count, 40);
      expect(pages.reduce((sum, each) => sum + each, 0)).toBe(count);
      expect(pages.at(-1)!).toBeGreaterThanOrEqual(Math.min(count, 4));
    }
  });

  it('goes on further pages where there are many', async () => {
    const { pages, unplayablePlaces } = await annotate(
      Array.from({ length: 70 }, () => [CLASH, ...Array.from({ length: 4 }, () => 'd4.1/R')]).flat(),
      { paper: { widthMm: 150, heightMm: 120 } },
    );
    const words = pages.map(closingWords);
    const told = words.join(' ').match(/Bar \d+, beat/g);
    expect(unplayablePlaces).toHaveLength(70);
    expect(told).toHaveLength(70);
    const withoutMusic = pages.filter((page) => groupsOf(page, 'measure').length === 0);
    expect(withoutMusic.length).toBeGreaterThan(1);
    for (const page of withoutMusic)
      expect(treeOf(page).attributes).toMatchObject({ width: '150mm', height: '120mm' });
  });

  it('tells of places in a row at once where the same is wrong in all of them', async () => {
    const { pages, unplayablePlaces } = await annotate([CLASH, CLASH, 'd4.1/R', CLASH]);
    expect(unplayablePlaces).toHaveLength(3);
    expect(closingWords(pages.at(-1)!)).toMatch(/^Not playable as printed Bars 1–4: .*in 3 places\.$/);
  });

  it('tells of a place only what is its own, where a passage goes on to it', async () => {
    const two = 'c4+c#5+d4+d#4.1/R';
    const { pages } = await annotate([CLASH, CLASH, two]);
    const words = closingWords(pages.at(-1)!);
    expect(words.match(/in \d places/g)).toHaveLength(1);
  });

  it('in a score of several harps names the harp of each place', async () => {
    const file = twoHarps(['C4 C4 C4 C4 / R'], ['F4 F4 F4 F4 / F#4 F4 F4 F4']);
    const parts = ['P2', 'P3'].map((part) => {
      const opened = openScore(file, { part });
      if (!opened.ok) throw new Error(opened.problem.code);
      return { score: opened.value, plan: planPart(opened.value, {}), choice: {} };
    });
    const drawn = await annotator.engraveTogether(parts, 'svg');
    const pages = drawn.ok ? drawn.value.pages : [];
    expect(pages.map(closingWords)).toEqual([
      expect.stringMatching(/^Not playable as printed Harp II: Bar 1/),
    ]);
  });

  it('is left out with the numbers, and where everything can be played', async () => {
    const unnumbered = await annotate([CLASH], { numberUnplayable: false });
    const playable = await annotate(['c4.1/R']);
    for (const { pages } of [unnumbered, playable]) expect(pages.map(closingWords)).toEqual(['']);
  });
});

describe('the legend', () => {
  it('explains the signs that stand in the part, and only those', async () => {
    const { pages } = await annotate(['c4.1/R', 'c#4.1/R'], { legend: true });
    const words = closingWords(pages[0]!);
    expect(words).toMatch(/A change ends before the note that needs it/);
    expect(words).toMatch(/With the wedge/);
    expect(words).not.toMatch(/time:|Ringed|not playable/);
  });

  it('is in the language that is chosen, with its names of the pedals', async () => {
    const { pages } = await annotate(['c4.1/R', 'c#4.1/R'], { legend: true, language: 'german' });
    const words = closingWords(pages[0]!);
    expect(words).toMatch(/linker Fuß D C H, rechter Fuß E F G A/);
    expect(words).toMatch(/Mit dem Keil/);
    expect(words).not.toMatch(/foot|the note/);
  });

  it('cautions where strings are tuned above their usual pitch, and not where they are tuned below it', () => {
    const score = smallPart({ upper: 'C4/4' });
    const told = (fifths: number): string => {
      const plan = leverPlanFor(score, { tuning: tuneToKey(fifths) });
      return legendWords({ score, plan }, completeEngraving({}, 'lever')).join(' ');
    };
    expect(told(-1)).toMatch(/All A♭ strings up to A.*ask first/);
    expect(told(-3)).toBe('');
    expect(told(-5)).toBe('');
  });

  it('says so where changes stand at the notes', async () => {
    const { pages } = await annotate(['c4.1/R', 'c#4.1/R'], { legend: true, marksAt: 'note' });
    const words = closingWords(pages[0]!);
    expect(words).toMatch(/A change stands at the note that needs it/);
    expect(words).not.toMatch(/wedge/);
  });
});

describe('the letters of a marking', () => {
  it('are text that is not seen, in the naming that is printed', async () => {
    const { pages } = await annotate(['c4.1/R', 'c#4.1/R'], { naming: 'german' });
    const letters = groupsOf(pages[0]!, 'pedal-marking').map(
      ({ children }) => children.find((each) => each.attributes.class === 'letters')!,
    );
    expect(letters.map(({ text }) => text)).toEqual(['D C H | E F G A', 'Cis']);
    for (const { attributes } of letters) expect(attributes).toMatchObject({ fill: 'none', stroke: 'none' });
  });
});
