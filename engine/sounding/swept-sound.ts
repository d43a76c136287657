import { fitSettings } from '../glissando/fit-setting.ts';
import type { Position, Setting } from '../harp/setting.ts';
import { LETTERS, type Letter, pitchClass, stepOf } from '../music/pitch.ts';
import type { Note } from '../score/model/note.ts';

/**
 * The setting with which a glissando sounds as it is stated: by words such as “E♭ major”, which are followed as nearly
 * as the strings allow; else by its notes, if a setting gives exactly that sound beside the letters that are settled, and
 * they pass over strings, as those of a chord do. A run from string to string states no more than its own letters.
 *
 * @param words sounds in words, as pitch classes
 * @param own the notes of the glissando
 * @param leadIn the run that leads to it
 * @param decided letters that are settled
 * @param standing where the pedals would stand otherwise: the fewest are moved from there
 * @returns null where nothing states a sound, or no setting gives it exactly
 */
export const chooseSweptSound = (
  words: readonly (readonly number[] | null | undefined)[],
  own: readonly Note[],
  leadIn: readonly Note[],
  decided: Readonly<Partial<Record<Letter, Position>>>,
  standing: Setting,
): Setting | null => {
  const inWords = words.filter((sound) => sound !== null && sound !== undefined);
  if (inWords[0] !== undefined) return fitSettings(new Set(inWords[0]), decided, standing).nearest;
  const isOwn = passesOverStrings(own);
  const exactly = (notes: readonly Note[]): Setting | null =>
    fitSettings(new Set([...pitchClassesOf(notes), ...pitchClassesIn(decided)]), decided, standing).exact;
  const stated = isOwn ? exactly(own) : null;
  if (stated !== null || leadIn.length === 0 || !(isOwn || passesOverStrings(leadIn))) return stated;
  return exactly([...leadIn, ...own]);
};

const passesOverStrings = (notes: readonly Note[]): boolean => {
  const steps = [...new Set(notes.map(({ pitch }) => stepOf(pitch)))].sort((a, b) => a - b);
  return steps.some((step, i) => i > 0 && step - steps[i - 1]! > 1);
};

const pitchClassesIn = (decided: Readonly<Partial<Record<Letter, Position>>>): readonly number[] =>
  LETTERS.flatMap((letter) => {
    const alter = decided[letter];
    return alter === undefined ? [] : [pitchClass({ letter, alter })];
  });

const pitchClassesOf = (notes: readonly Note[]): ReadonlySet<number> =>
  new Set(notes.map(({ pitch }) => pitchClass(pitch)));
