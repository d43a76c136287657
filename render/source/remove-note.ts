import {
  childText,
  descendantsNamed,
  firstChild,
  type Score,
  type Span,
  type XmlElement,
} from '../../engine/index.ts';
import type { Edit } from '../edit.ts';
import { cutWithSpace, prefixOf } from './insertion/insertion.ts';

/** Edits that take out one small note of the score’s text; what lasts leaves its time empty, so that nothing else moves. */
export const removeNote = ({ source: { root, text, format } }: Score, span: Span): Edit[] => {
  const [parent, note] = findIn(root, span.start) ?? [];
  if (parent === undefined || note === undefined) throw new Error(`no element begins at ${span.start}`);
  return format === 'mei' ? removeMeiNote(root, note, text) : removeXmlNote(parent, note, text);
};

/** The element that begins at a place of the text, and what holds it. */
const findIn = (element: XmlElement, start: number): readonly [XmlElement, XmlElement] | null => {
  const child = element.children.find((each) => each.span.start <= start && start < each.span.end);
  if (child === undefined) return null;
  return child.span.start === start ? [element, child] : findIn(child, start);
};

/** What would be empty without the note goes with it. */
const HOLDERS: ReadonlySet<string> = new Set(['chord', 'graceGrp', 'beam']);

const removeMeiNote = (root: XmlElement, note: XmlElement, text: string): Edit[] => {
  let whole = note;
  for (let found = findIn(root, whole.span.start); found !== null; found = findIn(root, whole.span.start)) {
    const [holder] = found;
    if (!HOLDERS.has(holder.name) || holder.children.length > 1) break;
    whole = holder;
  }
  const { dur, dots, grace } = { ...note.attributes, ...(whole.name === 'chord' ? whole.attributes : {}) };
  const isOfChord = descendantsNamed(root, 'chord').some(
    ({ span }) => span.start < whole.span.start && whole.span.end < span.end,
  );
  if (grace !== undefined || dur === undefined || isOfChord) return [cutWithSpace(text, whole.span)];
  const time = `dur="${dur}"${dots === undefined ? '' : ` dots="${dots}"`}`;
  return [{ ...whole.span, put: `<${prefixOf(text, note)}space ${time}/>` }];
};

const removeXmlNote = (parent: XmlElement, note: XmlElement, text: string): Edit[] => {
  const chordOf = (each: XmlElement | undefined): XmlElement | undefined =>
    each?.name === 'note' ? firstChild(each, 'chord') : undefined;
  if (chordOf(note) !== undefined) return [cutWithSpace(text, note.span)];
  const next = parent.children.find(({ span }) => span.start > note.span.start);
  const joined = chordOf(next);
  // The next note of its chord becomes the first.
  if (joined !== undefined) return [cutWithSpace(text, note.span), cutWithSpace(text, joined.span)];
  const duration = childText(note, 'duration');
  if (duration === undefined) return [cutWithSpace(text, note.span)];
  const kept = ['duration', 'voice', 'staff']
    .map((name) => firstChild(note, name))
    .flatMap((each) => (each === undefined ? [] : [text.slice(each.span.start, each.span.end)]));
  return [{ ...note.span, put: `<forward>${kept.join('')}</forward>` }];
};
