import {
  compare,
  equals,
  escapeText,
  type Note,
  type Plan,
  type Rational,
  type Score,
  writtenString,
} from '../../../engine/index.ts';
import { STRING_COLOURS } from '../../draw/string-colours.ts';
import { type Edit, insertAt, setAttribute } from '../../edit.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { GREY } from './others-signs.ts';
import { nameStrings, tellsItsNote } from './string-names.ts';

type Looks = Pick<EngravingOptions, 'stringColours' | 'respelledLook' | 'naming'>;

/** What the player does with notes otherwise than written. */
export type PlayedNotes = Pick<Plan, 'respellings' | 'omitted'>;

/**
 * Edits that show on the noteheads which string is played: colours by letter, and notes that are respelled. Notes that
 * are left out stand in round brackets in any case, and notes of another player are grey.
 */
export const noteLookEdits = (
  score: Score,
  mei: LayoutMei,
  { respellings, omitted, others }: PlayedNotes & { readonly others: ReadonlySet<string> },
  looks: Looks,
): Edit[] => {
  const respelled = new Map(respellings.map((each) => [each.note, each]));
  const names = nameStrings(score, respellings, looks);
  const silent = new Set(omitted);
  const endsBar = findLastInBars(score);
  return score.notes.flatMap((note) => {
    const tag = mei.tagOf(note);
    if (tag !== undefined && others.has(note.id)) {
      return [setAttribute(mei.text, tag, 'color', GREY)];
    }
    if (tag === undefined || note.role !== 'played') return [];
    const respelling = respelled.get(note.id);
    const colour = colourOf((respelling?.to ?? writtenString(note)).letter, looks);
    const bracketed =
      silent.has(note.id) || (respelling !== undefined && looks.respelledLook === 'bracketed');
    return [
      ...(colour === null ? [] : [setAttribute(mei.text, tag, 'head.color', colour)]),
      ...(bracketed ? [setAttribute(mei.text, tag, 'head.mod', 'paren')] : []),
      ...nameEdits(score, mei, note, names.get(note.id), endsBar(note)),
    ];
  });
};

/** Whether a note is the last of its bar, and not its first. */
const findLastInBars = ({ notes, bars }: Score): ((note: Note) => boolean) => {
  const last = new Map<number, Rational>();
  for (const { bar, onset } of notes) {
    const before = last.get(bar);
    if (before === undefined || compare(onset, before) > 0) last.set(bar, onset);
  }
  return ({ bar, onset }) => compare(onset, bars[bar]!.onset) > 0 && equals(onset, last.get(bar)!);
};

const colourOf = (letter: string, { stringColours }: Looks): string | null => {
  if (stringColours === 'none') return null;
  if (letter === 'C') return STRING_COLOURS.c;
  return letter === 'F' && stringColours === 'c-red-f-blue' ? STRING_COLOURS.f : null;
};

/** The name of the string over the note; a long one ends there where it would run over the bar line. */
const nameEdits = (
  score: Score,
  mei: LayoutMei,
  note: Note,
  name: string | undefined,
  endsBar: boolean,
): Edit[] => {
  const measure = mei.measureOf(score.bars[note.bar]!);
  if (measure === undefined || name === undefined) return [];
  const staff = mei.staves[note.staff - 1] ?? mei.staves[0]!;
  // One that does not tell its note would seem to be for the note before.
  const align = endsBar && tellsItsNote(name) ? ' halign="right"' : '';
  return [
    insertAt(
      // Before other words: what is set first stands next to the staff.
      measure.children.findLast(({ name }) => name === 'staff')?.span.end ?? measure.inner.end,
      `<dir place="above" staff="${staff}" startid="#${note.id}"><rend fontsize="80%" fontstyle="normal"${align}>` +
        `${escapeText(name)}</rend></dir>`,
    ),
  ];
};
