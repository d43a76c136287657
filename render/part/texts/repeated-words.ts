import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { cut, type Edit } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/**
 * Words that a file has twice at one place, as where each of two lines of dashes brings its own “cresc.”, are printed once: the
 * layout would set them over one another. Of such words those stay whose dashes go farthest.
 */
export const repeatedWordEdits = ({ root, text }: LayoutMei): Edit[] =>
  descendantsNamed(root, 'measure').flatMap((measure) => {
    const farthest = new Map<string, XmlElement>();
    return measure.children.filter(isWords).flatMap((words) => {
      const key = placeOf(words, text);
      const other = farthest.get(key);
      if (other === undefined || key === '') {
        farthest.set(key, words);
        return [];
      }
      const isFarther = reachOf(words) > reachOf(other);
      if (isFarther) farthest.set(key, words);
      return [cut(isFarther ? other.span : words.span)];
    });
  });

/** The same words of one verse, which a file has twice under a note, are printed once. */
export const repeatedVerseEdits = ({ root, text }: LayoutMei): Edit[] =>
  descendantsNamed(root, 'note', 'chord').flatMap(({ children }) => {
    const verses = children.filter(({ name }) => name === 'verse');
    if (verses.length < 2) return [];
    const said = verses.map((verse) => JSON.stringify([verse.attributes.n, wordsIn(verse, text)]));
    return verses.filter((_, i) => said.indexOf(said[i]!) < i).map(({ span }) => cut(span));
  });

const wordsIn = ({ inner }: XmlElement, text: string): string =>
  text
    .slice(inner.start, inner.end)
    .replace(/<[^>]*>/gu, '')
    .trim();

const isWords = ({ name }: XmlElement): boolean => name === 'dir' || name === 'dynam';

/** What words say and where; empty for none. */
const placeOf = (words: XmlElement, text: string): string => {
  const { attributes, name } = words;
  const said = wordsIn(words, text);
  const { place, staff, startid, tstamp } = attributes;
  return said === '' ? '' : JSON.stringify([name, said, place, staff, startid, tstamp]);
};

/** How far dashes go, in bars and beats: a bar has fewer beats than a thousand. */
const reachOf = ({ attributes: { tstamp2 } }: XmlElement): number => {
  const [, bars = '0', beat = '0'] = /^(?:(\d+)m\+)?([\d.]+)$/u.exec(tstamp2 ?? '') ?? [];
  return 1000 * Number(bars) + Number(beat);
};
