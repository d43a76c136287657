import { compare } from '../../../music/rational.ts';
import type { Span } from '../../../xml/tree.ts';
import type { RawBar, RawNote, RawPart, RawRest } from '../raw-part.ts';
import type { RemarkList } from '../remark-list.ts';
import { LimitExceeded } from '../values.ts';

/** Notes that signs of repetition may bring back in all: a small file must not become a huge score. */
const MAX_COPIES = 200_000;

/**
 * Fills bars that only show a sign of repetition with the notes of the bar they repeat. Files should hold these notes
 * themselves (MusicXML 4.0, `measure-repeat`), and where they do nothing is added.
 *
 * @param bars number and place of each bar: the copies are placed where the sign stands
 * @throws LimitPassed where signs bring back too many notes
 */
export const fillRepeatedBars = (
  part: RawPart,
  bars: readonly { readonly number: string; readonly span: Span }[],
  remarks: RemarkList,
): RawPart => {
  if (part.bars.every((bar) => bar.signs.repeatSigns.length === 0)) return part;
  const notes = groupByBar(part.notes, part.bars.length);
  const rests = groupByBar(part.rests, part.bars.length);
  const filled: RawBar[] = [...part.bars];
  const active = new Map<number | null, number>();
  let copies = 0;
  for (const [bar, { signs }] of part.bars.entries()) {
    for (const sign of signs.repeatSigns) {
      if (sign.start) active.set(sign.staff, sign.length);
      else active.delete(sign.staff);
    }
    for (let staff = 1; staff <= part.staves && active.size > 0; staff += 1) {
      const length = active.get(staff) ?? active.get(null);
      const harpStaff = staff + part.staffOffset;
      if (length === undefined || notes[bar]!.some((note) => note.staff === harpStaff)) continue;
      if (bar < length) {
        remarks.skip('A bar repeat has too few bars before it', bar);
        continue;
      }
      const source = notes[bar - length]!.filter((note) => note.staff === harpStaff);
      copies += source.length;
      if (copies > MAX_COPIES) throw new LimitExceeded('elements', MAX_COPIES, copies);
      for (const note of source) notes[bar]!.push(repeatNote(note, bar, bars[bar]!.span));
      rests[bar] = rests[bar]!.filter((rest) => rest.staff !== harpStaff);
      filled[bar] = longerOf(filled[bar]!, filled[bar - length]!);
    }
  }
  return { ...part, bars: filled, notes: notes.flat(), rests: rests.flat() };
};

const groupByBar = <T extends RawNote | RawRest>(events: readonly T[], bars: number): T[][] => {
  const groups: T[][] = Array.from({ length: bars }, () => []);
  for (const event of events) groups[event.bar]!.push(event);
  return groups;
};

const repeatNote = (note: RawNote, bar: number, span: Span): RawNote => ({
  ...note,
  bar,
  span,
  sourceId: '',
  chord: `${note.chord}-${bar}`,
  beam: note.beam === null ? null : `${note.beam}-${bar}`,
  repeats: note.repeats ?? note,
});

const longerOf = (bar: RawBar, source: RawBar): RawBar =>
  compare(bar.length, source.length) >= 0 ? bar : { ...bar, length: source.length };
