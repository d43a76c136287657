/** Names that libraries and programs give a file: five figures or more after a short prefix, a UUID, a checksum. */
const ID =
  /^(?:[a-z]{0,8}[-_]?\d{5,}|[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}|(?=[a-f]*\d)[0-9a-f]{12,})$/iu;

/** A title on one line; empty for what is no title but an id. */
export const usableTitle = (text: string): string => {
  const title = text.replace(/\s+/gu, ' ').trim();
  return ID.test(title) ? '' : title;
};

/** Endings of score files, one or two. */
const ENDING = /(?:\.(?:musicxml|mxl|xml|mei|abc)){1,2}$/iu;

/** Control characters, marks that turn the direction of writing, halves of characters. */
const UNSEEN = /[\p{C}\p{Zl}\p{Zp}]/gu;

/**
 * What a file's own name says of its title; the name may be hostile.
 *
 * @example titleOfFile('C:\\scores\\Two_Swans.musicxml') // 'Two Swans'
 */
export const titleOfFile = (name: string): string =>
  name
    .replace(/^.*[\\/]/su, '')
    .normalize('NFC')
    .replace(UNSEEN, ' ')
    .trim()
    .replace(ENDING, '')
    .replace(/[_\s]+/gu, ' ')
    .trim();
