import {
  firstChild,
  type Note,
  nameBarIn,
  type Remark,
  remarkIn,
  type Score,
  type Span,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, insertAt, setAttribute } from '../../edit.ts';
import { prefixOf } from './insertion.ts';
import { insertNoteChild } from './note-children.ts';

/**
 * Tells our brackets from those of others: behind the `notehead` in MusicXML, before the `note` in MEI. A processing
 * instruction may stand anywhere and means nothing to other programs.
 */
const MARK = '<?tringle-omitted?>';

/** The notes that are left out, bracketed in the file. */
export interface BracketedNotes {
  readonly edits: readonly Edit[];
  /** Notes that could not be bracketed without a change of what is there, one remark for each bar. */
  readonly remarks: readonly Remark[];
}

/**
 * Insertions that put the notes left out into round brackets: MusicXML `notehead` with `parentheses`, MEI `head.mod`.
 * Brackets of ours around notes that are played again are taken out.
 *
 * @param omitted ids of notes
 */
export const bracketNotes = (score: Score, omitted: ReadonlySet<string>): BracketedNotes => {
  if (omitted.size === 0 && !score.source.text.includes(MARK)) return { edits: [], remarks: [] };
  const bracket = score.source.format === 'mei' ? bracketMeiNote : bracketMusicXmlNote;
  const edits: Edit[] = [];
  const done = new Set<string>();
  for (const { element, note } of noteElements(score)) {
    const own = ownBrackets(score, element);
    const isOut = omitted.has(note.id);
    if (own.length > 0) {
      if (isOut) done.add(note.id);
      else edits.push(...own.map(cut));
      continue;
    }
    const put = isOut ? bracket(score.source.text, element) : [];
    if (put.length === 0) continue;
    done.add(note.id);
    edits.push(...put);
  }
  return { edits, remarks: unmarkedRemarks(score, omitted, done) };
};

/** What earlier annotations put around notes, but for those that are still left out. */
export const staleBrackets = (score: Score, omitted: ReadonlySet<string>): readonly Span[] =>
  score.source.text.includes(MARK)
    ? noteElements(score).flatMap(({ element, note }) =>
        omitted.has(note.id) ? [] : ownBrackets(score, element),
      )
    : [];

const unmarkedRemarks = (
  score: Score,
  omitted: ReadonlySet<string>,
  done: ReadonlySet<string>,
): readonly Remark[] => {
  const missed = score.notes.filter(({ id, role }) => omitted.has(id) && !done.has(id) && role === 'played');
  return [...new Set(missed.map(({ bar }) => bar))].map((bar) =>
    remarkIn(score, {
      code: 'omitted-note-not-marked',
      bar,
      message: `In bar ${nameBarIn(score)(bar)} a note that you leave out has no brackets in the file, because its notehead has a special shape or a repeat sign stands for it.`,
    }),
  );
};

/** The elements of notes that are written out, each with its note: of repeated music only the first has one. */
const noteElements = ({
  source,
  notes,
}: Score): readonly { readonly element: XmlElement; readonly note: Note }[] => {
  const byStart = new Map<number, Note>();
  for (const note of notes) if (!byStart.has(note.span.start)) byStart.set(note.span.start, note);
  const found: { readonly element: XmlElement; readonly note: Note }[] = [];
  const visit = (element: XmlElement): void => {
    const note = element.name === 'note' ? byStart.get(element.span.start) : undefined;
    if (note !== undefined) found.push({ element, note });
    for (const each of element.children) visit(each);
  };
  visit(source.root);
  return found;
};

const ownBrackets = ({ source: { text, format } }: Score, element: XmlElement): readonly Span[] => {
  const { start } = element.span;
  if (format === 'mei') {
    // `String.endsWith` with a length looks at what stands before that place.
    if (!text.endsWith(MARK, start)) return [];
    const found = /\shead\.mod\s*=\s*"paren"/u.exec(text.slice(start, element.inner.start));
    const attribute = found === null ? null : start + found.index;
    return [
      { start: start - MARK.length, end: start },
      ...(attribute === null ? [] : [{ start: attribute, end: attribute + found![0].length }]),
    ];
  }
  const head = firstChild(element, 'notehead');
  if (head === undefined || !text.startsWith(MARK, head.span.end)) return [];
  let before = head.span.start;
  while (/\s/u.test(text[before - 1] ?? '')) before -= 1;
  return [{ start: before, end: head.span.end + MARK.length }];
};

/** @returns nothing where the note has a modified head already */
const bracketMeiNote = (text: string, element: XmlElement): readonly Edit[] =>
  element.attributes['head.mod'] !== undefined || element.attributes.enclose !== undefined
    ? []
    : [insertAt(element.span.start, MARK), setAttribute(text, element.span.start, 'head.mod', 'paren')];

/** @returns nothing where the note has a notehead of its own already */
const bracketMusicXmlNote = (text: string, element: XmlElement): readonly Edit[] => {
  if (firstChild(element, 'notehead') !== undefined) return [];
  const prefix = prefixOf(text, element);
  const put = `<${prefix}notehead parentheses="yes">normal</${prefix}notehead>${MARK}`;
  return [insertNoteChild(text, element, 'notehead', put)];
};
