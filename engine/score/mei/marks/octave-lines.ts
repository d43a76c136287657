import { compare } from '../../../music/rational.ts';
import { type Control, groupByBar, type NoteDraft } from '../draft.ts';
import type { ReadLog } from '../log.ts';
import { readList } from '../values.ts';
import type { MarkPoint, MarkTimes } from './mark-times.ts';

const OCTAVES: ReadonlyMap<string, number> = new Map([
  ['8', 1],
  ['15', 2],
  ['22', 3],
]);

/** Octaves by which notes sound away from where they are written. */
export type OctaveShifts = ReadonlyMap<NoteDraft, number>;

interface OctaveLine {
  readonly octaves: number;
  readonly start: MarkPoint;
  readonly end: MarkPoint;
  /** The harp's staves it runs over, and the `n` of the layers: empty for all. */
  readonly staves: readonly number[];
  readonly layers: readonly string[];
}

/**
 * Applies `octave` lines: from the start to the end named, on the staves named, notes sound octaves higher (`above`)
 * or lower (MEI 5.1, octave: the passage is performed away from its written pitch). A repeat sign plays what it
 * repeats as that sounded.
 */
export const shiftOctaves = (
  notes: readonly NoteDraft[],
  controls: readonly Control[],
  harpStaves: readonly string[],
  times: MarkTimes,
  log: ReadLog,
): OctaveShifts => {
  const shifts = new Map<NoteDraft, number>();
  const byBar = groupByBar(notes);
  const lines = controls
    .filter((control) => control.element.name === 'octave')
    .flatMap((control) => readLine(control, harpStaves, times, log) ?? []);
  for (const line of lines) {
    for (let bar = line.start.bar; bar <= line.end.bar; bar += 1) {
      for (const note of byBar.get(bar) ?? []) {
        if (isUnder(line, note)) shifts.set(note, (shifts.get(note) ?? 0) + line.octaves);
      }
    }
  }
  for (const note of notes) {
    if (note.copyOf !== null) shifts.set(note, shifts.get(note.copyOf) ?? 0);
  }
  return shifts;
};

const readLine = (
  control: Control,
  harpStaves: readonly string[],
  times: MarkTimes,
  log: ReadLog,
): OctaveLine | null => {
  const start = times.startOf(control);
  const staves = times.stavesOf(control, start).map((n) => harpStaves.indexOf(n) + 1);
  if (!staves.some((staff) => staff > 0)) return null;
  const end = start && times.endOf(control, start);
  const octaves = octavesOf(control, log);
  if (start !== null && end !== null) {
    return { octaves, start, end, staves, layers: readList(control.element, 'layer') };
  }
  log.skip('an octave line whose ends are not found', control.bar);
  return null;
};

const isUnder = (line: OctaveLine, note: NoteDraft): boolean =>
  line.staves.includes(note.staff) &&
  (line.layers.length === 0 || line.layers.includes(note.layer)) &&
  isFrom(line.start, note) &&
  isTill(line.end, note);

/** `dis` says how far, `dis.place` which way; without it the side on which the line stands. */
const octavesOf = ({ element }: Control, log: ReadLog): number => {
  const dis = element.attributes.dis?.trim() ?? '8';
  const octaves = OCTAVES.get(dis);
  if (octaves === undefined) log.badValue('octave displacement', dis, element);
  const place = element.attributes['dis.place'] ?? element.attributes.place;
  return place?.trim() === 'below' ? -(octaves ?? 0) : (octaves ?? 0);
};

const isGraceAt = (point: MarkPoint, note: NoteDraft): boolean =>
  note.grace !== null && compare(note.onset, point.onset) === 0;

/** A line that begins at a note leaves out the graces before it; one that begins at a grace takes them in. */
const isFrom = (start: MarkPoint, note: NoteDraft): boolean => {
  const early = isGraceAt(start, note) && start.named.some((each) => each.grace === null);
  return compare(note.onset, start.onset) >= 0 && !early;
};

const isTill = (end: MarkPoint, note: NoteDraft): boolean => {
  const late =
    compare(note.onset, end.onset) === 0 &&
    note.grace === null &&
    end.named.some((each) => each.grace !== null);
  return compare(note.onset, end.onset) <= 0 && !late;
};
