import { LETTERS_FROM_C, type Letter, STEP_OF_LETTER } from '../../engine/music/pitch.ts';
import type { Note } from '../../engine/score/model/note.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { childrenNamed, descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import { treeOf } from './page-tree.ts';

/** A printed head, and the letter that a reader of the page takes it for. */
export interface ReadHead {
  readonly note: Note;
  readonly letter: Letter;
}

/** What stands on a staff of a system: where its clefs put a letter, from left to right. */
interface Clef {
  readonly x: number;
  readonly y: number;
  readonly letter: Letter;
}

/** The lines of a staff within a bar, from the top. */
interface Staff {
  readonly lines: readonly number[];
  readonly group: XmlElement;
}

/** SMuFL, "Clefs": those for G, C and F, with their octave marks and as changes. */
const CLEF_LETTERS: readonly (readonly [letter: Letter, from: number, to: number])[] = [
  ['G', 0xe050, 0xe05b],
  ['C', 0xe05c, 0xe061],
  ['F', 0xe062, 0xe068],
  ['G', 0xe07a, 0xe07a],
  ['C', 0xe07b, 0xe07b],
  ['F', 0xe07c, 0xe07c],
];

/**
 * Reads the heads of a part's notes as a player does, from the page alone: each by the last clef on its left in its system.
 * Octave lines are not looked for: a letter is the same an octave off.
 */
export const readHeads = (score: Score, pages: readonly string[]): ReadHead[] => {
  const notes = new Map(score.notes.map((note) => [note.id, note]));
  return pages.flatMap((page) =>
    groups(treeOf(page), 'system').flatMap((system) => readSystem(system, notes)),
  );
};

const readSystem = (system: XmlElement, notes: ReadonlyMap<string, Note>): ReadHead[] => {
  const bars = groups(system, 'measure').map((bar) =>
    childrenNamed(bar, 'g').filter(isClass('staff')).map(staffOf),
  );
  const clefs = bars[0]!.map((_, place) =>
    bars.flatMap((staves) => clefsOn(staves, staves[place]!)).sort((a, b) => a.x - b.x),
  );
  return bars.flatMap((staves) =>
    staves
      .flatMap(({ group }) => groups(group, 'note'))
      .flatMap((group) => {
        const note = notes.get(group.attributes.id ?? '');
        const head = placeOfHead(group);
        if (note === undefined || head === null) return [];
        const place = note.staff - 1;
        const clef = clefs[place]!.findLast(({ x }) => x < head.x);
        if (clef === undefined) throw new Error(`no clef before ${note.id}`);
        return [{ note, letter: letterAt(head.y, clef, staves[place]!) }];
      }),
  );
};

const isClass =
  (name: string) =>
  ({ attributes }: XmlElement): boolean =>
    (attributes.class ?? '').split(' ').includes(name);

const groups = (element: XmlElement, name: string): XmlElement[] =>
  descendantsNamed(element, 'g').filter(isClass(name));

const staffOf = (group: XmlElement): Staff => ({
  group,
  lines: childrenNamed(group, 'path')
    .slice(0, 5)
    .map(({ attributes }) => Number(/^M\S+ (\S+)/.exec(attributes.d ?? '')?.[1]))
    .sort((a, b) => a - b),
});

/** A clef may be written in a voice of the other staff: it belongs where it stands. */
const clefsOn = (staves: readonly Staff[], { lines }: Staff): Clef[] =>
  staves.flatMap(({ group }) =>
    groups(group, 'clef').flatMap((clef): Clef[] => {
      const place = placeOfFirst(clef);
      const letter = letterOfClef(clef);
      if (place === null || letter === null) return [];
      return lines.some((line) => Math.abs(line - place.y) < spaceOf(lines) / 4)
        ? [{ ...place, letter }]
        : [];
    }),
  );

const spaceOf = (lines: readonly number[]): number => (lines.at(-1)! - lines[0]!) / (lines.length - 1);

const letterOfClef = (clef: XmlElement): Letter | null => {
  const glyph = Number.parseInt(
    /^#([0-9A-F]+)/.exec(descendantsNamed(clef, 'use')[0]?.attributes['xlink:href'] ?? '')?.[1] ?? '',
    16,
  );
  return CLEF_LETTERS.find(([, from, to]) => glyph >= from && glyph <= to)?.[0] ?? null;
};

interface Place {
  readonly x: number;
  readonly y: number;
}

/** Where the first glyph of a group stands: the layout's place, and how far the groups about it were moved since. */
const placeOfFirst = (group: XmlElement): Place | null => {
  const moved = translationOf(group);
  for (const child of group.children) {
    const place = child.name === 'use' ? translationOf(child) : placeOfFirst(child);
    if (place !== null) return { x: moved.x + place.x, y: moved.y + place.y };
  }
  return null;
};

const translationOf = ({ attributes }: XmlElement): Place => {
  const [, x, y] = /translate\((-?[\d.]+),? (-?[\d.]+)\)/.exec(attributes.transform ?? '') ?? [];
  return { x: Number(x ?? 0), y: Number(y ?? 0) };
};

/** A note may be drawn without a head, as one that another voice shows. */
const placeOfHead = (note: XmlElement): Place | null => {
  const [head] = groups(note, 'notehead');
  return head === undefined ? null : placeOfFirst(head);
};

const letterAt = (y: number, clef: Clef, { lines }: Staff): Letter => {
  const steps = Math.round((clef.y - y) / (spaceOf(lines) / 2));
  return LETTERS_FROM_C[(((STEP_OF_LETTER[clef.letter] + steps) % 7) + 7) % 7]!;
};
