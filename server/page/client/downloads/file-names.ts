import { fileNameFrom } from '../../../http/file-name.ts';
import { STRINGS } from '../../strings/strings.ts';

/** How names of score files end, in whatever case. */
const SCORE_ENDINGS = /(?:\.(?:musicxml|mxl|xml|mei|abc))+$/iu;

/** File systems take 255 bytes for a name (ext4, APFS in UTF-8); browsers add to it where a name is taken. */
const MOST_BYTES = 220;

/** No more of one name of a part is needed to know it. */
const LONGEST_WITHIN = 40;

const UTF8 = new TextEncoder();

const bytesOf = (text: string): number => UTF8.encode(text).length;

/** As many of its first characters as fit. */
const cutTo = (bytes: number, text: string): string => {
  const characters = [...text];
  while (bytesOf(characters.join('')) > bytes) characters.pop();
  return characters.join('').trim();
};

/** Words alone, so that `Harp_1` and `harp 1` are the same. */
const spelledOut = (name: string): string =>
  ` ${name
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, ' ')
    .trim()} `;

/**
 * Names a download after the user's file: `nocturne - Harp I - study edition.pdf`.
 *
 * @param file name of the score file as it was chosen, with or without ending
 * @param within what of the file it is, the wider first: a tune or movement, a part; what is empty, or stands in the file's
 *   name anyway, is not repeated
 * @param what what is made of it; null for the part itself
 * @param ending of the download, without dot
 */
export const nameAfterFile = (
  file: string,
  within: readonly string[],
  what: string | null,
  ending: string,
): string => {
  const stem = fileNameFrom(file.replace(SCORE_ENDINGS, ''), STRINGS.take.unnamed);
  const rest = [
    ...within
      .map((each) => fileNameFrom(each, '', LONGEST_WITHIN))
      .filter((each) => each !== '' && !spelledOut(stem).includes(spelledOut(each))),
    ...(what === null ? [] : [what]),
  ].map((each) => ` - ${each}`);
  const after = `${rest.join('')}.${ending}`;
  return `${cutTo(MOST_BYTES - bytesOf(after), stem)}${after}`;
};
