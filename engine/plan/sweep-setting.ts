import { isPosition, type Position, type Setting, settingFrom } from '../harp/setting.ts';
import { keyAlter, type Letter } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Note, Score, Sweep } from '../score/model.ts';
import type { Pin } from './options.ts';

/** The setting that a glissando sweeps over, and the letters for which the score left it open. */
export interface SweepSetting {
  readonly sweep: Sweep;
  readonly from: Note;
  readonly to: Note;
  readonly setting: Setting;
  /** Letters whose position was taken from the key signature alone. */
  readonly guessed: readonly Letter[];
}

/**
 * The settings of all glissandi. For each letter the first of these that says something decides: the end notes, the
 * user's pins, a marking in the file in this bar or the one before, a note of the letter written out earlier in the
 * bar, the key signature.
 */
export const findSweepSettings = (score: Score, pins: readonly Pin[]): SweepSetting[] => {
  if (score.sweeps.length === 0) return [];
  const byId = new Map(score.notes.map((note) => [note.id, note]));
  const ofBar = notesByBar(score.notes);
  return score.sweeps.flatMap((sweep) => {
    const from = byId.get(sweep.from);
    const to = byId.get(sweep.to);
    if (sweep.kind !== 'glissando' || from === undefined || to === undefined) return [];
    const guessed: Letter[] = [];
    const setting = settingFrom((letter) => {
      const stated =
        endNote(from, to, letter) ??
        pinned(pins, letter, sweep.start) ??
        marked(score, letter, sweep) ??
        writtenOut(ofBar.get(sweep.bar) ?? [], letter, sweep);
      if (stated !== undefined) return stated;
      guessed.push(letter);
      return positionOf(keyAlter(score.bars[sweep.bar]!.keyFifths, letter)) ?? 0;
    });
    return [{ sweep, from, to, setting, guessed }];
  });
};

const positionOf = (alter: number): Position | undefined => (isPosition(alter) ? alter : undefined);

const endNote = (from: Note, to: Note, letter: Letter): Position | undefined => {
  const end = [from, to].find((note) => note.pitch.letter === letter);
  return end === undefined ? undefined : positionOf(end.pitch.alter);
};

const pinned = (pins: readonly Pin[], letter: Letter, at: Rational): Position | undefined =>
  pins.findLast(
    (pin): pin is Extract<Pin, { letter: Letter }> =>
      pin.kind !== 'forbid' &&
      pin.letter === letter &&
      (pin.kind === 'move'
        ? compare(pin.at, at) <= 0
        : compare(pin.from, at) <= 0 && (pin.until === null || compare(at, pin.until) < 0)),
  )?.position;

const marked = (score: Score, letter: Letter, sweep: Sweep): Position | undefined =>
  score.markings.findLast(
    (marking) =>
      marking.bar >= sweep.bar - 1 &&
      compare(marking.at, sweep.start) <= 0 &&
      marking.positions[letter] !== undefined,
  )?.positions[letter];

const notesByBar = (notes: readonly Note[]): ReadonlyMap<number, readonly Note[]> => {
  const byBar = new Map<number, Note[]>();
  for (const note of notes) {
    const known = byBar.get(note.bar);
    if (known === undefined) byBar.set(note.bar, [note]);
    else known.push(note);
  }
  return byBar;
};

const writtenOut = (ofBar: readonly Note[], letter: Letter, sweep: Sweep): Position | undefined => {
  const note = ofBar.findLast((each) => each.pitch.letter === letter && compare(each.onset, sweep.start) < 0);
  return note === undefined ? undefined : positionOf(note.pitch.alter);
};
