import { bisector } from 'd3-array';
import { midiOf } from '../../../music/pitch.ts';
import { compare, multiply, type Rational, rationalKey, toNumber } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import { beatLength } from '../../bars/beats.ts';
import type { Anchor, BarDraft, Control, NoteDraft } from '../draft.ts';
import type { BarsReading } from '../form/bars.ts';
import type { ReadLog } from '../log.ts';
import { addTime, fractionNear } from '../score-time.ts';
import { readDecimal, readList, readReference } from '../values.ts';

/** A place that a mark beside the music points at. */
export interface MarkPoint {
  readonly onset: Rational;
  readonly bar: number;
  /** Whether it names a note or chord by id, the harp's or another's. */
  readonly namesNote: boolean;
  /** The harp's notes that it names by id; empty where it names a time. */
  readonly named: readonly NoteDraft[];
  /** The `n` of the staff of what it names. */
  readonly namedStaff: string | null;
}

/** Where marks beside the music begin and end, and which notes of the harp they mean. */
export interface MarkTimes {
  readonly startOf: (control: Control) => MarkPoint | null;
  readonly endOf: (control: Control, start: MarkPoint) => MarkPoint | null;
  /** The harp's notes that a point means: those it names, else all that begin there on the mark's staves and layer. */
  readonly notesAt: (control: Control, point: MarkPoint) => readonly NoteDraft[];
  /** Whether the mark is the harp's: what it names decides, and only then the staves it states. */
  readonly atHarp: (control: Control, point: MarkPoint | null) => boolean;
  /** The `n` of the staves that a mark acts on; empty where it says none. */
  readonly stavesOf: (control: Control, point: MarkPoint | null) => readonly string[];
}

/** A timestamp this near to a note means the note (in quarter notes): editors write thirds as `.333` or `.33`. */
const SNAP = 0.02;

/** More bars than this are never spanned by one mark. */
const MAX_SPAN_BARS = 10_000;

/**
 * Resolves `startid`, `endid`, `tstamp` and `tstamp2` (MEI 5.1: a timestamp counts units of the meter from 1 at the
 * bar's start; `2m+1` is beat 1 two bars on).
 */
export const resolveMarkTimes = (
  reading: BarsReading,
  harpStaves: readonly string[],
  log: ReadLog,
): MarkTimes => {
  const { bars, anchors } = reading;
  const moments = findMoments(reading.notes);
  const named = (id: string | undefined): MarkPoint | null => pointOf(anchors.get(id ?? ''));
  const beatIn = (bar: BarDraft | undefined, beat: number, element: XmlElement): MarkPoint | null => {
    if (bar === undefined) return null;
    const after = multiply(fractionNear(Math.max(0, beat - 1)), beatLength(bar.meter));
    const exact = addTime(bar.onset, after, element, log);
    return unnamedPoint(moments.near(bar.index, exact) ?? exact, bar.index, null);
  };
  return {
    startOf: ({ element, bar, staff, at }) => {
      const byId = named(readReference(element, 'startid'));
      if (byId !== null) return byId;
      if (at !== null) return unnamedPoint(at, bar, staff);
      const beat =
        readDecimal(element, 'tstamp', [0, 1000], log) ?? readDecimal(element, 'tstamp.ges', [0, 1000], log);
      return beat === undefined ? null : beatIn(bars[bar], beat, element);
    },
    endOf: ({ element }, start) => {
      const byId = named(readReference(element, 'endid'));
      const end = byId === null ? readEnd(element, log) : null;
      if (end === null) return byId;
      return beatIn(bars[Math.min(start.bar + end.barsAway, bars.length - 1)], end.beat, element);
    },
    notesAt: (control, point) => {
      if (point.namesNote) return point.named;
      const staves = stavesOf(control, point).map((n) => harpStaves.indexOf(n) + 1);
      const layers = readList(control.element, 'layer');
      return moments
        .at(point.bar, point.onset)
        .filter(
          (note) =>
            note.grace === null &&
            (staves.length === 0 || staves.includes(note.staff)) &&
            (layers.length === 0 || layers.includes(note.layer)),
        );
    },
    atHarp: (control, point) => {
      const staves = point?.namedStaff == null ? stavesOf(control, point) : [point.namedStaff];
      return staves.some((n) => harpStaves.includes(n));
    },
    stavesOf,
  };
};

/** A time, of no note in particular. */
const unnamedPoint = (onset: Rational, bar: number, namedStaff: string | null): MarkPoint => ({
  onset,
  bar,
  namesNote: false,
  named: [],
  namedStaff,
});

const pointOf = (anchor: Anchor | undefined): MarkPoint | null => {
  if (anchor === undefined) return null;
  const { onset, bar, isNote, notes, staff } = anchor;
  return { onset, bar, namesNote: isNote, named: notes, namedStaff: staff };
};

/** Where a mark says that it ends, by bars from its start and the beat there. */
const readEnd = (
  element: XmlElement,
  log: ReadLog,
): { readonly barsAway: number; readonly beat: number } | null => {
  const { tstamp2, dur } = element.attributes;
  const text = tstamp2 ?? dur;
  if (text === undefined) return null;
  const match = /^(?:(\d{1,6})m\s*\+\s*)?(\d{1,4}(?:\.\d*)?)$/.exec(text.trim());
  const barsAway = Number(match?.[1] ?? 0);
  if (match !== null && barsAway <= MAX_SPAN_BARS) return { barsAway, beat: Number(match[2]) };
  if (tstamp2 !== undefined) log.badValue('tstamp2', text, element);
  return null;
};

const stavesOf = (control: Control, point: MarkPoint | null): readonly string[] => {
  const stated = readList(control.element, 'staff');
  const implied = point?.namedStaff ?? control.staff;
  return stated.length === 0 && implied !== null ? [implied] : stated;
};

/** The notes of the harp by bar and onset. */
const findMoments = (notes: readonly NoteDraft[]) => {
  const groups = new Map<string, NoteDraft[]>();
  const onsets = new Map<number, Rational[]>();
  for (const note of notes) {
    const key = `${note.bar} ${rationalKey(note.onset)}`;
    const group = groups.get(key);
    if (group !== undefined) {
      group.push(note);
      continue;
    }
    groups.set(key, [note]);
    const there = onsets.get(note.bar);
    if (there === undefined) onsets.set(note.bar, [note.onset]);
    else there.push(note.onset);
  }
  for (const each of onsets.values()) each.sort(compare);
  return {
    at: (bar: number, onset: Rational): readonly NoteDraft[] =>
      groups.get(`${bar} ${rationalKey(onset)}`) ?? [],
    /** The onset of the bar that lies within a hair of a time. */
    near: (bar: number, time: Rational): Rational | undefined => {
      const there = onsets.get(bar) ?? [];
      const wanted = toNumber(time) - SNAP;
      const found = there[byOnset.right(there, wanted)];
      return found !== undefined && toNumber(found) < wanted + 2 * SNAP ? found : undefined;
    },
  };
};

const byOnset = bisector((onset: Rational) => toNumber(onset));

/** The highest of some notes as written: what an ornament over a chord stands on. */
export const highestOf = (notes: readonly NoteDraft[]): NoteDraft | undefined =>
  notes.toSorted((a, b) => midiOf({ ...b.written, alter: 0 }) - midiOf({ ...a.written, alter: 0 }))[0];

/** Notes in the order in which they are played: graces before the note they lead to. */
export const comparePlayingOrder = (a: NoteDraft, b: NoteDraft): number =>
  compare(a.onset, b.onset) || Number(a.grace === null) - Number(b.grace === null);
