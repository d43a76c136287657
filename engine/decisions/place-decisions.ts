import type { LeverPin } from '../harp/lever-pin.ts';
import type { Pin } from '../harp/pin.ts';
import { readString } from '../harp/scordatura.ts';
import { type Position, positionNamed } from '../harp/setting.ts';
import { isSamePitch, type Letter, midiOf, type Pitch, pitchName } from '../music/pitch.ts';
import { compare, type Rational, rationalKey } from '../music/rational.ts';
import { buildClock } from '../score/bars/clock.ts';
import { canWaitUntil, type Delays } from '../score/delay-notes.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import type { SlowPassage } from '../score/slow-down.ts';
import { findSlidNotes, otherStrings, writtenString } from '../sounding/needs.ts';
import { listMoments } from '../time/moments.ts';
import { keepMoments } from '../time/same-moments.ts';
import type { DecisionPin, Decisions, LeverDecisionPin, NotesAt, PedalDecisionPin, Place } from './model.ts';
import { indexNotes, type NoteIndex } from './notes-at.ts';
import { parsePitch } from './pitch-text.ts';
import { placeTime } from './places.ts';
import { describeUnplaced, type UnplacedDecision, type UnplacedReason } from './unplaced-decisions.ts';

/** A full setting that the user forces to a place or drops there. */
export interface PlacedFullSetting {
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly print: boolean;
}

/** What a user wants to be cued before an entry. */
export interface PlacedCue {
  /** Index of the bar in which the harp comes in. */
  readonly bar: number;
  /** Id of a part; null for no cue. */
  readonly part: string | null;
}

/** A user's decisions on a part at its places in the score, as the planner and the engraver take it. */
export interface PlacedDecisions {
  readonly pins: readonly Pin[];
  readonly leverPins: readonly LeverPin[];
  /** Strings that were chosen for notes, by note id. */
  readonly respelled: ReadonlyMap<string, Pitch>;
  /** Ids of notes. */
  readonly omitted: ReadonlySet<string>;
  readonly delays: Delays;
  readonly fullSettings: readonly PlacedFullSetting[];
  readonly cueParts: readonly PlacedCue[];
  readonly tempos: readonly SlowPassage[];
  /** Entries that have no place in this score; the rest stands without them. */
  readonly unplaced: readonly UnplacedDecision[];
}

/** An entry that has its place, or why it has none; `field` is the part of the entry that the reason is about. */
type Placed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly field: string | null; readonly reason: UnplacedReason };

/**
 * Finds the places and notes of a user's decisions in a score. Of entries about one note or place the last one stands.
 *
 * Linear in the notes and the entries.
 */
export const placeDecisions = (score: Score, decisions: Decisions): PlacedDecisions => {
  const lost: UnplacedDecision[] = [];
  const notes = indexNotes(score);
  const slides = notesOfSlides(score);
  const isMoment = momentFinder(score);
  const placeEach = <L extends keyof Decisions, T>(
    list: L,
    place: (entry: Decisions[L][number]) => Placed<T>,
  ): T[] =>
    (decisions[list] as readonly Decisions[L][number][]).flatMap((entry, index) => {
      const placed = place(entry);
      if (placed.ok) return [placed.value];
      lost.push(describeUnplaced(score, decisions, { list, index, field: placed.field }, placed.reason));
      return [];
    });
  const pins = placeEach('pins', (pin) => placePin(score, pin));
  return {
    pins: pins.filter((pin): pin is Pin => pin.kind !== 'lever-move' && pin.kind !== 'lever-position'),
    leverPins: pins.filter((pin): pin is LeverPin => pin.kind !== 'move' && pin.kind !== 'position'),
    respelled: new Map(placeEach('respell', (entry) => placeRespelling(score, notes, slides, entry)).flat()),
    omitted: new Set(
      placeEach('omit', (entry) => findNotes(score, notes, entry)).flatMap((found) =>
        found.map(({ id }) => id),
      ),
    ),
    delays: placeDelays(score, notes, (place) => placeEach('delays', place)),
    fullSettings: placeEach('fullSettings', (entry) => placeSetting(score, entry, isMoment)),
    cueParts: placeEach('cueParts', (entry) => placeCue(score, entry)),
    tempos: placeEach('tempos', (entry) => placeTempo(score, entry)),
    unplaced: lost,
  };
};

