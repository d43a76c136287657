import { pitchName } from '../../engine/music/pitch.ts';
import type { Respelling } from '../../engine/plan/model.ts';
import type { Note, Score } from '../../engine/score/model.ts';
import { type Edit, escapeText, insertAt, setAttribute } from '../edit.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { LayoutMei } from './layout-mei.ts';

type Looks = Pick<EngravingOptions, 'stringColours' | 'respelled'>;

/** As on the instrument: a red that stands out on white paper, and a blue that does beside black. */
const RED = '#c8102e';
const BLUE = '#1f4e9e';

/** Edits that show on the noteheads which string is played: colours by letter, and notes that are respelled. */
export const noteLookEdits = (
  score: Score,
  mei: LayoutMei,
  respellings: readonly Respelling[],
  looks: Looks,
): Edit[] => {
  const respelled = new Map(respellings.map((each) => [each.note, each]));
  return score.notes.flatMap((note) => {
    const tag = mei.tagOf(note);
    if (tag === undefined || note.role !== 'played') return [];
    const played = respelled.get(note.id)?.to ?? note.harmonic?.string ?? note.pitch;
    const colour = colourOf(played.letter, looks);
    return [
      ...(colour === null ? [] : [setAttribute(mei.text, tag, 'head.color', colour)]),
      ...respelledEdits(score, mei, note, respelled.get(note.id), looks),
    ];
  });
};

const colourOf = (letter: string, { stringColours }: Looks): string | null => {
  if (stringColours === 'none') return null;
  if (letter === 'C') return RED;
  return letter === 'F' && stringColours === 'c-red-f-blue' ? BLUE : null;
};

const respelledEdits = (
  score: Score,
  mei: LayoutMei,
  note: Note,
  respelling: Respelling | undefined,
  { respelled }: Looks,
): Edit[] => {
  if (respelling === undefined || respelled === 'plain') return [];
  if (respelled === 'bracketed') return [setAttribute(mei.text, mei.tagOf(note)!, 'head.mod', 'paren')];
  const measure = mei.measureOf(score.bars[note.bar]!);
  if (measure === undefined) return [];
  const name = pitchName(respelling.to).replace(/\d+$/, '');
  const natural = respelling.to.alter === 0 ? '♮' : '';
  const staff = mei.staves[note.staff - 1] ?? mei.staves[0]!;
  return [
    insertAt(
      measure.inner.end,
      `<dir place="above" staff="${staff}" startid="#${note.id}"><rend fontsize="80%" fontstyle="normal">= ` +
        `${escapeText(name + natural)}</rend></dir>`,
    ),
  ];
};
