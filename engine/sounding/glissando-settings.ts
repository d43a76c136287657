import { group } from '../group.ts';
import type { Pin } from '../harp/pin.ts';
import { isPosition, type Position, type Setting, settingFrom } from '../harp/setting.ts';
import { keyAlter, LETTERS, type Letter, letterAtStep, stepOf } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Sweep } from '../score/model/between-notes.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { notesById } from '../score/notes-by-id.ts';
import { isJoined, isSmall } from '../score/words/runs.ts';
import { chooseSweptSound } from './swept-sound.ts';

/** The setting that a glissando sweeps over, and the letters for which the score left it open. */
export interface SweepSetting {
  readonly sweep: Sweep;
  readonly from: Note;
  /** The arrival: plucked after the sweep, in a position of its own. */
  readonly to: Note;
  /** The letters of the strings that are swept, without the arrival's string: all, from seven strings on. */
  readonly letters: readonly Letter[];
  readonly setting: Setting;
  /** Swept letters whose position was taken from the key signature alone. */
  readonly guessed: readonly Letter[];
}

/**
 * The settings of all glissandi. For each letter the first of these that says something decides: the first note and
 * those written out on the way, of this and of other glissandi at the same time; another note that is plucked meanwhile;
 * a position that the user keeps; the last of the words at a glissando, the markings in the file and the moves that
 * the user fixed, if nothing has contradicted it since; the sound that the words or the notes of the glissando state,
 * where the seven strings can give exactly that, and what the letters decided so far add to it; the last note of the
 * letter, or glissando over it that was not guessed itself, in this bar or in the one before; the key signature. The arrival
 * note is plucked after the sweep and decides nothing (common practice, no source).
 *
 * @param omitted ids of notes that are not played
 */
export const findSweepSettings = (
  score: Score,
  pins: readonly Pin[],
  omitted: ReadonlySet<string> = new Set(),
): SweepSetting[] => {
  const swept = findGlissandi(score);
  if (swept.length === 0) return [];
  const notes = score.notes.filter(({ id, role }) => role !== 'cue' && !omitted.has(id));
  const ofBar = group(notes, ({ bar }) => bar);
  const stated = listStated(score, pins);
  const settled: SweepSetting[] = [];
  for (const each of swept) {
    const { sweep } = each;
    const before = writtenBefore(each, settled, ofBar);
    const meanwhile = pluckedMeanwhile(each, ofBar);
    const all = [each, ...swept.filter((other) => other !== each && isAtOnce(other, each))];
    const own = all.flatMap((one) => writtenOut(one, ofBar));
    const key = (letter: Letter): Position =>
      positionOf(keyAlter(score.bars[sweep.bar]!.keyFifths, letter)) ?? 0;
    const decided = partly(
      (letter) =>
        positionIn(own, letter) ??
        meanwhile(letter) ??
        kept(pins, letter, sweep) ??
        holdsStill(stated.get(letter)!, score, notes, letter, each),
    );
    const sound = chooseSweptSound(
      all.map((one) => one.sweep.words?.sound),
      own,
      leadIn(each, ofBar),
      decided,
      settingFrom((letter) => decided[letter] ?? before(letter) ?? key(letter)),
    );
    const letters = sweptLetters(each);
    const guessed: Letter[] = [];
    const setting = settingFrom((letter) => {
      const told = decided[letter] ?? sound?.[letter] ?? before(letter);
      if (told !== undefined) return told;
      if (letters.includes(letter)) guessed.push(letter);
      return key(letter);
    });
    settled.push({ ...each, letters, setting, guessed });
  }
  return settled;
};

type Glissando = Pick<SweepSetting, 'sweep' | 'from' | 'to'>;

const findGlissandi = ({ sweeps, notes }: Score): readonly Glissando[] => {
  if (sweeps.length === 0) return [];
  const byId = notesById(notes);
  return sweeps.flatMap((sweep) => {
    const from = byId.get(sweep.from);
    const to = byId.get(sweep.to);
    return sweep.kind !== 'glissando' || from === undefined || to === undefined ? [] : [{ sweep, from, to }];
  });
};

const isAtOnce = ({ sweep: a }: Glissando, { sweep: b }: Glissando): boolean =>
  compare(a.start, b.end) < 0 && compare(b.start, a.end) < 0;

const sweptLetters = ({ from, to }: Glissando): readonly Letter[] => {
  const [first, arrival] = [stepOf(from.pitch), stepOf(to.pitch)];
  const strings = Math.min(LETTERS.length, Math.abs(arrival - first));
  const towards = Math.sign(arrival - first);
  const swept = Array.from({ length: strings }, (_, i) => letterAtStep(first + towards * i).letter);
  return LETTERS.filter((letter) => swept.includes(letter));
};

const positionOf = (alter: number): Position | undefined => (isPosition(alter) ? alter : undefined);

const positionIn = (notes: readonly Note[], letter: Letter): Position | undefined => {
  const note = notes.find(({ pitch }) => pitch.letter === letter);
  return note === undefined ? undefined : positionOf(note.pitch.alter);
};

const partly = (
  at: (letter: Letter) => Position | undefined,
): Readonly<Partial<Record<Letter, Position>>> => {
  const known: Partial<Record<Letter, Position>> = {};
  for (const letter of LETTERS) {
    const position = at(letter);
    if (position !== undefined) known[letter] = position;
  }
  return known;
};

