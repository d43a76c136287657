import { group } from 'd3-array';
import type { HeldPin, Pin } from '../harp/pin.ts';
import { isPosition, type Position, type Setting, settingFrom } from '../harp/setting.ts';
import { keyAlter, LETTERS, type Letter, letterAtStep, stepOf } from '../music/pitch.ts';
import { add, compare, type Rational } from '../music/rational.ts';
import type { Note, Score, Sweep } from '../score/model.ts';

/** The setting that a glissando sweeps over, and the letters for which the score left it open. */
export interface SweepSetting {
  readonly sweep: Sweep;
  readonly from: Note;
  readonly to: Note;
  /** The letters of the strings that are swept: all, from seven strings on. */
  readonly letters: readonly Letter[];
  readonly setting: Setting;
  /** Swept letters whose position was taken from the key signature alone. */
  readonly guessed: readonly Letter[];
}

/**
 * The settings of all glissandi. For each letter the first of these that says something decides: the end notes, those
 * of other glissandi at the same time, a note that is plucked meanwhile, a position that the user keeps, the last marking
 * in the file or fixed move that nothing has contradicted since, a note of the letter written out earlier in the bar or
 * in a run that leads here from the bar before, the key signature.
 *
 * @param leftOut ids of notes that are not played
 */
export const findSweepSettings = (
  score: Score,
  pins: readonly Pin[],
  leftOut: ReadonlySet<string> = new Set(),
): SweepSetting[] => {
  const swept = findGlissandi(score);
  if (swept.length === 0) return [];
  const notes = score.notes.filter(({ id, role }) => role !== 'cue' && !leftOut.has(id));
  const ofBar = group(notes, ({ bar }) => bar);
  const stated = listStated(score, pins);
  return swept.map((each) => {
    const { sweep } = each;
    const before = writtenBefore(each, ofBar);
    const meanwhile = pluckedMeanwhile(each, ofBar);
    const ends = [each, ...swept.filter((other) => other !== each && isAtOnce(other, each))];
    const letters = sweptLetters(each);
    const guessed: Letter[] = [];
    const setting = settingFrom((letter) => {
      const told =
        endNote(ends, letter) ??
        meanwhile(letter) ??
        kept(pins, letter, sweep.start) ??
        holdsStill(stated.get(letter)!, score, notes, letter, each) ??
        before(letter);
      if (told !== undefined) return told;
      if (letters.includes(letter)) guessed.push(letter);
      return positionOf(keyAlter(score.bars[sweep.bar]!.keyFifths, letter)) ?? 0;
    });
    return { ...each, letters, setting, guessed };
  });
};

type Glissando = Pick<SweepSetting, 'sweep' | 'from' | 'to'>;

const findGlissandi = ({ sweeps, notes }: Score): readonly Glissando[] => {
  if (sweeps.length === 0) return [];
  const byId = new Map(notes.map((note) => [note.id, note]));
  return sweeps.flatMap((sweep) => {
    const from = byId.get(sweep.from);
    const to = byId.get(sweep.to);
    return sweep.kind !== 'glissando' || from === undefined || to === undefined ? [] : [{ sweep, from, to }];
  });
};

const isAtOnce = ({ sweep: a }: Glissando, { sweep: b }: Glissando): boolean =>
  compare(a.start, b.end) < 0 && compare(b.start, a.end) < 0;

const sweptLetters = ({ from, to }: Glissando): readonly Letter[] => {
  const [lowest, highest] = [stepOf(from.pitch), stepOf(to.pitch)].sort((a, b) => a - b) as [number, number];
  const strings = Math.min(LETTERS.length, highest - lowest + 1);
  const swept = Array.from({ length: strings }, (_, i) => letterAtStep(lowest + i).letter);
  return LETTERS.filter((letter) => swept.includes(letter));
};

const positionOf = (alter: number): Position | undefined => (isPosition(alter) ? alter : undefined);

const endNote = (ends: readonly Glissando[], letter: Letter): Position | undefined => {
  const end = ends.flatMap(({ from, to }) => [from, to]).find((note) => note.pitch.letter === letter);
  return end === undefined ? undefined : positionOf(end.pitch.alter);
};

/** A position that the user keeps holds as long as it is kept. */
const kept = (pins: readonly Pin[], letter: Letter, at: Rational): Position | undefined =>
  pins.findLast(
    (pin): pin is HeldPin =>
      pin.kind === 'position' &&
      pin.letter === letter &&
      compare(pin.from, at) <= 0 &&
      (pin.until === null || compare(at, pin.until) < 0),
  )?.position;

