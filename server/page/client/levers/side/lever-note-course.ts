import { toNumber } from '../../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import type { ReadPart } from '../../planner/planned-part.ts';
import { quartersOf } from '../lever-moves.ts';

/** The string of a note, its lever when the note sounds, and the changes before and after. Changes are indices. */
export interface LeverNoteCourse {
  /** Such as `F4`. */
  readonly string: string;
  /** What the string is played as, such as `F♯4`. */
  readonly pitch: string;
  /** Null where the string has no lever. */
  readonly lever: 'up' | 'down' | null;
  /** Null where it stands so from before the first note. */
  readonly setBy: number | null;
  readonly movesOn: number | null;
}

type Planned = Pick<LeverPlanReport, 'strings' | 'levers' | 'moves' | 'respellings' | 'omitted'>;

/** The name of the string that a pitch of its letter and octave is played on. */
const stringOf = (pitch: string): string => pitch.replace(/[^A-G\d]/gu, '');

/** What a note, or the note that it is tied to, asks of the levers; null where it is left out, or no string has its name. */
export const leverNoteCourse = (
  { notes }: Pick<ReadPart, 'notes'>,
  { strings, levers, moves, respellings, omitted }: Planned,
  id: string,
): LeverNoteCourse | null => {
  const head = notes.get(id)?.head ?? id;
  const note = notes.get(head);
  if (note === undefined || omitted.includes(head)) return null;
  const pitch = respellings.find((each) => each.note === head)?.to ?? note.name;
  const string = stringOf(pitch);
  const held = strings.find((each) => each.string === string);
  if (held === undefined) return null;
  const onset = toNumber(note.onset);
  const isOwn = (move: (typeof moves)[number]): boolean => move.string === string;
  const setBy = moves.findLastIndex((move) => isOwn(move) && quartersOf(move.at) <= onset);
  const movesOn = moves.findIndex((move) => isOwn(move) && quartersOf(move.at) > onset);
  const atStart = levers.some((up) => stringOf(up) === string) ? 'up' : 'down';
  return {
    string,
    pitch,
    lever: held.lever ? (moves[setBy]?.to ?? atStart) : null,
    setBy: setBy === -1 ? null : setBy,
    movesOn: movesOn === -1 ? null : movesOn,
  };
};
