import { group } from '../group.ts';
import { LETTERS } from '../music/pitch.ts';
import { compare, rationalKey } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';
import type { JudgedChange, Stated, StatedPedal } from './model.ts';
import { joinSounds } from './wrong-sounds.ts';

/** One slip of a pupil may be two edits of the file; a teacher tells it as one. */
interface Joined<Of extends Stated> {
  readonly changes: readonly JudgedChange<Of>[];
  readonly taken: ReadonlySet<JudgedChange<Of>>;
}

/**
 * Pedals that the opening setting has wrong, where the repair writes them before their first note: the opening is wrong,
 * nothing is missing.
 */
export const joinWithOpening = (
  changes: readonly JudgedChange<StatedPedal>[],
  { notes }: Pick<Score, 'notes'>,
): readonly JudgedChange<StatedPedal>[] => {
  const opening = changes.find(({ kind, marking }) => kind === 'opening' && marking !== null);
  if (opening === undefined) return changes;
  const own = changes.filter((change) => {
    const [pedal] = change.stated;
    return (
      change.verdict === 'missing' &&
      change.kind === 'change' &&
      pedal !== undefined &&
      !changes.some(
        (other) => other !== opening && isBetween(other, opening, change) && saysSame(other, pedal),
      ) &&
      !notes.some(
        ({ pitch, onset, role }) =>
          role === 'played' &&
          pitch.letter === pedal.letter &&
          compare(onset, opening.at) >= 0 &&
          compare(onset, change.at) < 0,
      )
    );
  });
  if (own.length === 0) return changes;
  const written = opening.correction?.kind === 'write' ? opening.correction.stated : [];
  const joined: JudgedChange<StatedPedal> = {
    ...opening,
    verdict: 'wrong',
    sounds: joinSounds(opening.sounds, ...own.map(({ sounds }) => sounds.slice(0, 1))),
    correction: { kind: 'write', stated: [...written, ...own.flatMap(({ stated }) => stated)] },
  };
  return changes.flatMap((each) => (each === opening ? [joined] : own.includes(each) ? [] : [each]));
};

const isBetween = ({ at, marking }: JudgedChange, opening: JudgedChange, change: JudgedChange): boolean =>
  marking !== null && compare(at, opening.at) >= 0 && compare(at, change.at) < 0;

const saysSame = ({ stated }: JudgedChange<StatedPedal>, { letter }: StatedPedal): boolean =>
  stated.some((each) => each.letter === letter);

/** A full setting that is right in itself and stands in the wrong place, or is one too many: that is one fault, not seven. */
export const joinSettings = (
  changes: readonly JudgedChange<StatedPedal>[],
): readonly JudgedChange<StatedPedal>[] => {
  const bySetting = group(changes.filter(isMoved), faultKey);
  const settings = [...bySetting.values()].filter((own) => own.length === LETTERS.length);
  const joined = new Map(
    settings.map((own): [JudgedChange<StatedPedal>, JudgedChange<StatedPedal>] => [
      own[0]!,
      {
        ...own[0]!,
        stated: own.flatMap(({ stated }) => stated),
        sounds: joinSounds(...own.map(({ sounds }) => sounds.slice(0, 1))),
        tooQuick: own.some(({ tooQuick }) => tooQuick),
      },
    ]),
  );
  const taken = new Set(settings.flatMap((own) => own.slice(1)));
  return changes.filter((each) => !taken.has(each)).map((each) => joined.get(each) ?? each);
};

const isMoved = ({ verdict, correction, marking }: JudgedChange): boolean =>
  marking !== null && verdict === 'wrong' && (correction?.kind === 'move' || correction?.kind === 'strike');

const faultKey = ({ marking, correction }: JudgedChange): string =>
  `${marking} ${correction?.kind === 'move' ? rationalKey(correction.to.at) : ''}`;

/**
 * A wrong change that is to go, and one that is missing in its bar or the next: the wrong pedal or lever, or the wrong sign,
 * written too early besides. That is one wrong change, corrected.
 */
export const joinSlips = <Of extends Stated>(
  changes: readonly JudgedChange<Of>[],
): readonly JudgedChange<Of>[] => {
  const { changes: joined, taken } = changes.reduce<Joined<Of>>(
    ({ changes: done, taken }, change) => {
      const meant = changes.find((other) => !taken.has(other) && isMeant(change, other));
      if (meant === undefined) return { changes: [...done, change], taken };
      const slip: JudgedChange<Of> = {
        ...change,
        sounds: joinSounds(change.sounds, meant.sounds),
        correction: {
          kind: 'write',
          stated: meant.stated,
          to: { at: meant.at, bar: meant.bar, beat: meant.beat },
        },
      };
      return { changes: [...done, slip], taken: new Set([...taken, meant]) };
    },
    { changes: [], taken: new Set() },
  );
  return joined.filter((each) => !taken.has(each));
};

const isMeant = (written: JudgedChange, wanted: JudgedChange): boolean => {
  if (written.verdict !== 'wrong' || written.correction?.kind !== 'strike') return false;
  if (wanted.verdict !== 'missing' || wanted.kind !== 'change') return false;
  const [said, meant] = [written.stated, wanted.stated];
  return (
    said.length === 1 &&
    meant.length === 1 &&
    isSlip(said[0]!, meant[0]!) &&
    compare(wanted.at, written.at) >= 0 &&
    wanted.bar - written.bar <= 1
  );
};

/** Whether one is written for the other by a slip: of the letter, of the sign, or of the octave. */
const isSlip = (said: Stated, meant: Stated): boolean => {
  if (!('string' in said) && !('string' in meant))
    return said.letter === meant.letter || said.position === meant.position;
  if (!('string' in said) || !('string' in meant)) return false;
  return said.string.letter === meant.string.letter || said.alter === meant.alter;
};
