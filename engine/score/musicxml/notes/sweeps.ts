import { stepOf } from '../../../music/pitch.ts';
import type { Sweep } from '../../model/between-notes.ts';
import { readSweepWords } from '../../words/glissando-words.ts';
import type { RemarkList } from '../remark-list.ts';
import type { SweepSign } from './note-marks.ts';
import type { PlacedNote } from './placed-note.ts';

interface OpenSweep {
  readonly note: PlacedNote;
  readonly sign: SweepSign;
}

/** Ten fingers draw no more at once under one number. */
const MOST_OPEN = 10;

/**
 * Joins the two ends of each glissando and slide: same sign and number, the same voice before others, else the one
 * that has been open longest.
 *
 * @param notes in order of time
 */
export const findSweeps = (notes: readonly PlacedNote[], remarks: RemarkList): readonly Sweep[] => {
  const sweeps: Sweep[] = [];
  const open = new Map<string, OpenSweep[]>();
  const reportLoose = (note: PlacedNote, kind: string): void =>
    remarks.skip(`A ${kind} has only one end and is ignored`, note.raw.bar);
  for (const note of notes) {
    const { sweeps: unsorted } = note.raw.marks;
    if (unsorted.length === 0) continue;
    const signs = unsorted.toSorted((a, b) => b.type.localeCompare(a.type));
    for (const sign of signs) {
      const key = `${sign.kind} ${sign.number}`;
      const starts = open.get(key) ?? [];
      open.set(key, starts);
      if (sign.type === 'start') {
        if (starts.length < MOST_OPEN) starts.push({ note, sign });
        else reportLoose(note, sign.kind);
        continue;
      }
      const ownVoice = starts.findIndex((each) => each.note.raw.voice === note.raw.voice);
      const [from] = starts.splice(Math.max(0, ownVoice), 1);
      if (from === undefined) reportLoose(note, sign.kind);
      else sweeps.push(sweepOf(from, note));
    }
  }
  for (const starts of open.values()) for (const { note, sign } of starts) reportLoose(note, sign.kind);
  return sweeps.toSorted((a, b) => a.start.num * b.start.den - b.start.num * a.start.den);
};

/** A glissando that stays on one string sweeps none: it is a slide. */
const sweepOf = ({ note: from, sign }: OpenSweep, to: PlacedNote): Sweep => ({
  kind: stepOf(from.string) === stepOf(to.string) ? 'slide' : sign.kind,
  from: from.id,
  to: to.id,
  start: from.onset,
  end: to.onset,
  bar: from.raw.bar,
  words: readSweepWords(sign.text),
});
