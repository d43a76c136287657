import { formatBeat, type HarpPlan, type Score } from '../../../engine/index.ts';
import { drawPlaceNumber } from '../../draw/place-number.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { printedBarNumber } from '../../markings/bar-number.ts';
import type { UnplayablePlace } from '../../markings/unplayable-places.ts';
import type { Footnote } from '../../part/texts/long-directions.ts';
import type { PageNotes } from '../drawn-score.ts';
import type { PageDrawings } from '../page-drawings.ts';
import type { ClosingSection } from './closing-notes.ts';
import { leverLegend, pedalLegend } from './legend.ts';

/** What is told under the music: notes of the file, places that are not playable, what was brought, what signs mean. */
export const pageSections = (
  score: Score,
  { markings, places }: PageDrawings,
  notes: PageNotes,
  engraving: EngravingOptions,
  {
    footnotes,
    reminders,
  }: { readonly footnotes: readonly Footnote[]; readonly reminders: readonly number[] },
): readonly ClosingSection[] => {
  const printedFor = (kind: HarpPlan['kind']) =>
    markings(reminders).flatMap(({ markings: printed, part }) => (part.plan.kind === kind ? printed : []));
  const [pedals, levers] = engraving.legend ? [printedFor('pedal'), printedFor('lever')] : [[], []];
  return [
    listFootnotes(score, footnotes),
    listPlaces(places),
    ...notes.sections,
    ...(pedals.length > 0 ? [pedalLegend(pedals, places, engraving)] : []),
    ...(levers.length > 0 ? [leverLegend(levers, engraving)] : []),
  ];
};

/** The footnotes of the file, each with its bar. */
const listFootnotes = (score: Score, footnotes: readonly Footnote[]): ClosingSection => ({
  heading: 'Notes',
  notes: footnotes.map(({ bar, text }) => ({
    art: null,
    text: `Bar ${printedBarNumber(score.bars[bar]!.number)}: ${text}`,
  })),
});

/** The key to the numbers of places that are not playable as printed. */
const listPlaces = (places: readonly UnplayablePlace[]): ClosingSection => ({
  heading: 'Not playable as printed',
  notes: places.map(({ barNumber, beat, number, sentences }) => ({
    art: drawPlaceNumber(number),
    text: `Bar ${printedBarNumber(barNumber)}, beat ${formatBeat(beat)}: ${sentences.join(' ')}`,
  })),
});
