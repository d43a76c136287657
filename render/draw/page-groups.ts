import { FEET, formatChange } from '../../engine/harp/setting.ts';
import { rationalKey } from '../../engine/music/rational.ts';
import { escapeText } from '../edit.ts';
import type { BoxSize } from '../layout/placeholder.ts';
import type { PlaceFlag } from '../markings/flags.ts';
import { describeMarking, type Marking } from '../markings/markings.ts';
import { type Art, roundUnits } from './art.ts';

/** Where a drawing goes: the top left corner of its box in SVG units, and the size of a vu in them. */
export interface ArtPlace {
  readonly x: number;
  readonly y: number;
  readonly unitsPerVu: number;
  /** The size of a white ground that hides what runs behind the drawing; null for none. */
  readonly ground: BoxSize | null;
}

/** The marking as a group on the page, with what a reader of the picture or of the code needs to know about it. */
export const markingGroup = (marking: Marking, barNumber: string, art: Art, place: ArtPlace): string => {
  const pedals =
    marking.kind === 'setting'
      ? [...FEET.left, ...FEET.right].map((letter) => formatChange(letter, marking.setting[letter]))
      : [...marking.left, ...marking.right].map(({ letter, position }) => formatChange(letter, position));
  const attributes =
    `id="${marking.id}" class="pedal-marking pedal-${marking.kind}" data-kind="${marking.kind}" ` +
    `data-pedals="${pedals.join(' ')}" data-bar="${escapeText(barNumber)}" data-bar-index="${marking.bar}" ` +
    `data-beat="${rationalKey(marking.beat)}" data-onset="${rationalKey(marking.at)}"`;
  return artGroup(attributes, describeMarking(marking), art, place);
};

/** The number of an impossible place as a group on the page. */
export const flagGroup = (flag: PlaceFlag, art: Art, place: ArtPlace): string => {
  const attributes =
    `id="${flag.id}" class="place-flag" data-number="${flag.number}" data-bar="${escapeText(flag.barNumber)}" ` +
    `data-bar-index="${flag.bar}" data-beat="${rationalKey(flag.beat)}" data-findings="${flag.findings.join(' ')}"`;
  return artGroup(attributes, `Place ${flag.number}: ${flag.sentences.join(' ')}`, art, place);
};

export const artGroup = (
  attributes: string,
  title: string,
  art: Art,
  { x, y, unitsPerVu, ground }: ArtPlace,
): string =>
  `<g ${attributes} role="img" ` +
  `transform="translate(${roundUnits(x)} ${roundUnits(y)}) scale(${roundUnits(unitsPerVu)})">` +
  `<title>${escapeText(title)}</title>${groundRect(ground)}${art.body}</g>`;

const groundRect = (size: BoxSize | null): string =>
  size === null
    ? ''
    : `<rect width="${roundUnits(size.widthVu)}" height="${roundUnits(size.heightVu)}" fill="#fff"/>`;
