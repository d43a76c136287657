import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';

/**
 * A line of a direction in MusicXML may end with the last character of its `<words>`. The conversion drops such an end,
 * and the words run on; one that the next `<words>` begin with it keeps.
 *
 * @param bars of one part, as the elements that hold its directions
 */
export const lineEndEdits = (bars: readonly XmlElement[]): Edit[] =>
  bars
    .flatMap((bar) => descendantsNamed(bar, 'direction'))
    .map((direction) => descendantsNamed(direction, 'words'))
    .flatMap((words) => words.slice(1).filter((each, i) => endsLine(words[i]!) && !beginsLine(each)))
    .map(({ inner }) => insertAt(inner.start, '\n'));

const endsLine = ({ text }: XmlElement): boolean => /\S\s*\n\s*$/.test(text);

const beginsLine = ({ text, inner, span }: XmlElement): boolean =>
  inner.start === span.end || text.trim() === '' || /^\s*\n/.test(text);
