import { type Position, type Setting, settingFrom } from '../../../harp/setting.ts';
import type { Letter } from '../../../music/pitch.ts';
import { compare } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import type { LeverMarking, SourceMarking, UnreadWords } from '../../model/markings.ts';
import type { Score } from '../../model/score.ts';
import { readLeverLines } from '../../words/lever-lines.ts';
import { looksLikeLeverWords, readLeverWords, tellsOfLevers } from '../../words/lever-words.ts';
import { type MarkingsRead, readSplitSettings } from '../../words/pedal-lines.ts';
import { looksLikePedalWords, quoteWords, readPedalWords, usualNaming } from '../../words/pedal-words.ts';
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
  log: ReadLog,
): MarkingsRead & Pick<Score, 'leverWords'> => {
  const found = controls.flatMap((control): Found[] => {
    const { element } = control;
    const isDiagram = element.name === 'harpPedal';
    if (!isDiagram && !WORDS.has(element.name)) return [];
    const start = times.startOf(control);
    if (start === null && isDiagram) log.skip('a harpPedal without a place', control.bar);
    if (start === null || !isHarps(control, start, times, alone || isDiagram)) return [];
    const text = isDiagram ? '' : wordsOf(element, source);
    return [{ control, isDiagram, place: { at: start.onset, bar: start.bar, span: element.span, text } }];
  });
  const usual = usualNaming(found.map(({ place }) => place.text));
  const markings: SourceMarking[] = [];
  const unreadWords: UnreadWords[] = [];
  for (const { control, isDiagram, place } of found) {
    const words = isDiagram ? null : readPedalWords(place.text, usual);
    if (isDiagram)
      markings.push({
        ...place,
        form: 'harp-pedals',
        positions: readPedals(control.element, log),
        ahead: false,
      });
    else if (words !== null) markings.push({ ...place, form: 'words', ...words });
    else if (looksLikePedalWords(place.text) && !tellsOfLevers(place.text, readLeverWords(place.text, usual)))
      unreadWords.push(place);
  }
  const inOrder = <T extends UnreadWords>(each: T[]): T[] => each.sort((a, b) => compare(a.at, b.at));
  const read = readSplitSettings({ markings: inOrder(markings), unreadWords: inOrder(unreadWords) }, usual);
  for (const { bar, text } of read.unreadWords)
    log.skip(`words that seem to name pedals, “${quoteWords(text)}”`, bar);
  const leverWords = found.flatMap(({ isDiagram, place }): LeverMarking[] => {
    if (isDiagram) return [];
    const says = readLeverWords(place.text, usual);
    return says !== null || looksLikeLeverWords(place.text) ? [{ ...place, form: 'words', says }] : [];
  });
  return { ...read, leverWords: readLeverLines(inOrder(leverWords), usual) };
};

/** Words or a diagram at the harp's staves, and where they stand. */
interface Found {
  readonly control: Control;
  readonly isDiagram: boolean;
  readonly place: UnreadWords;
}

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
