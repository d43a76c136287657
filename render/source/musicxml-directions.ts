import { LETTERS, type Score, type Setting } from '../../engine/index.ts';
import type { Edit } from '../edit.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';
import { escapeForEncoding, insertBefore, prefixOf } from './insertion.ts';
import { type MarkSide, markContentOf } from './mark-content.ts';
import { type DirectionPlace, findDirectionPlaces } from './musicxml-places.ts';

/**
 * Insertions that write markings into MusicXML: a full setting as `harp-pedals` with its seven pedals in the order
 * that the standard recommends (MusicXML 4.0, `harp-pedals`), a change as words, the right foot's line above the left's;
 * what is told of levers as words.
 */
export const directionEdits = (
  score: Score,
  markings: readonly PrintedMarking[],
  side: MarkSide,
  idOf: (markingId: string) => string,
): Edit[] => {
  const { text, root, encoding } = score.source;
  const places = findDirectionPlaces(score, markings);
  const prefix = prefixOf(text, root);
  return markings.map((marking) => {
    const place = places.get(marking)!;
    const xml = directionElement(marking, idOf(marking.id), place, side);
    const prefixed = prefix === '' ? xml : xml.replace(/<(\/?)(?=[a-z])/g, `<$1${prefix}`);
    return insertBefore(text, place.before, escapeForEncoding(encoding, prefixed));
  });
};

const directionElement = (
  marking: PrintedMarking,
  id: string,
  { offset, staff }: DirectionPlace,
  side: MarkSide,
): string => {
  const content = markContentOf(marking);
  // A part of one staff does not name it.
  const named = staff !== null && side.staff === 'highest' ? 1 : staff;
  return [
    `<direction placement="${side.place}" id="${id}"><direction-type>`,
    content.kind === 'setting'
      ? `${content.words === '' ? '' : `<words>${content.words}</words></direction-type><direction-type>`}${harpPedals(content.setting)}`
      : `<words>${content.lines.join('&#10;')}</words>`,
    '</direction-type>',
    offset === 0 ? '' : `<offset>${offset}</offset>`,
    named === null ? '' : `<staff>${named}</staff>`,
    '</direction>',
  ].join('');
};

const harpPedals = (setting: Setting): string => {
  const tunings = LETTERS.map(
    (letter) =>
      `<pedal-tuning><pedal-step>${letter}</pedal-step><pedal-alter>${setting[letter]}</pedal-alter></pedal-tuning>`,
  );
  return `<harp-pedals>${tunings.join('')}</harp-pedals>`;
};