const missing = (field: string | null, reason: UnplacedReason): Placed<never> => ({
  ok: false,
  field,
  reason,
});

const timeOf = (
  score: Score,
  place: Place,
  field: string | null,
  edge: 'within' | 'end' = 'within',
): Placed<Rational> => {
  const placed = placeTime(score, place, edge);
  return placed.ok ? { ok: true, value: placed.at } : missing(field, { kind: `no-${placed.missing}` });
};

const placePin = (score: Score, pin: DecisionPin): Placed<Pin | LeverPin> => {
  if (pin.kind === 'move' || pin.kind === 'lever-move') {
    const at = timeOf(score, pin.at, 'at');
    if (!at.ok) return at;
    const value: Pin | LeverPin =
      pin.kind === 'move'
        ? { kind: 'move', ...aim(pin), at: at.value }
        : { kind: 'lever-move', ...leverAim(pin), at: at.value, hand: pin.hand ?? null };
    return { ok: true, value };
  }
  const placed = placeSpan(score, pin);
  if (!placed.ok) return placed;
  const span = placed.value;
  switch (pin.kind) {
    case 'position':
      return { ok: true, value: { kind: 'position', ...aim(pin), ...span } };
    case 'lever-position':
      return { ok: true, value: { kind: 'lever-position', ...leverAim(pin), ...span } };
    case 'forbid':
      // Only a position may be held to the end.
      return { ok: true, value: { kind: 'forbid', from: span.from, until: span.until! } };
  }
};

/** From one place until just before another, or to the end. */
const placeSpan = (
  score: Score,
  span: { readonly from: Place; readonly until: Place | null },
): Placed<{ readonly from: Rational; readonly until: Rational | null }> => {
  const from = timeOf(score, span.from, 'from');
  if (!from.ok) return from;
  const until: Placed<Rational | null> =
    span.until === null ? { ok: true, value: null } : timeOf(score, span.until, 'until', 'end');
  if (!until.ok) return until;
  return until.value !== null && compare(from.value, until.value) >= 0
    ? missing('until', { kind: 'ends-too-soon' })
    : { ok: true, value: { from: from.value, until: until.value } };
};

/** Those that wait for the same time may make a moment vanish only together: each is held against the ones before it. */
const placeDelays = (
  score: Score,
  notes: NoteIndex,
  placeEach: (place: (entry: Decisions['delays'][number]) => Placed<Delays>) => readonly Delays[],
): Delays => {
  let placed: Delays = new Map();
  placeEach((entry) => {
    const found = findNotes(score, notes, entry);
    if (!found.ok) return found;
    const at = timeOf(score, { ...entry, beat: entry.toBeat }, 'toBeat');
    if (!at.ok) return at;
    if (!found.value.every((note) => canWaitUntil(note, at.value)))
      return missing('toBeat', { kind: 'cannot-wait' });
    const all: Delays = new Map([...placed, ...found.value.map(({ id }) => [id, at.value] as const)]);
    if (!keepMoments(score, all)) return missing('toBeat', { kind: 'no-moment' });
    placed = all;
    return { ok: true, value: all };
  });
  return placed;
};

const placeTempo = (score: Score, entry: Decisions['tempos'][number]): Placed<SlowPassage> => {
  const span = placeSpan(score, entry);
  return span.ok ? { ok: true, value: { ...span.value, quartersPerMinute: entry.quartersPerMinute } } : span;
};

const aim = (pin: PedalDecisionPin): { readonly letter: Letter; readonly position: Position } => ({
  letter: pin.pedal,
  position: positionNamed(pin.position),
});

/** A pin is checked before it is placed: its lever has the name of a string. */
const leverAim = ({ lever, to }: LeverDecisionPin) => ({ string: readString(lever)!, to });

const findNotes = (score: Score, notes: NoteIndex, entry: NotesAt): Placed<readonly Note[]> => {
  const at = timeOf(score, entry, null);
  if (!at.ok) return at;
  const found = notes.find(at.value, entry);
  return found.length === 0 ? missing('pitch', { kind: 'no-note' }) : { ok: true, value: found };
};

