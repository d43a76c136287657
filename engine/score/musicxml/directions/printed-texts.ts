import { ZERO } from '../../../music/rational.ts';
import { childText, type XmlElement } from '../../../xml/tree.ts';
import { describeMetronome, joinTexts } from '../../texts/metronome.ts';
import { readMusicFont } from '../../texts/music-fonts.ts';
import type { PrintedText } from '../../texts/shared-texts.ts';
import type { BarPlace } from '../raw-part.ts';
import type { BarItem } from '../walk-bar.ts';
import { offsetOf, soundOf, typesOf } from './directions.ts';

/** Text of a part, before its time is known. */
export type RawText = BarPlace & Omit<PrintedText, 'at'>;

/** Points from which words are larger than usual: titles have 14 and more (common practice, no source). */
const TITLE_POINTS = 14;

/**
 * What a direction prints: rehearsal marks and signs of return each by itself, words and metronome marks together.
 *
 * @param part order of the part in the score
 */
export const readTexts = (item: BarItem, bar: number, part: number): readonly RawText[] => {
  const { element } = item;
  if (element.name !== 'direction') return [];
  const types = typesOf(element);
  const at = offsetOf(item);
  const base = {
    bar,
    at,
    part,
    place: placeOf(element),
    atBarStart: at.num <= ZERO.num,
    bold: boldIn(types),
    large: types.some(({ attributes }) => Number(attributes['font-size']) >= TITLE_POINTS),
  };
  const signs = types.flatMap((each): RawText[] => {
    const { name } = each;
    if (name !== 'rehearsal' && name !== 'segno' && name !== 'coda') return [];
    const text = name === 'rehearsal' ? each.text.replace(/\s+/gu, ' ').trim() : '';
    return name === 'rehearsal' && text === '' ? [] : [{ ...base, sign: name, text, forAll: true }];
  });
  const pieces = types.flatMap(textOf);
  const text = joinTexts(pieces);
  if (text === '') return signs;
  return [...signs, { ...base, sign: 'words', text, forAll: isForAll(element, types) }];
};

const boldIn = (types: readonly XmlElement[]): boolean | null => {
  const weights = types.flatMap(({ name, attributes }) =>
    name === 'words' && attributes['font-weight'] !== undefined ? [attributes['font-weight']] : [],
  );
  return weights.length === 0 ? null : weights.includes('bold');
};

const placeOf = ({ attributes }: XmlElement): PrintedText['place'] =>
  attributes.placement === 'above' || attributes.placement === 'below' ? attributes.placement : null;

const textOf = (each: XmlElement): readonly string[] => {
  if (each.name === 'words') return [readMusicFont(each.text, each.attributes['font-family'] ?? '')];
  if (each.name !== 'metronome' || each.attributes['print-object'] === 'no') return [];
  const told = describeMetronome(each.children.flatMap((child) => metronomePart(child)));
  return told === '' ? [] : [each.attributes.parentheses === 'yes' ? `(${told})` : told];
};

/** A note value that has no sign. */
const UNREAD = 'note ?';

/** A metronome mark as a list of note values, dots and figures. */
const metronomePart = (child: XmlElement): readonly string[] => {
  switch (child.name) {
    case 'beat-unit':
      return [`note ${child.text.trim()}`];
    case 'beat-unit-dot':
      return ['dot'];
    case 'per-minute':
      return [`= ${child.text.trim()}`];
    case 'metronome-relation':
      return ['='];
    case 'metronome-note':
      return child.children.some(({ name }) => name === 'metronome-tuplet' || name === 'metronome-tied')
        ? [UNREAD]
        : [
            `note ${childText(child, 'metronome-type') ?? ''}`,
            ...child.children.filter(({ name }) => name === 'metronome-dot').map(() => 'dot'),
          ];
    case 'beat-unit-tied':
      return [UNREAD];
    default:
      return [];
  }
};

/**
 * MusicXML 4.0, `direction`: `system` tells marks of the whole system, `directive` words that stand over the time signature
 * as a tempo does; a metronome mark or a tempo that sounds is one.
 */
const isForAll = (element: XmlElement, types: readonly XmlElement[]): boolean =>
  ['only-top', 'also-top'].includes(element.attributes.system ?? '') ||
  element.attributes.directive === 'yes' ||
  types.some(({ name }) => name === 'metronome') ||
  soundOf(element)?.attributes.tempo !== undefined;