/** The first note of a glissando, and the notes of its voice on the way to the arrival. */
const writtenOut = (
  { sweep, from, to }: Glissando,
  ofBar: ReadonlyMap<number, readonly Note[]>,
): readonly Note[] => {
  const bars = Array.from({ length: Math.max(0, to.bar - from.bar) + 1 }, (_, i) => from.bar + i);
  const between = bars
    .flatMap((bar) => ofBar.get(bar) ?? [])
    .filter(
      (note) =>
        note.voice === from.voice &&
        (note.staff === from.staff || note.staff === to.staff) &&
        note.tiedFrom === null &&
        note.chord !== from.chord &&
        note.chord !== to.chord &&
        !isBefore(note, sweep.start, from) &&
        isBefore(note, sweep.end, to),
    );
  return [from, ...between];
};

/** Three small notes or more that lead straight to a glissando in its voice, in this bar or from the bar before. */
const leadIn = ({ sweep, from }: Glissando, ofBar: ReadonlyMap<number, readonly Note[]>): readonly Note[] => {
  const voice = [...(ofBar.get(sweep.bar - 1) ?? []), ...(ofBar.get(sweep.bar) ?? [])].filter(
    (note) => note.voice === from.voice && isBefore(note, sweep.start, from),
  );
  const loose = voice.findLastIndex((note, i) => {
    const next = voice[i + 1] ?? from;
    return !isSmall(note) || !isJoined(note, next);
  });
  const run = voice.slice(loose + 1);
  return run.length < 3 ? [] : run;
};

/** A position that the user keeps while a glissando is swept, be it from its midst on, or by a move that is fixed there. */
const kept = (pins: readonly Pin[], letter: Letter, { start, end }: Sweep): Position | undefined =>
  pins.findLast((pin): pin is Exclude<Pin, { readonly kind: 'forbid' }> => {
    if (pin.kind === 'forbid' || pin.letter !== letter) return false;
    if (pin.kind === 'move') return compare(pin.at, start) > 0 && compare(pin.at, end) < 0;
    return (
      (compare(pin.from, start) <= 0 || compare(pin.from, end) < 0) &&
      (pin.until === null || compare(start, pin.until) < 0)
    );
  })?.position;

/** What words, a marking in the file or a move that the user fixed say of a letter, and from when on. */
interface Stated {
  readonly at: Rational;
  readonly bar: number;
  readonly position: Position;
  /** Fixed by the user, or kept: holds over a change of key too. */
  readonly fixed: boolean;
}

/** By letter, all that is stated, in order of time; at one time the words come after markings, and fixed moves last. */
const listStated = (
  { markings, sweeps, bars }: Score,
  pins: readonly Pin[],
): ReadonlyMap<Letter, readonly Stated[]> => {
  const stated = new Map<Letter, Stated[]>(LETTERS.map((letter) => [letter, []]));
  const inWords = sweeps.flatMap(({ start: at, bar, words }) =>
    words === null ? [] : [{ at, bar, positions: words.positions }],
  );
  for (const { at, bar, positions } of [...markings, ...inWords]) {
    for (const letter of LETTERS) {
      const position = positions[letter];
      if (position !== undefined) stated.get(letter)!.push({ at, bar, position, fixed: false });
    }
  }
  for (const pin of pins) {
    if (pin.kind !== 'move') continue;
    const bar = bars.findLastIndex(({ onset }) => compare(onset, pin.at) <= 0);
    stated.get(pin.letter)!.push({
      at: pin.at,
      bar: Math.max(0, bar),
      position: pin.position,
      fixed: true,
    });
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
  if (!last.fixed && keyAt(last.bar) !== keyAt(sweep.bar)) return undefined;
  const since = notes.findLast((note) => note.pitch.letter === letter && isBefore(note, sweep.start, from));
  const isSame =
    since === undefined || compare(since.onset, last.at) < 0 || since.pitch.alter === last.position;
  return isSame ? last.position : undefined;
};

/** Grace notes stand at the onset of the note that they lead to. */
const isBefore = ({ onset, grace, id }: Note, at: Rational, end: Note): boolean => {
  const order = compare(onset, at);
  if (order !== 0 || id === end.id || grace === null) return order < 0;
  return end.grace === null || grace.order < end.grace.order;
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
  return (letter) => positionIn(notes, letter);
};

/**
 * What the notes and glissandi before a glissando say of a letter: those of its bar, else those of the bar before. A
 * pedal is left where it stands, so that they outweigh a key signature (common practice, no source).
 */
const writtenBefore = (
  { sweep, from }: Glissando,
  settled: readonly SweepSetting[],
  ofBar: ReadonlyMap<number, readonly Note[]>,
): ((letter: Letter) => Position | undefined) => {
  const here = (ofBar.get(sweep.bar) ?? []).filter((note) => isBefore(note, sweep.start, from));
  const written = [...(ofBar.get(sweep.bar - 1) ?? []), ...here].toReversed();
  const last = settled.findLast(
    ({ sweep: { end }, to }) => compare(end, sweep.start) <= 0 && to.bar >= sweep.bar - 1,
  );
  const since = last === undefined ? [] : written.filter(({ onset }) => compare(onset, last.sweep.end) >= 0);
  return (letter) => {
    const isSwept = last?.letters.includes(letter) && !last.guessed.includes(letter);
    const swept = isSwept ? last?.setting[letter] : undefined;
    return positionIn(since, letter) ?? swept ?? positionIn(written, letter);
  };
};
