import type { ParsedSource } from '../../engine/score/open.ts';
import { childText, descendantsNamed, firstChild, type XmlElement } from '../../engine/xml/tree.ts';

/** What the text itself says of a note, for telling why two readings differ. Read without our readers. */
export interface NoteFacts {
  readonly element: XmlElement;
  /** In its measure an event's written value and its duration contradict each other (MusicXML). */
  readonly contradicted: boolean;
  /** In its measure an event has no length (MEI). */
  readonly lengthMissing: boolean;
  /** In its measure an event is marked as of a tuplet by an attribute that states no ratio (MEI). */
  readonly tupletAttribute: boolean;
  /** Semitones by which the part ever transposes. */
  readonly transpositions: ReadonlySet<number>;
}

/** Facts by note id: the source's own, else `n` and the offset. */
export const findNoteFacts = ({ root, source }: ParsedSource): ReadonlyMap<string, NoteFacts> =>
  source.format === 'mei' ? meiFacts(root) : musicXmlFacts(root);

const idOf = (element: XmlElement, attribute: string): string =>
  element.attributes[attribute] ?? `n${element.span.start}`;

const meiFacts = (root: XmlElement): ReadonlyMap<string, NoteFacts> => {
  const facts = new Map<string, NoteFacts>();
  const transpositions = new Map<string, Set<number>>();
  for (const definition of descendantsNamed(root, 'staffDef')) {
    const n = definition.attributes.n ?? '';
    const moves = transpositions.get(n) ?? new Set();
    transpositions.set(n, moves.add(Number(definition.attributes['trans.semi'] ?? 0)));
  }
  for (const measure of descendantsNamed(root, 'measure')) {
    const events = descendantsNamed(measure, 'note', 'chord', 'rest', 'space');
    const tupletAttribute = events.some((event) => event.attributes.tuplet !== undefined);
    const lengthMissing = events.some((event) => lacksLength(event, measure));
    for (const staff of descendantsNamed(measure, 'staff')) {
      const moves = transpositions.get(staff.attributes.n ?? '') ?? new Set<number>();
      for (const element of descendantsNamed(staff, 'note')) {
        facts.set(idOf(element, 'xml:id'), {
          element,
          contradicted: false,
          lengthMissing,
          tupletAttribute,
          transpositions: moves,
        });
      }
    }
  }
  return facts;
};

const lacksLength = (event: XmlElement, measure: XmlElement): boolean => {
  if (event.attributes.dur !== undefined || event.attributes.grace !== undefined) return false;
  return (
    event.name !== 'note' ||
    !descendantsNamed(measure, 'chord').some((chord) => chord.children.includes(event))
  );
};

const musicXmlFacts = (root: XmlElement): ReadonlyMap<string, NoteFacts> => {
  const facts = new Map<string, NoteFacts>();
  for (const part of descendantsNamed(root, 'part')) {
    const transpositions = new Set([0, ...descendantsNamed(part, 'transpose').map(semitonesOf)]);
    let divisions = 1;
    for (const measure of part.children.filter((each) => each.name === 'measure')) {
      divisions = Number(descendantsNamed(measure, 'divisions')[0]?.text ?? divisions);
      const notes = measure.children.filter((each) => each.name === 'note');
      const contradicted = notes.some((note) => contradictsItself(note, divisions));
      for (const element of notes) {
        facts.set(idOf(element, 'id'), {
          element,
          contradicted,
          lengthMissing: false,
          tupletAttribute: false,
          transpositions,
        });
      }
    }
  }
  return facts;
};

const semitonesOf = (transpose: XmlElement): number =>
  Number(childText(transpose, 'chromatic') ?? 0) + 12 * Number(childText(transpose, 'octave-change') ?? 0);

const QUARTERS: ReadonlyMap<string, number> = new Map([
  ['breve', 8],
  ['whole', 4],
  ['half', 2],
  ['quarter', 1],
  ['eighth', 1 / 2],
  ['16th', 1 / 4],
  ['32nd', 1 / 8],
  ['64th', 1 / 16],
  ['128th', 1 / 32],
]);

const contradictsItself = (note: XmlElement, divisions: number): boolean => {
  const written = QUARTERS.get(childText(note, 'type') ?? '');
  const duration = Number(childText(note, 'duration') ?? Number.NaN);
  if (written === undefined || Number.isNaN(duration)) return false;
  const dots = note.children.filter((each) => each.name === 'dot').length;
  const tuplet = firstChild(note, 'time-modification');
  const ratio =
    tuplet === undefined
      ? 1
      : Number(childText(tuplet, 'normal-notes')) / Number(childText(tuplet, 'actual-notes'));
  return Math.abs(written * (2 - 0.5 ** dots) * ratio - duration / divisions) > 0.01;
};
