import { readWantedSound } from '../../glissando/wanted-sound.ts';
import type { SweepWords } from '../model/between-notes.ts';
import { readPedalWords } from './pedal-words.ts';

/** “gliss.”, “glissando”, “glissez”, “en glissant”, “glissato”, “gleitend”; not “senza gliss.”. */
const GLISSANDO =
  /(?<!\p{L})(?<!(?:senza|non|no|sans|ohne|nicht|without)\s+)(?:en\s+)?(?:gliss(?:ando|andos|andi|ant|ez|er|é|ato|ati)?|gleitend)(?!\p{L})[.:]*/iu;

/** Words to be played, with room to spare. */
const LONGEST_TEXT = 200;

/**
 * Reads words that ask for a glissando, and what they state of its strings.
 *
 * @returns null for any other text
 * @example readGlissandoWords('gliss. (D♭ C♮)') // { positions: { D: -1, C: 0 }, sound: null }
 */
export const readGlissandoWords = (text: string): SweepWords | null =>
  text.length <= LONGEST_TEXT && GLISSANDO.test(text) ? (readSweepWords(text) ?? NOTHING_STATED) : null;

const NOTHING_STATED: SweepWords = { positions: {}, sound: null };

/**
 * Reads what words at a glissando state of its strings: positions of pedals, or a chord or scale by its name in
 * capitals or in German; three notes at the least, so that no other word is taken for a sound.
 */
export const readSweepWords = (text: string): SweepWords | null => {
  const rest = text
    .slice(0, LONGEST_TEXT)
    .replace(GLISSANDO, ' ')
    .replace(/^[\s([:,;–-]+|[\s)\]:,;.–-]+$/gu, '');
  if (rest === '') return null;
  const positions = readPedalWords(rest)?.positions;
  if (positions !== undefined) return { positions, sound: null };
  if (!/^[A-H]|-(?:dur|moll)$/iu.test(rest) || /^[a-h](?!\p{L}*-moll$)/u.test(rest)) return null;
  const read = readWantedSound(rest);
  return read.ok && read.value.pitchClasses.size >= 3
    ? { positions: {}, sound: [...read.value.pitchClasses] }
    : null;
};
