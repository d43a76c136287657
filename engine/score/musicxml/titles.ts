import { childrenNamed, childText, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { Titles } from '../model/score.ts';
import { withSourceNote } from '../source-note.ts';
import { usableTitle } from '../usable-title.ts';

/**
 * Title, subtitle, composer, arranger and rights: from the fields for them, else from the texts on the page that are marked as
 * such. An id in the place of a title is none.
 */
export const readTitles = (root: XmlElement): Titles => {
  const work = firstChild(root, 'work');
  const workTitle = usableTitle(work === undefined ? '' : (childText(work, 'work-title') ?? ''));
  const movement = usableTitle(childText(root, 'movement-title') ?? '');
  const title = workTitle || movement || usableTitle(creditOf(root, 'title'));
  const subtitle = workTitle !== '' && movement !== workTitle ? movement : '';
  return withSourceNote({
    title,
    subtitle: subtitle || creditOf(root, 'subtitle'),
    composer: creatorOf(root, 'composer') || creditOf(root, 'composer'),
    arranger: creatorOf(root, 'arranger') || creditOf(root, 'arranger'),
    rights: rightsIn(root) || creditOf(root, 'rights'),
  });
};

const squeeze = (text: string): string => text.replace(/\s+/gu, ' ').trim();

const creatorOf = (root: XmlElement, type: string): string => {
  const identification = firstChild(root, 'identification');
  const creators = identification === undefined ? [] : childrenNamed(identification, 'creator');
  return creators
    .filter((creator) => creator.attributes.type?.toLowerCase() === type)
    .map((creator) => squeeze(creator.text))
    .filter((name) => name !== '')
    .join(', ');
};

const rightsIn = (root: XmlElement): string => {
  const identification = firstChild(root, 'identification');
  const rights = identification === undefined ? [] : childrenNamed(identification, 'rights');
  const lines = rights.map(({ text }) => squeeze(text)).filter((line) => line !== '');
  return [...new Set(lines)].join(' ');
};

const creditOf = (root: XmlElement, type: string): string => {
  const credit = childrenNamed(root, 'credit').find((each) => childText(each, 'credit-type') === type);
  const words = credit === undefined ? [] : childrenNamed(credit, 'credit-words');
  return squeeze(words.map((each) => each.text).join(' '));
};
