import { escapeText, rationalKey, tuningName } from '../../engine/index.ts';
import type { LeverMarking } from './lever-markings.ts';
import { allLeverChanges, leverName } from './lever-words.ts';

/** What a reader of the picture or of the code needs to know of a lever marking, as attributes of its group. */
export const leverAttributes = (marking: LeverMarking, barNumber: string): string => {
  const { kind, bar, beat, at } = marking;
  const strings = marking.kind === 'levers' ? marking.up : allLeverChanges(marking);
  return (
    `data-kind="${kind}" ${kind === 'levers' ? `data-tuning="${tuningName(marking.tuning)}" ` : ''}` +
    `data-strings="${strings.map(leverName).join(' ')}" data-bar="${escapeText(barNumber)}" ` +
    `data-bar-index="${bar}" data-beat="${rationalKey(beat)}" data-onset="${rationalKey(at)}"`
  );
};
