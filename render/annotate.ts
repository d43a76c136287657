import { DEFAULT_OPTIONS } from '../engine/plan/options.ts';
import { planPedals } from '../engine/plan/plan.ts';
import { ok, type Result } from '../engine/problem.ts';
import type { Remark, Score } from '../engine/score/model.ts';
import { openScore } from '../engine/score/open.ts';
import type { AnnotateForm, AnnotateOptions, Annotation } from './annotation.ts';
import { drawMarking, markingGroup } from './draw/marking-art.ts';
import { replacePlaceholders } from './draw/page-art.ts';
import { layOutHarp } from './layout/lay-out.ts';
import { boxCorner } from './layout/placeholder.ts';
import { A4_PART, type Engraver, type PageLayout, startEngraver, svgUnitsPerVu } from './layout/verovio.ts';
import { chooseMarkings, type Marking } from './markings.ts';
import { finishPage } from './page-text.ts';
import { renderPdf } from './pdf.ts';

/** Annotates scores one after the other; not reentrant. */
export interface Annotator {
  readonly annotate: (
    bytes: Uint8Array,
    options: AnnotateOptions,
    form: AnnotateForm,
  ) => Promise<Result<Annotation>>;
}

/** Starts an annotator with a layout engine of its own: one a thread. */
export const createAnnotator = async (): Promise<Annotator> => {
  const engraver = await startEngraver();
  return {
    annotate: async (bytes, options, form) => {
      const opened = openScore(bytes, options.part === undefined ? {} : { part: options.part });
      return opened.ok ? annotateScore(opened.value, options, form, engraver, A4_PART) : opened;
    },
  };
};

/** The whole line from a score that was read to its annotated pages. */
const annotateScore = (
  score: Score,
  options: AnnotateOptions,
  form: AnnotateForm,
  engraver: Engraver,
  layout: PageLayout,
): Result<Annotation> => {
  const plan = planPedals(score, { ...DEFAULT_OPTIONS, ...options.plan });
  const described = {
    titles: score.titles,
    part: { ids: score.harp.partIds, name: score.harp.name },
    parts: score.parts,
    bars: score.bars.length,
    barNumbers: score.bars.map((bar) => bar.number),
    plan,
    remarks: score.remarks,
  };
  if (form === 'plan') return ok({ ...described, pages: [], pdf: null });
  const engraved = engravePages(score, chooseMarkings(score, plan), engraver, layout);
  if (!engraved.ok) return engraved;
  const { pages, missing } = engraved.value;
  const meta = { title: score.titles.title || score.harp.name, author: score.titles.composer };
  const pdf = form === 'pdf' ? renderPdf(pages, layout, meta) : null;
  return ok({ ...described, remarks: [...score.remarks, ...missing.map(missingLetterRemark)], pages, pdf });
};

const missingLetterRemark = (letter: string): Remark => ({
  code: 'letter-not-in-font',
  bar: '',
  message: `The character “${letter}” is not in the text font; the viewer's own font is used for it.`,
});

interface EngravedPages {
  readonly pages: readonly string[];
  /** Characters of the score's text that our fonts lack. */
  readonly missing: readonly string[];
}

/** @throws Error where a marking was planned but found no place on the pages: a page without it would mislead. */
const engravePages = (
  score: Score,
  markings: readonly Marking[],
  engraver: Engraver,
  layout: PageLayout,
): Result<EngravedPages> => {
  const arts = new Map(markings.map((marking) => [marking.id, { marking, art: drawMarking(marking) }]));
  const rooms = [...arts.values()].map(({ marking, art }) => ({ marking, box: art.box }));
  const laidOut = layOutHarp(score, rooms, engraver, layout);
  if (!laidOut.ok) return laidOut;
  const unitsPerVu = svgUnitsPerVu(layout);
  const drawn = new Set<string>();
  const missing = new Set<string>();
  const pages = laidOut.value.map((svg) => {
    const replaced = replacePlaceholders(svg, (placeholder) => {
      const { marking, art } = arts.get(placeholder.id)!;
      drawn.add(marking.id);
      const corner = boxCorner(placeholder, art.box, unitsPerVu);
      return markingGroup(marking, score.bars[marking.bar]!.number, art, corner, unitsPerVu);
    });
    const finished = finishPage(replaced.page);
    for (const letter of finished.missing) missing.add(letter);
    return finished.svg;
  });
  const lost = markings.filter((marking) => !drawn.has(marking.id));
  if (lost.length > 0) {
    throw new Error(`markings without a place: ${lost.map((m) => `${m.id} in bar ${m.bar + 1}`).join(', ')}`);
  }
  return ok({ pages, missing: [...missing] });
};
