import {
  descendantsNamed,
  type Note,
  notesById,
  type Score,
  type XmlElement,
} from '../../../engine/index.ts';
import { type Edit, insertAt, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/** Another player's notes: to be read, and to be told from one's own. */
export const GREY = '#999999';

/** What holds notes and draws something of its own for them: stems, beams, figures, strokes. */
const HOLDERS = ['chord', 'beam', 'tuplet', 'bTrem', 'fTrem'] as const;

/** What stands in a bar beside its staves, and belongs to notes. */
const SIGNS = [
  ...['tie', 'slur', 'lv', 'trill', 'mordent', 'turn', 'ornam'],
  ...['arpeg', 'gliss', 'fing', 'beamSpan', 'tupletSpan'],
] as const;

const REFERENCES = ['startid', 'endid', 'plist'] as const;

/**
 * Edits that make grey what belongs to another player's notes alone: their beams and stems, ties, trills and the like, and
 * the rests between them. What holds for everyone, such as a fermata or a slur that ends at a note of one's own, stays
 * black.
 */
export const otherSignEdits = (
  score: Score,
  mei: LayoutMei,
  others: ReadonlySet<string>,
): readonly Edit[] => {
  if (others.size === 0) return [];
  const { root, text } = mei;
  const notes = score.notes.filter(({ id }) => others.has(id));
  const tags = new Set(notes.map((note) => mei.tagOf(note)));
  const isOther = (element: XmlElement): boolean => {
    const held = element.name === 'note' ? [element] : descendantsNamed(element, 'note');
    return held.length > 0 && held.every(({ span }) => tags.has(span.start));
  };
  const named = new Map(
    descendantsNamed(root, 'note', 'chord').map((each) => [each.attributes['xml:id'] ?? '', each]),
  );
  const isOfOthers = (sign: XmlElement): boolean => {
    const held = referencesOf(sign).map((id) => named.get(id));
    return held.length > 0 && held.every((each) => each !== undefined && isOther(each));
  };
  const grey = [
    ...descendantsNamed(root, ...HOLDERS).filter(isOther),
    ...descendantsNamed(root, ...SIGNS).filter(isOfOthers),
    ...descendantsNamed(root, 'layer')
      .filter(isOther)
      .flatMap((layer) => descendantsNamed(layer, 'rest')),
  ];
  return [
    ...grey.map(({ span }) => setAttribute(text, span.start, 'color', GREY)),
    ...tieEdits(score, mei, notes, others),
  ];
};

const referencesOf = ({ attributes }: XmlElement): readonly string[] =>
  REFERENCES.flatMap((name) => (attributes[name] ?? '').split(/\s+/))
    .filter((each) => each !== '')
    .map((each) => each.replace(/^#/, ''));

/** A tie that is an attribute of its notes has no colour: it is written as an element. */
const tieEdits = (
  score: Score,
  { root, text, tagOf, measureOf }: LayoutMei,
  notes: readonly Note[],
  others: ReadonlySet<string>,
): readonly Edit[] => {
  const tied = new Map(
    descendantsNamed(root, 'note')
      .filter(({ attributes }) => attributes.tie !== undefined)
      .map((each) => [each.span.start, each]),
  );
  if (tied.size === 0) return [];
  const byId = notesById(score.notes);
  const nextOf = new Map(
    [...byId.values()].flatMap((note) => (note.tiedFrom === null ? [] : [[note.tiedFrom, note.id]])),
  );
  return notes.flatMap((note) => {
    const element = tied.get(tagOf(note) ?? -1);
    const measure = measureOf(score.bars[note.bar]!);
    const next = nextOf.get(note.id);
    const isWhole = [note.tiedFrom, next].every((id) => id === null || id === undefined || others.has(id));
    if (element === undefined || measure === undefined || !isWhole) return [];
    const tie = `<tie startid="#${note.id}" endid="#${next}" color="${GREY}"/>`;
    return [
      { ...setAttribute(text, element.span.start, 'tie', ''), put: '' },
      ...(next === undefined ? [] : [insertAt(measure.inner.end, tie)]),
    ];
  });
};
