import { group } from '../group.ts';
import { accidentalSign } from '../music/accidental.ts';
import { compare } from '../music/rational.ts';
import { listNames } from '../words/lists.ts';
import type { LeverMarking } from './model/markings.ts';
import type { Note } from './model/note.ts';
import { type Remark, remarkIn } from './model/remark.ts';
import type { Score } from './model/score.ts';

/** What a format’s reader knows of a note that may show a lever. */
interface NoteLook {
  /** Its head is a diamond. */
  readonly diamond: boolean;
  readonly grace: unknown;
  readonly role: Note['role'];
}

/**
 * Whether a note is a small diamond: it takes no time of its own or has the size of a cue, and bears no sign of a
 * harmonic. In a part for a lever harp such a note is not plucked: it shows, on the line of its string, what the lever is
 * set for. A diamond of full size is a note that is played, as a harmonic is (common practice, no source).
 */
export const isSmallDiamond = ({ diamond, grace, role }: NoteLook, isHarmonic: boolean): boolean =>
  diamond && (grace !== null || role === 'cue') && !isHarmonic;

/**
 * The score as the player of a lever harp reads it: small diamonds are lever markings and no notes, which a remark tells.
 * Read so already, or without such notes, it is the same score.
 */
export const readLeverSigns = (score: Score): Score => {
  if (score.smallDiamonds.length === 0) return score;
  const small = new Set(score.smallDiamonds);
  const signs = score.notes.filter(({ id }) => small.has(id));
  return {
    ...score,
    smallDiamonds: [],
    notes: score.notes.filter(({ id }) => !small.has(id)),
    leverWords: [...score.leverWords, ...signs.filter(isWhole).map(signOf)].sort((a, b) =>
      compare(a.at, b.at),
    ),
    remarks: [...score.remarks, ...remarksOn(signs, score)],
  };
};

/** No lever gives a quarter-tone: such a diamond says nothing of one. */
const isWhole = ({ pitch }: Note): boolean => Number.isInteger(pitch.alter);

const signOf = (note: Note): LeverMarking => {
  const { onset, bar, span, pitch } = note;
  const text = nameOf(note);
  const { letter, octave, alter } = pitch;
  const name = { letter, octave, alter, lever: null, isWhole: false, start: 0, end: text.length };
  return {
    at: onset,
    bar,
    span,
    text,
    form: 'note',
    says: { tuning: null, isTable: false, othersDown: false, names: [name], naming: 'english', time: null },
  };
};

/** As names of levers are written, naturals with their sign too. */
const nameOf = ({ pitch: { letter, alter, octave } }: Note): string =>
  `${letter}${accidentalSign(alter)}${octave}`;

const remarksOn = (signs: readonly Note[], score: Score): readonly Remark[] =>
  [...group(signs, ({ bar }) => bar)].map(([bar, own]) => {
    const names = listNames(own.map(nameOf));
    return remarkIn(score, {
      code: 'lever-signs-read',
      bar,
      message:
        own.length === 1
          ? `The small diamond note ${names} is read as a lever marking: it is not played.`
          : `The small diamond notes ${names} are read as lever markings: they are not played.`,
    });
  });
