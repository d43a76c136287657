import type { HarpPlan, Score } from '../../engine/index.ts';
import { drawMarking } from '../draw/draw-marking.ts';
import type { Drawing } from '../draw/drawing.ts';
import { scaleToWidth } from '../draw/scaled.ts';
import { type DrawingPlace, drawingGroup, markingGroup } from '../draw/svg-groups.ts';
import { tellChanges, tellPlace, underWords, type WordsSide } from '../draw/words-under.ts';
import { DEFAULT_ENGRAVING, type EngravingOptions } from '../engraving-options.ts';
import { drawLeverChange, drawLeverStart, drawReminder } from '../levers/draw-levers.ts';
import { leverAttributes } from '../levers/lever-attributes.ts';
import { chooseLeverMarkings, type LeverMarking } from '../levers/lever-markings.ts';
import type { NotesMarking } from '../levers/note-signs.ts';
import { describeLeverMarking } from '../spoken/describe-levers.ts';
import { describeMarking } from '../spoken/describe-marking.ts';
import type { Language } from '../words/language.ts';
import { chooseMarkings, type Marking } from './markings.ts';
import { drawTuningNote, findTuningNote, type TuningNote, tuningLines } from './tuning-note.ts';

/** What is printed for the player of either harp at one place. */
export type PrintedMarking = Marking | TuningNote | LeverMarking;

/** A marking that we draw; the others the layout sets as small notes. */
export type DrawnMarking = Exclude<PrintedMarking, NotesMarking>;

export const isDrawn = (marking: PrintedMarking): marking is DrawnMarking => marking.kind !== 'lever-notes';

/**
 * The markings that tell the plan of either harp to the player, in order of time.
 *
 * @param reminders bars (indices) at whose start a setting of the pedals is printed in any case
 */
export const markingsFor = (
  score: Score,
  harp: HarpPlan,
  options: EngravingOptions = DEFAULT_ENGRAVING,
  reminders: readonly number[] = [],
): readonly PrintedMarking[] =>
  harp.kind === 'pedal'
    ? [...findTuningNote(score, harp.plan), ...chooseMarkings(score, harp.plan, options, reminders)]
    : chooseLeverMarkings(score, harp.plan, harp.profile, options, reminders);

/** @param side where the marking has its moment: words under it keep to that side */
export const drawPrinted = (
  marking: DrawnMarking,
  options: EngravingOptions,
  side: WordsSide = 'centre',
): Drawing => {
  switch (marking.kind) {
    case 'setting':
      return underWords(
        scaleToWidth(drawMarking(marking, options), options),
        tellChanges(marking.inWords, options),
        side,
      );
    case 'change':
      return underWords(
        drawMarking(marking, options),
        [...tellPlace(marking, options), ...tellChanges(marking.inWords, options)],
        side,
      );
    case 'tuning':
      return drawTuningNote(marking, options);
    case 'levers':
      return marking.isReminder ? drawReminder(marking, options) : drawLeverStart(marking, options);
    case 'lever-change':
      return drawLeverChange(marking, options, side);
  }
};

/** What the words about a marking are made of. */
export interface MarkingWords {
  /** As printed. */
  readonly barNumber: string;
  readonly language: Language;
}

/** The marking as a group on the page. */
export const printedGroup = (
  marking: DrawnMarking,
  { barNumber, language }: MarkingWords,
  art: Drawing,
  place: DrawingPlace,
): string => {
  switch (marking.kind) {
    case 'setting':
    case 'change':
      return markingGroup(marking, { barNumber, said: describeMarking(marking, language) }, art, place);
    case 'tuning':
      return drawingGroup(
        `id="${marking.id}" class="tuning-note"`,
        tuningLines(marking, language).join(' '),
        art,
        place,
      );
    case 'levers':
    case 'lever-change': {
      const kind = marking.kind === 'levers' ? 'lever-start' : 'lever-change';
      const attributes = `id="${marking.id}" class="lever-marking ${kind}" ${leverAttributes(marking, barNumber)}`;
      return drawingGroup(attributes, describeLeverMarking(marking, language), art, place);
    }
  }
};