const placeRespelling = (
  score: Score,
  notes: NoteIndex,
  slides: ReadonlySet<string>,
  entry: Decisions['respell'][number],
): Placed<readonly (readonly [string, Pitch])[]> => {
  const named = findNotes(score, notes, entry);
  if (named.ok) return stringsFor(named.value, slides, entry);
  // Where the file was written with the chosen string already, the note is found by that.
  const written = findNotes(score, notes, { ...entry, pitch: entry.to });
  return written.ok ? stringsFor(written.value, slides, entry) : named;
};

const stringsFor = (
  found: readonly Note[],
  slides: ReadonlySet<string>,
  entry: Decisions['respell'][number],
): Placed<readonly (readonly [string, Pitch])[]> => {
  if (found.some(({ id }) => slides.has(id))) return missing('pitch', { kind: 'on-slide' });
  const written = writtenString(found[0]!);
  const to = parsePitch(entry.to);
  // To choose the written string is to keep it where spelling is free; a double accidental has none.
  const possible = [
    ...(Number.isInteger(written.alter) && Math.abs(written.alter) <= 1 ? [written] : []),
    ...otherStrings(written),
  ];
  if (
    to === null ||
    !possible.some((each) => isSamePitch({ ...each, octave: to.octave }, to)) ||
    !isOctaves(written, to)
  ) {
    return missing('to', { kind: 'other-pitch', possible: possible.map(pitchName) });
  }
  return { ok: true, value: found.map(({ id }) => [id, to] as const) };
};

/** The most octaves that a note may be moved by. */
const MOST_OCTAVES = 2;

/** Whether two strings sound alike, or whole octaves apart. */
const isOctaves = (a: Pitch, b: Pitch): boolean => {
  const apart = midiOf(a) - midiOf(b);
  return apart % 12 === 0 && Math.abs(apart) <= 12 * MOST_OCTAVES;
};

/** Notes at either end of a slide that stays on one string: they keep it. */
const notesOfSlides = (score: Score): ReadonlySet<string> => {
  const slid = findSlidNotes(score);
  return new Set(score.sweeps.filter(({ to }) => slid.has(to)).flatMap(({ from, to }) => [from, to]));
};

const placeSetting = (
  score: Score,
  entry: Decisions['fullSettings'][number],
  isMoment: (at: Rational) => boolean,
): Placed<PlacedFullSetting> => {
  const at = timeOf(score, entry, null);
  if (!at.ok) return at;
  return isMoment(at.value)
    ? { ok: true, value: { at: at.value, bar: entry.barIndex, print: entry.print } }
    : missing('beat', { kind: 'no-moment' });
};

/** A cue stands before a note of the harp that a rest comes before, and is of another part. */
const placeCue = (score: Score, entry: Decisions['cueParts'][number]): Placed<PlacedCue> => {
  const at = timeOf(score, entry, null);
  if (!at.ok) return at;
  const enters = score.notes.some(
    ({ bar, onset, role }) => role !== 'cue' && bar === entry.barIndex && compare(onset, at.value) === 0,
  );
  if (!enters) return missing('beat', { kind: 'no-entry' });
  if (entry.part === null) return { ok: true, value: { bar: entry.barIndex, part: null } };
  const others = score.parts.filter(({ id }) => !score.harp.partIds.includes(id));
  const byId = others.filter(({ id }) => id === entry.part);
  const named = byId.length > 0 ? byId : others.filter(({ name }) => name === entry.part);
  return named.length === 1
    ? { ok: true, value: { bar: entry.barIndex, part: named[0]!.id } }
    : missing('part', { kind: 'no-part', parts: others.map(({ name, id }) => name || id) });
};

/** Whether a note or a beat falls on a time; the moments are listed when first asked for. */
const momentFinder = (score: Score): ((at: Rational) => boolean) => {
  let moments: ReadonlySet<string> | null = null;
  return (at) => {
    moments ??= new Set(
      listMoments(score, buildClock(score.tempo)).all.map((moment) => rationalKey(moment.at)),
    );
    return moments.has(rationalKey(at));
  };
};