/** What a marking in the file or a move that the user fixed says of a letter, and from when on. */
interface Stated {
  readonly at: Rational;
  readonly bar: number;
  readonly position: Position;
}

/** By letter, all that is marked or fixed, in order of time; of what is stated at one time the fixed move comes last. */
const listStated = (
  { markings, bars }: Score,
  pins: readonly Pin[],
): ReadonlyMap<Letter, readonly Stated[]> => {
  const stated = new Map<Letter, Stated[]>(LETTERS.map((letter) => [letter, []]));
  for (const { at, bar, positions } of markings) {
    for (const letter of LETTERS) {
      const position = positions[letter];
      if (position !== undefined) stated.get(letter)!.push({ at, bar, position });
    }
  }
  for (const pin of pins) {
    if (pin.kind !== 'move') continue;
    const bar = bars.findLastIndex(({ onset }) => compare(onset, pin.at) <= 0);
    stated.get(pin.letter)!.push({ at: pin.at, bar: Math.max(0, bar), position: pin.position });
  }
  for (const each of stated.values()) each.sort((a, b) => compare(a.at, b.at));
  return stated;
};

/** What is marked or fixed last holds until a note or a change of key says otherwise. */
const holdsStill = (
  stated: readonly Stated[],
  { bars }: Score,
  notes: readonly Note[],
  letter: Letter,
  { sweep, from }: Glissando,
): Position | undefined => {
  const last = stated.findLast(({ at }) => compare(at, sweep.start) <= 0);
  if (last === undefined) return undefined;
  const keyAt = (bar: number): number => keyAlter(bars[bar]!.keyFifths, letter);
  if (keyAt(last.bar) !== keyAt(sweep.bar)) return undefined;
  const since = notes.findLast((note) => note.pitch.letter === letter && isBefore(note, sweep, from));
  const isSame =
    since === undefined || compare(since.onset, last.at) < 0 || since.pitch.alter === last.position;
  return isSame ? last.position : undefined;
};

/** Grace notes stand at the onset of the note that they lead to. */
const isBefore = ({ onset, grace, id }: Note, { start }: Sweep, from: Note): boolean => {
  const order = compare(onset, start);
  if (order !== 0 || id === from.id || grace === null) return order < 0;
  return from.grace === null || grace.order < from.grace.order;
};

/** What the notes say that are plucked from the start of a glissando until its end, in the bars that it touches. */
const pluckedMeanwhile = (
  { sweep, from, to }: Glissando,
  ofBar: ReadonlyMap<number, readonly Note[]>,
): ((letter: Letter) => Position | undefined) => {
  const bars = Array.from({ length: Math.max(0, to.bar - from.bar) + 1 }, (_, i) => from.bar + i);
  const notes = bars
    .flatMap((bar) => ofBar.get(bar) ?? [])
    .filter(
      ({ onset, tiedFrom, grace }) =>
        tiedFrom === null &&
        grace === null &&
        compare(onset, sweep.start) >= 0 &&
        compare(onset, sweep.end) < 0,
    );
  return (letter) => {
    const note = notes.find(({ pitch }) => pitch.letter === letter);
    return note === undefined ? undefined : positionOf(note.pitch.alter);
  };
};

/**
 * What the notes before a glissando say of a letter: those of its bar; and where all seven letters are written out in
 * a run that leads straight to it, those of the bar before too (common practice, no source).
 */
const writtenBefore = (
  { sweep, from }: Glissando,
  ofBar: ReadonlyMap<number, readonly Note[]>,
): ((letter: Letter) => Position | undefined) => {
  const here = (ofBar.get(sweep.bar) ?? []).filter((note) => isBefore(note, sweep, from));
  const both = [...(ofBar.get(sweep.bar - 1) ?? []), ...here];
  const leadsHere = both.some(({ onset, duration }) => compare(add(onset, duration), sweep.start) >= 0);
  const isWhole = LETTERS.every((letter) => both.some(({ pitch }) => pitch.letter === letter));
  const written = leadsHere && isWhole ? both : here;
  return (letter) => {
    const note = written.findLast(({ pitch }) => pitch.letter === letter);
    return note === undefined ? undefined : positionOf(note.pitch.alter);
  };
};
