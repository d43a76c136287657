import { describeFinding } from '../../findings/describe-finding.ts';
import { help } from '../../findings/help/help.ts';
import type { Pitch } from '../../music/pitch.ts';
import { bentBy } from '../../sounding/bent-strings.ts';
import type { Need } from '../../sounding/needs.ts';
import type { SolvedMove } from '../course/foot.ts';
import { bendsString, HEARD_FRESH_SECONDS } from '../course/move-cost.ts';
import type { OpenFinding } from '../fixes/fix-promises.ts';
import type { PlannedPart } from '../fixes/fix-trials.ts';
import type { TroubledPlace } from '../fixes/note-fixes.ts';
import { aboutMove, changeOf } from './about-moves.ts';

/** A move that bends strings which are still sounding, if it does, and which of their notes may be written otherwise. */
export const bentStrings = (
  part: PlannedPart,
  move: SolvedMove,
): readonly Pick<OpenFinding, 'finding' | 'place'>[] => {
  const { prepared, problem } = part;
  if (!bendsString(move.cost, problem.context.weights)) return [];
  const { letter, after, before } = move;
  const bent = bentBy(move.moment, problem.needs.get(letter)!, problem.context, HEARD_FRESH_SECONDS);
  const sounding = stringsOf(bent);
  const { notes, place } = aboutMove(part, move);
  const left = bent.length === 0 && after !== null ? [after] : bent;
  const finding = describeFinding(
    prepared.score,
    'ringing-string-moved',
    { harp: 'pedal', change: changeOf(move), sounding },
    {
      notes: [...left.map(({ note }) => note), ...notes],
      place,
      help: [help('damp-earlier', { letter, sounding })],
    },
  );
  return [{ finding, place: before === null ? null : placeOf(move, before, left) }];
};

const placeOf = ({ moment }: SolvedMove, before: Need, left: readonly Need[]): TroubledPlace => ({
  trouble: { kind: 'bends-string', note: before.note.id },
  about: [...left, before],
  moment,
});

/** What strings give, from below, each once. Of a glissando no single string is told. */
const stringsOf = (needs: readonly Need[]): readonly Pitch[] => {
  const byOctave = new Map(
    needs.flatMap(({ kind, letter, octave, position }) =>
      kind === 'swept' ? [] : [[octave, { letter, octave, alter: position }] as const],
    ),
  );
  return [...byOctave.values()].sort((a, b) => a.octave - b.octave);
};
