import type { Pitch } from '../../../music/pitch.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import type { Ornament } from '../../model/note.ts';
import type { Control, NoteDraft } from '../draft.ts';
import type { ReadLog } from '../log.ts';
import { readAlter } from '../notes/accidentals.ts';
import { highestOf, type MarkTimes } from './mark-times.ts';

/** An ornament before its neighbours are known: which of them it plays, and accidentals printed for them. */
export interface OrnamentSign {
  readonly kind: Ornament['kind'];
  readonly upper: boolean;
  readonly lower: boolean;
  readonly upperAlter: number | undefined;
  readonly lowerAlter: number | undefined;
}

const NAMES: ReadonlySet<string> = new Set(['mordent', 'ornam', 'trill', 'turn']);

const plain = (kind: Ornament['kind'], upper: boolean, lower: boolean): OrnamentSign => ({
  kind,
  upper,
  lower,
  upperAlter: undefined,
  lowerAlter: undefined,
});

/** Ornament letters of the attribute `ornam` (MEI 5.1, data.ORNAM.cmn, by the custom of Humdrum). */
const LETTERS: ReadonlyMap<string, OrnamentSign> = new Map([
  ['t', plain('trill', true, false)],
  ['m', plain('mordent', false, true)],
  ['s', plain('turn', true, true)],
]);

/** Ornaments of the harp's notes, by element or by attribute. One over a chord belongs to its highest note. */
export const findOrnaments = (
  notes: readonly NoteDraft[],
  controls: readonly Control[],
  times: MarkTimes,
  log: ReadLog,
): ReadonlyMap<NoteDraft, OrnamentSign> => {
  const found = new Map<NoteDraft, OrnamentSign>();
  for (const note of notes) {
    if (note.ornament === null) continue;
    found.set(note, LETTERS.get(note.ornament.toLowerCase()) ?? plain('other', false, false));
  }
  for (const control of controls) {
    if (!NAMES.has(control.element.name)) continue;
    const start = times.startOf(control);
    const note = start === null ? undefined : highestOf(times.notesAt(control, start));
    if (note !== undefined) found.set(note, readOrnament(control.element, log));
    else if (times.atHarp(control, start)) {
      log.skip(`a ${control.element.name} that belongs to no note`, control.bar);
    }
  }
  for (const note of notes) {
    const sign = note.copyOf === null ? undefined : found.get(note.copyOf);
    if (sign !== undefined) found.set(note, sign);
  }
  return found;
};

/**
 * The form says which neighbour is played: a mordent's is the lower unless `upper` is said, as in the element's
 * definition (MEI 5.1, mordent); `inv` and `norm` are the spellings of MEI 2013. In the model the mordent is the sign
 * with the stroke, which plays the lower neighbour, as in MusicXML.
 */
const readOrnament = (element: XmlElement, log: ReadLog): OrnamentSign => {
  const form = element.attributes.form?.trim();
  const upperAlter = readAlter(element, 'accidupper.ges', log) ?? readAlter(element, 'accidupper', log);
  const lowerAlter = readAlter(element, 'accidlower.ges', log) ?? readAlter(element, 'accidlower', log);
  const accidentals = { upperAlter, lowerAlter };
  if (element.name === 'trill') return { ...plain('trill', true, false), ...accidentals };
  if (element.name === 'mordent') {
    const upper = form === 'upper' || form === 'norm';
    return { ...plain(upper ? 'inverted-mordent' : 'mordent', upper, !upper), ...accidentals };
  }
  if (element.name === 'turn') {
    const turn = form === 'lower' || form === 'inv' ? 'inverted-turn' : 'turn';
    const isDelayed = element.attributes.delayed?.trim() === 'true';
    return { ...plain(isDelayed ? `delayed-${turn}` : turn, true, true), ...accidentals };
  }
  return { ...plain('other', upperAlter !== undefined, lowerAlter !== undefined), ...accidentals };
};

/** The ornament with its neighbours; `neighbour` gives the pitch some steps away, as key and bar leave it. */
export const spellOrnament = (
  sign: OrnamentSign,
  neighbour: (steps: number, alter: number | undefined) => Pitch,
): Ornament => ({
  kind: sign.kind,
  upper: sign.upper ? neighbour(1, sign.upperAlter) : null,
  lower: sign.lower ? neighbour(-1, sign.lowerAlter) : null,
});
