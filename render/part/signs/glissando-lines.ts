import { descendantsNamed, type Note, notesById, type Score } from '../../../engine/index.ts';
import { cut, type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/** A start of a line at a note of MusicXML, with its attributes. */
const START = /<(?:[\w-]+:)?(?:glissando|slide)\b([^>]*)>/gu;

/**
 * Lines of glissandi and slides that the conversion from MusicXML has lost: it misses the end of a line where the note of
 * arrival bears other signs as well. MEI sources keep their own.
 */
export const glissandoEdits = (score: Score, mei: LayoutMei): Edit[] => {
  if (score.source.format === 'mei') return [];
  const notes = notesById(score.notes);
  const lines = descendantsNamed(mei.root, 'gliss');
  const drawn = new Set(lines.map(({ attributes: { startid, endid } }) => `${startid} ${endid}`));
  const loose = lines.filter(
    ({ attributes: { startid, endid } }) => startid === undefined || endid === undefined,
  );
  const lost = score.sweeps.flatMap(({ from, to, bar }) => {
    const [first, last] = [notes.get(from), notes.get(to)];
    const measure = mei.measureOf(score.bars[bar]!);
    if (first === undefined || last === undefined || measure === undefined) return [];
    if (mei.tagOf(first) === undefined || mei.tagOf(last) === undefined) return [];
    const line = lineOf(score, first);
    if (line === null || drawn.has(`#${from} #${to}`)) return [];
    return [insertAt(measure.inner.end, `<gliss startid="#${from}" endid="#${to}" lform="${line}"/>`)];
  });
  return [...loose.map(({ span }) => cut(span)), ...lost];
};

const FORMS = ['solid', 'dashed', 'dotted', 'wavy'] as const;

/** How the line is drawn that starts at a note; null where none does: words alone may ask for a glissando. */
const lineOf = ({ source: { text } }: Score, { span }: Note): (typeof FORMS)[number] | null => {
  const starts = [...text.slice(span.start, span.end).matchAll(START)].map(([, attributes]) => attributes!);
  const start = starts.find((attributes) => /\btype\s*=\s*["']start["']/u.test(attributes));
  if (start === undefined) return null;
  const stated = /\bline-type\s*=\s*["'](\w+)["']/u.exec(start)?.[1];
  // MusicXML 4.0: a glissando is wavy and a slide solid where the file says nothing; the page has a straight line for both.
  return FORMS.find((form) => form === stated) ?? 'solid';
};
