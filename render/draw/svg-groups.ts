import { escapeText, FEET, formatChange, rationalKey } from '../../engine/index.ts';
import type { BoxSize } from '../layout/spaces/placeholder.ts';
import { allChanges, type Marking } from '../markings/markings.ts';
import type { UnplayablePlace } from '../markings/unplayable-places.ts';
import { MUSIC_FAMILY, TEXT_FAMILIES } from '../text/fonts.ts';
import type { Language } from '../words/language.ts';
import { wordsOf } from '../words/words.ts';
import { type Drawing, PADDING_VU, roundUnits } from './drawing.ts';

/** Where a drawing goes: the top left corner of its box in SVG units, and the size of a vu in them. */
export interface DrawingPlace {
  readonly x: number;
  readonly y: number;
  readonly unitsPerVu: number;
  /** The size of a white ground that hides what runs behind the drawing; null for none. */
  readonly ground: BoxSize | null;
  /** How much lower than in the drawing its words stand, in vu. */
  readonly wordsDownVu: number;
  /** How much farther to the right. */
  readonly wordsAsideVu: number;
}

/** The marking as a group on the page, with what a reader of the picture (`said`) or of the code needs to know about it. */
export const markingGroup = (
  marking: Marking,
  { barNumber, said }: { readonly barNumber: string; readonly said: string },
  art: Drawing,
  place: DrawingPlace,
): string => {
  const pedals =
    marking.kind === 'setting'
      ? [...FEET.left, ...FEET.right].map((letter) => formatChange(letter, marking.setting[letter]))
      : allChanges(marking).map(({ letter, position }) => formatChange(letter, position));
  const attributes =
    `id="${marking.id}" class="pedal-marking pedal-${marking.kind}" data-kind="${marking.kind}" ` +
    `data-pedals="${pedals.join(' ')}" data-bar="${escapeText(barNumber)}" data-bar-index="${marking.bar}" ` +
    `data-beat="${rationalKey(marking.beat)}" data-onset="${rationalKey(marking.at)}"`;
  return drawingGroup(attributes, said, art, place);
};

/** The number of an impossible place as a group on the page. */
export const placeNumberGroup = (
  flag: UnplayablePlace,
  language: Language,
  art: Drawing,
  place: DrawingPlace,
): string => {
  const { labelled, spoken } = wordsOf({ language });
  const attributes =
    `id="${flag.id}" class="place-flag" data-number="${flag.number}" data-bar="${escapeText(flag.barName)}" ` +
    `data-bar-index="${flag.bar}" data-beat="${rationalKey(flag.beat)}" data-findings="${flag.findings.join(' ')}"`;
  return drawingGroup(attributes, labelled(spoken.place(flag.number), flag.sentences.join(' ')), art, place);
};

/**
 * A place to write a marking into: a frame of its size, or nothing.
 *
 * @param form what is to be filled in, in the frame
 */
export const blankGroup = (
  id: string,
  box: BoxSize | null,
  language: Language,
  { x, y, unitsPerVu }: DrawingPlace,
  form = '',
): string => {
  const frame =
    box === null
      ? ''
      : `<title>${escapeText(wordsOf({ language }).spoken.toWrite)}</title><rect x="${PADDING_VU / 2}" y="${PADDING_VU / 2}" width="${roundUnits(box.widthVu - PADDING_VU)}" ` +
        `height="${roundUnits(box.heightVu - PADDING_VU)}" fill="#fff" stroke="#555" stroke-width="0.2" stroke-dasharray="0.8"/>`;
  return (
    `<g id="${id}" class="blank" role="img" ` +
    `transform="translate(${roundUnits(x)} ${roundUnits(y)}) scale(${roundUnits(unitsPerVu)})">${frame}${form}</g>`
  );
};

/** Grey, so that nobody takes a count for the number of a bar; it reads as well as small words must (WCAG 2.2, 1.4.3). */
const COUNT_COLOUR = '#666';

/** A count over the music: for the eye alone, the bars tell their beats to others. */
export const countGroup = (id: string, { body }: Drawing, { x, y, unitsPerVu }: DrawingPlace): string =>
  `<g id="${id}" class="beat-count" aria-hidden="true" fill="${COUNT_COLOUR}" ` +
  `transform="translate(${roundUnits(x)} ${roundUnits(y)}) scale(${roundUnits(unitsPerVu)})">${body}</g>`;

export const drawingGroup = (
  attributes: string,
  title: string,
  art: Drawing,
  { x, y, unitsPerVu, ground, wordsAsideVu, wordsDownVu }: DrawingPlace,
): string =>
  `<g ${attributes} role="img" ` +
  `transform="translate(${roundUnits(x)} ${roundUnits(y)}) scale(${roundUnits(unitsPerVu)})">` +
  `<title>${escapeText(title)}</title>${groundRect(ground)}${art.body}${moved(art.words ?? '', wordsAsideVu, wordsDownVu)}${textLayer(art)}</g>`;

const moved = (words: string, asideVu: number, downVu: number): string =>
  words === '' || (roundUnits(asideVu) === 0 && roundUnits(downVu) === 0)
    ? words
    : `<g transform="translate(${roundUnits(asideVu)} ${roundUnits(downVu)})">${words}</g>`;

/** The text is to fit into its drawing: a letter is seldom wider than this share of the em. */
const WIDEST_LETTER = 0.7;
const LARGEST_VU = 5;

/** The text font has no flat and no natural. */
const SIGNS = /[♭♮♯𝄪𝄫]+/gu;
const MUSIC_SPAN = `<tspan font-family="${MUSIC_FAMILY}">$&</tspan>`;

/** The letters of the drawing as text that is not seen: searches find it, and copies hold it. */
const textLayer = ({ box: { widthVu, heightVu }, text }: Drawing): string => {
  const fitting = (widthVu - 2 * PADDING_VU) / (WIDEST_LETTER * text.length);
  const size = roundUnits(Math.min(LARGEST_VU, fitting));
  return (
    `<text class="letters" x="${PADDING_VU}" y="${roundUnits(heightVu - PADDING_VU)}" font-size="${size}" ` +
    `font-family="${TEXT_FAMILIES}" text-anchor="start" fill="none" stroke="none">${escapeText(text).replace(SIGNS, MUSIC_SPAN)}</text>`
  );
};

/** No larger than the ink, which touches nothing that may not run behind it. */
const groundRect = (size: BoxSize | null): string =>
  size === null
    ? ''
    : `<rect x="${PADDING_VU}" y="${PADDING_VU}" width="${roundUnits(size.widthVu - 2 * PADDING_VU)}" height="${roundUnits(size.heightVu - 2 * PADDING_VU)}" fill="#fff"/>`;
