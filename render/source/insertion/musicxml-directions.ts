import { LETTERS, type Score, type Setting } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import type { PrintedMarking } from '../../markings/printed-markings.ts';
import { WITH_NOTE } from './change-words.ts';
import { escapeForEncoding, insertBefore, prefixOf, withPrefix } from './insertion.ts';
import { type MarkContent, type MarkSide, type MarkStyle, markContentOf, sideOf } from './mark-content.ts';
import { type DirectionPlace, findDirectionPlaces } from './musicxml-places.ts';

/**
 * Insertions that write markings into MusicXML: a full setting as `harp-pedals` with its seven pedals in the order
 * that the standard recommends (MusicXML 4.0, `harp-pedals`), a change as words, the right foot's line above the left's;
 * what is told of levers as words.
 */
export const directionEdits = (
  score: Score,
  markings: readonly PrintedMarking[],
  { side, settings }: MarkStyle,
  idOf: (markingId: string) => string,
): Edit[] => {
  const { text, root, encoding } = score.source;
  const places = findDirectionPlaces(score, markings);
  const prefix = prefixOf(text, root);
  return markings.map((marking) => {
    const place = places.get(marking)!;
    const xml = directionElement(
      markContentOf(marking, settings),
      idOf(marking.id),
      place,
      sideOf(marking, side),
    );
    return insertBefore(text, place.before, escapeForEncoding(encoding, withPrefix(prefix, xml)));
  });
};

const directionElement = (
  content: MarkContent,
  id: string,
  { offset, staff }: DirectionPlace,
  side: MarkSide,
): string => {
  // A part of one staff does not name it.
  const named = staff !== null && side.staff === 'highest' ? 1 : staff;
  return [
    `<direction placement="${side.place}" id="${id}">`,
    ...(content.kind === 'setting' ? settingTypes(content, side) : [typeOf(words(content.lines, side))]),
    offset === 0 ? '' : `<offset>${offset}</offset>`,
    named === null ? '' : `<staff>${named}</staff>`,
    '</direction>',
  ].join('');
};

const typeOf = (content: string): string => `<direction-type>${content}</direction-type>`;

const settingTypes = (
  { setting, words: told, time, withNote }: MarkContent & { readonly kind: 'setting' },
  side: MarkSide,
): string[] => [
  ...(time === null ? [] : [typeOf(words([time], side, WORDS_UNDER_DIAGRAM))]),
  ...(withNote ? [typeOf(words([WITH_NOTE], side))] : []),
  typeOf(harpPedals(setting, side)),
  ...(told === null ? [] : [typeOf(words([told], side, WORDS_UNDER_DIAGRAM))]),
];

/**
 * Where the markings stand by default, in tenths from the staff's top line (MusicXML 4.0, `default-y`): some two spaces clear
 * of the staff, so that other programs do not set them on its notes.
 */
const DEFAULT_Y = { above: 30, below: -75 } as const;

/** Words that repeat a diagram stand under it. */
const WORDS_UNDER_DIAGRAM = -35;

const words = (lines: readonly string[], { place }: MarkSide, shift = 0): string =>
  `<words default-y="${DEFAULT_Y[place] + shift}" font-weight="bold">${lines.join('&#10;')}</words>`;

const harpPedals = (setting: Setting, { place }: MarkSide): string => {
  const tunings = LETTERS.map(
    (letter) =>
      `<pedal-tuning><pedal-step>${letter}</pedal-step><pedal-alter>${setting[letter]}</pedal-alter></pedal-tuning>`,
  );
  return `<harp-pedals default-y="${DEFAULT_Y[place]}">${tunings.join('')}</harp-pedals>`;
};
