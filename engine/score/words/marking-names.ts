import type { Position } from '../../harp/setting.ts';
import { accidentalSign } from '../../music/accidental.ts';
import type { Letter } from '../../music/pitch.ts';
import type { SourceMarking } from '../model/markings.ts';
import { NAMINGS, type Naming } from './pedal-names.ts';
import { type PedalName, readBareNames, readPedalNames } from './pedal-words.ts';

/** The names in the text of a marking, and how it calls notes. */
export interface MarkingNames {
  readonly names: readonly PedalName[];
  readonly naming: Naming;
}

/**
 * Finds the names of a marking in a text that should hold it, as the whole part was read.
 *
 * @returns null where the text says something else: the marking is spread over several texts, or written otherwise
 */
export const findMarkingNames = (
  text: string,
  positions: SourceMarking['positions'],
): MarkingNames | null => {
  const readings = [null, ...NAMINGS].flatMap((usual) => {
    const read = readPedalNames(text, usual);
    const bare = usual === null || usual === 'fixed-do' ? null : readBareNames(text, usual);
    return [
      ...(read === null ? [] : [{ names: read.names, naming: read.naming }]),
      ...(bare === null || usual === null ? [] : [{ names: bare, naming: usual }]),
    ];
  });
  const letters = Object.keys(positions) as Letter[];
  const isSame = ({ names }: MarkingNames): boolean =>
    names.length === letters.length && names.every(({ letter, position }) => positions[letter] === position);
  return readings.find(isSame) ?? null;
};

/** A change of a pedal as it is called in a naming; German names without an ending get a sign, as they stand alone. */
export const nameChangeIn = (naming: Naming, letter: Letter, position: Position): string => {
  switch (naming) {
    case 'english':
      return `${letter}${accidentalSign(position)}`;
    case 'fixed-do':
      return `${SYLLABLES[letter]}${accidentalSign(position)}`;
    case 'german':
      if (letter === 'B') return GERMAN_B[position];
      if (position === 0) return `${letter}${accidentalSign(0)}`;
      if (position === 1) return `${letter}is`;
      return letter === 'E' || letter === 'A' ? `${letter}s` : `${letter}es`;
  }
};

const SYLLABLES: Readonly<Record<Letter, string>> = {
  C: 'do',
  D: 're',
  E: 'mi',
  F: 'fa',
  G: 'sol',
  A: 'la',
  B: 'si',
};

/** The flat with its sign: a bare B, standing alone, is a rehearsal letter. */
const GERMAN_B: Readonly<Record<Position, string>> = { [-1]: 'B♭', 0: 'H♮', 1: 'His' };
