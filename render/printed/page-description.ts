import { decodeEntities } from '../text/entities.ts';

/** A drawing of ours on a page, with the bar that it names and what it says. */
const DRAWING = /<g ([^>]*role="img"[^>]*)><title>([^<]*)<\/title>/g;

/**
 * What a page says to one who cannot see it: which page it is, and every marking of ours with its bar. The notes themselves
 * are not told: a screen reader has no words for music.
 *
 * @param svg a finished page
 * @param page from 1
 */
export const describePage = (svg: string, title: string, page: number): string => {
  const markings = [...svg.matchAll(DRAWING)].map(([, attributes = '', text = '']) => {
    const bar = /data-bar="([^"]*)"/.exec(attributes)?.[1] ?? '';
    return `${bar === '' ? '' : `Bar ${decodeEntities(bar)}: `}${decodeEntities(text)}`;
  });
  return [`${title}, page ${page}`, ...markings].join('. ');
};
