import { group } from 'd3-array';
import {
  countBars,
  formatBeat,
  type HarpPlan,
  nameBarIn,
  nameEndsIn,
  type Score,
} from '../../../engine/index.ts';
import { drawPlaceNumber } from '../../draw/place-number.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import type { UnplayablePlace } from '../../markings/unplayable-places.ts';
import type { Footnote } from '../../part/texts/long-directions.ts';
import type { Words } from '../../words/worded.ts';
import { wordsOf } from '../../words/words.ts';
import type { PageNotes, PlannedHarp } from '../drawn-score.ts';
import { type PageDrawings, unplayablePlacesOf } from '../page-drawings.ts';
import type { ClosingSection } from './closing-notes.ts';
import { legendWords, leverLegend, pedalLegend, tuningWords } from './legend.ts';

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
  const withWords = (kind: HarpPlan['kind'], section: ClosingSection): ClosingSection => {
    const own = markings(reminders).flatMap(({ part }) => (part.plan.kind === kind ? [part] : []));
    const told = new Set(own.flatMap((part) => legendWords(part, engraving)));
    return { ...section, notes: [...section.notes, ...[...told].map((text) => ({ art: null, text }))] };
  };
  return [
    listFootnotes(score, footnotes, wordsOf(engraving)),
    listPlaces(score, places, engraving),
    ...notes.sections,
    ...(pedals.length > 0 ? [withWords('pedal', pedalLegend(pedals, places, engraving))] : []),
    ...(levers.length > 0
      ? [withWords('lever', leverLegend(levers, pedals.length > 0 ? [] : places, engraving))]
      : []),
    ...(engraving.legend ? [] : listTunings(markings(reminders), engraving)),
  ];
};

/** What of the tuning is to be known, where no legend tells it; a study edition has a sheet of its own for it. */
const listTunings = (
  parts: ReturnType<PageDrawings['markings']>,
  engraving: EngravingOptions,
): readonly ClosingSection[] => {
  if (engraving.edition === 'study') return [];
  const told = new Set(parts.flatMap(({ part }) => tuningWords(part.plan, engraving)));
  return [{ heading: wordsOf(engraving).study.tune, notes: [...told].map((text) => ({ art: null, text })) }];
};

/** The footnotes of the file, each with its bar. */
const listFootnotes = (
  score: Score,
  footnotes: readonly Footnote[],
  { labelled, legend, places }: Words,
): ClosingSection => ({
  heading: legend.footnotes,
  notes: footnotes.map(({ bar, text }) => {
    const name = nameBarIn(score)(bar);
    return { art: null, text: labelled(places.bars(name, name), text) };
  }),
});

/** The key to the numbers of places that are not playable as printed; what is the same of places in a row is told once. */
const listPlaces = (
  score: Score,
  unplayable: readonly UnplayablePlace[],
  engraving: EngravingOptions,
): ClosingSection => ({
  heading: wordsOf(engraving).findings.unplayable,
  notes: joinPlaces(unplayable).map((places) => ({
    art: drawPlaceNumber(places.first.number, places.last.number),
    text: tellPlaces(score, places, engraving),
  })),
});

const tellPlaces = (
  score: Score,
  { first, last, sentences }: JoinedPlaces,
  engraving: EngravingOptions,
): string => wordsOf(engraving).labelled(nameExtent(score, { first, last }, engraving), sentences.join(' '));

/** What of each of several harps is not playable, by its name: the numbers stand in the parts. */
export const listPlacesOfHarps = (
  parts: readonly PlannedHarp[],
  engraving: EngravingOptions,
): ClosingSection => {
  const words = wordsOf(engraving);
  const tell = (part: PlannedHarp): ClosingSection['notes'] =>
    joinPlaces(unplayablePlacesOf(part, engraving)).map((places) => ({
      art: null,
      text: words.labelled(part.score.harp.name, tellPlaces(part.score, places, engraving)),
    }));
  return { heading: words.findings.unplayable, notes: parts.flatMap(tell) };
};

/** Places in a row, and what is told of them all. */
interface JoinedPlaces {
  readonly first: UnplayablePlace;
  readonly last: UnplayablePlace;
  readonly sentences: readonly string[];
}

const joinPlaces = (unplayable: readonly UnplayablePlace[]): readonly JoinedPlaces[] => {
  const joined: JoinedPlaces[] = [];
  for (const [i, place] of unplayable.entries()) {
    const before = unplayable[i - 1];
    const shares = before?.findings.some((finding) => place.findings.includes(finding)) ?? false;
    for (const sentence of place.sentences) {
      const goesOn = joined.findIndex(({ last, sentences }) => last === before && sentences[0] === sentence);
      if (shares && goesOn >= 0) joined[goesOn] = { ...joined[goesOn]!, last: place };
      else joined.push({ first: place, last: place, sentences: [sentence] });
    }
  }
  const alike = group(joined, ({ first, last }) => `${first.number} ${last.number}`);
  return [...alike.values()].map((each) => ({
    ...each[0]!,
    sentences: each.flatMap(({ sentences }) => sentences),
  }));
};

const nameExtent = (
  score: Score,
  { first, last }: Pick<JoinedPlaces, 'first' | 'last'>,
  engraving: EngravingOptions,
): string => {
  const { places } = wordsOf(engraving);
  const [from, until] = nameEndsIn(score)(first.bar, last.bar);
  // The sheets of a study edition tell counts, as they are counted aloud.
  if (first === last && engraving.edition === 'study') {
    const count = formatBeat(countBars(score)[first.bar]!.countAt(first.at));
    return places.extent({ from, until, count, places: 1, notes: 1 });
  }
  return first === last ? places.beatInBar(from, formatBeat(first.beat)) : places.bars(from, until);
};
