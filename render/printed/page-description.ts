import { decodeEntities } from '../../engine/index.ts';
import type { Language } from '../words/language.ts';
import { wordsOf } from '../words/words.ts';

/** A drawing of ours on a page, with the bar that it names and what it says. */
const DRAWING = /<g ([^>]*role="img"[^>]*)><title>([^<]*)<\/title>/g;

/**
 * What a page says to one who cannot see it: which page it is, and every marking of ours with its bar. The notes themselves
 * are not told: a screen reader has no words for music.
 *
 * @param svg a finished page
 * @param page from 1
 */
export const describePage = (
  svg: string,
  title: string,
  page: number,
  language: Language = 'english',
): string => {
  const { labelled, places, spoken } = wordsOf({ language });
  const markings = [...svg.matchAll(DRAWING)].map(([, attributes = '', text = '']) => {
    const bar = /data-bar="([^"]*)"/.exec(attributes)?.[1] ?? '';
    const number = decodeEntities(bar);
    const said = decodeEntities(text);
    return number === '' ? said : labelled(places.bars(number, number), said);
  });
  return [spoken.page(title, page), ...markings].join('. ');
};
