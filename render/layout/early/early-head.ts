import type { Score } from '../../../engine/index.ts';
import type { Cue } from '../../cues/choose-cues.ts';
import { turnRater } from '../breaks/page-turns.ts';
import { prepareDocument } from '../document/layout-document.ts';
import { isPrepared } from '../document/prepared-part.ts';
import type { Drawer } from '../drawer/drawer.ts';
import type { LayoutRequest } from '../layout-request.ts';
import { measurePart } from '../measure/measure-part.ts';
import { BARS_OF_PIECE } from '../measure/natural-lines.ts';
import { type EarlyPage, layOutFirstPage } from './early-pages.ts';
import { headOf } from './score-head.ts';

/** Notes and rests of some pages: the first of them is then rarely changed by what comes after. */
const ENOUGH_EVENTS = 800;

/** Bars after what is measured, so that what is measured does not end with the music. */
const BARS_AFTER = 8;

/** A head of a score that is not this much longer saves nothing. */
const LEAST_SHARE_LEFT = 2;

/**
 * Lays out the first page of a long part from its first bars alone: nothing else of the part is converted, prepared or
 * measured. Bars and lines are the same texts as in the whole part, so that what is laid out here is found again there.
 *
 * @returns null for a part that is short, or prepared already, or whose first page needs more of it
 */
export const layOutFromHead = (request: LayoutRequest, drawer: Drawer): EarlyPage | null => {
  const { score } = request;
  const measured = barsToMeasure(score);
  const bars = measured + BARS_AFTER;
  // Of joined scores the source is that of one part.
  const isOwn = request.harps.length === 1 && request.cues.score === score;
  if (!isOwn || score.bars.length < LEAST_SHARE_LEFT * bars || isPrepared(request)) return null;
  const head = headRequest(request, bars);
  const document = prepareDocument(head, drawer);
  if (document === null) return null;
  const shop = { request: head, document, drawer, rate: turnRater(head.score) };
  for (const task of measurePart(shop, [])) {
    const measuredTask = task();
    const page = measuredTask === null ? null : layOutFirstPage(shop, measuredTask, score.bars.length);
    if (page !== null) return page;
  }
  return null;
};

/** Whole pieces, as the part is measured in. */
const barsToMeasure = ({ notes, rests }: Score): number => {
  const bars = [notes, rests].map((events) => events[ENOUGH_EVENTS]?.bar ?? Number.POSITIVE_INFINITY);
  return BARS_OF_PIECE * Math.ceil((Math.min(...bars) + 1) / BARS_OF_PIECE);
};

const headRequest = (request: LayoutRequest, bars: number): LayoutRequest => {
  const heads = new Map<Score, Score>();
  const cutDown = (score: Score): Score => {
    const known = heads.get(score) ?? headOf(score, bars).score;
    heads.set(score, known);
    return known;
  };
  const inHead = (cue: Cue): boolean => cue.bar < bars && cue.bars.every((bar) => bar < bars);
  const { leftOut, score } = headOf(request.score, bars);
  const cues = request.cues.cues.filter(inHead).map(({ part, ...cue }) => ({
    ...cue,
    part: { ...part, score: cutDown(part.score) },
  }));
  return {
    ...request,
    score,
    leftOut: [...request.leftOut, ...leftOut],
    cues: { ...request.cues, cues, score },
    spacesFor: (reminders) => request.spacesFor(reminders, bars),
    // It stands on the last page.
    under: () => 0,
  };
};
