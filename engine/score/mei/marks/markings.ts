import { type Position, type Setting, settingFrom } from '../../../harp/setting.ts';
import type { Letter } from '../../../music/pitch.ts';
import { compare } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import type { SourceMarking } from '../../model.ts';
import { looksLikePedalWords, quoteWords, readPedalWords } from '../../pedal-words.ts';
import type { Control } from '../draft.ts';
import type { ReadLog } from '../log.ts';
import { wordsOf } from '../text.ts';
import type { MarkPoint, MarkTimes } from './mark-times.ts';

const POSITIONS: ReadonlyMap<string, Position> = new Map([
  ['f', -1],
  ['n', 0],
  ['s', 1],
]);

/** Elements whose words may name pedals, hands or players. */
export const WORDS: ReadonlySet<string> = new Set(['dir', 'stageDir']);

/**
 * Pedal markings that the file holds: `harpPedal`, and words at the harp's staves that name pedals.
 *
 * @param alone whether the harp is the whole score, so that words without a staff are the harp's
 */
export const readMarkings = (
  controls: readonly Control[],
  times: MarkTimes,
  alone: boolean,
  source: string,
  barNumber: (bar: number) => string,
  log: ReadLog,
): readonly SourceMarking[] => {
  const markings = controls.flatMap((control): SourceMarking[] => {
    const { element } = control;
    const isDiagram = element.name === 'harpPedal';
    if (!isDiagram && !WORDS.has(element.name)) return [];
    const start = times.startOf(control);
    if (start === null && isDiagram) log.skip('a harpPedal without a place', barNumber(control.bar));
    if (start === null || !isHarps(control, start, times, alone || isDiagram)) return [];
    const place = { at: start.onset, bar: start.bar, span: element.span };
    if (isDiagram)
      return [{ ...place, form: 'harp-pedals', positions: readPedals(element, log), ahead: false, text: '' }];
    const text = wordsOf(element, source);
    const words = readPedalWords(text);
    if (words !== null) return [{ ...place, form: 'words', ...words, text }];
    if (looksLikePedalWords(text))
      log.skip(`words that seem to name pedals, “${quoteWords(text)}”`, barNumber(control.bar));
    return [];
  });
  return markings.sort((a, b) => compare(a.at, b.at));
};

/** Whether words or a mark are the harp's; `unplaced` ones, which state no staff, if the harp is alone. */
export const isHarps = (control: Control, start: MarkPoint, times: MarkTimes, unplaced: boolean): boolean =>
  times.stavesOf(control, start).length === 0 ? unplaced : times.atHarp(control, start);

/** All seven positions: a letter left out is natural (MEI 5.1, harpPedal). */
const readPedals = (element: XmlElement, log: ReadLog): Setting => {
  const positionOf = (letter: Letter): Position => {
    const text = element.attributes[letter.toLowerCase()]?.trim() ?? 'n';
    const position = POSITIONS.get(text);
    if (position === undefined) log.badValue(`pedal position of ${letter}`, text, element);
    return position ?? 0;
  };
  return settingFrom(positionOf);
};
