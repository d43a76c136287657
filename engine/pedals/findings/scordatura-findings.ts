import { describeFinding, withoutFixes } from '../../findings/describe-finding.ts';
import { type Help, help } from '../../findings/help/help.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { listRetuned, nameString, type Scordatura } from '../../harp/scordatura.ts';
import type { Pitch } from '../../music/pitch.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { type NeedList, writtenString } from '../../sounding/needs.ts';
import type { PlanOptions } from '../options.ts';
import type { PreparedScore } from '../pedal-problem.ts';
import { adviseRetuning, findRetuning } from './retuning.ts';

/** What to tune otherwise before the piece, and the notes that lose their string by it. */
export const scordaturaFindings = (
  { score, options }: PreparedScore,
  { lostByRetuning: lost, needs }: NeedList,
): PedalFinding[] => {
  const { scordatura } = options;
  if (scordatura.size === 0) return [];
  const raised = [...scordatura.values()].some((cents) => cents > 0);
  const tuned = listRetuned(scordatura);
  const users = needs.filter((need) => scordatura.has(nameString(need))).map(({ note }) => note);
  return [
    describeFinding(
      score,
      raised ? 'string-tuned-higher' : 'string-retuned',
      { tuned },
      {
        notes: users,
        place: 'start',
        help: raised ? [help('ask-technician', {})] : [],
      },
    ),
    ...lost.map((note) =>
      describeFinding(
        score,
        'pitch-lost-by-retuning',
        { pitch: writtenString(note) },
        { notes: [note], help: [help('retune-another', {})] },
      ),
    ),
  ];
};

const pitchesOf = (note: Note): Pitch[] =>
  [writtenString(note), note.ornament?.upper, note.ornament?.lower].filter(
    (pitch) => pitch !== null && pitch !== undefined,
  );

/** The tuning that would give the piece its microtones, to be told at each of them. */
export const adviseForMicrotones = (score: Score, { profile, omitted }: PlanOptions): Help => {
  const played = score.notes.filter(({ role, id }) => role !== 'cue' && !omitted.has(id));
  const found = findRetuning(played.flatMap(pitchesOf), profile);
  return found === null ? help('retuning-is-no-help', {}) : adviseRetuning(found);
};

/** Fixes that would take a note to or from a string tuned otherwise are no fixes. */
export const withoutRetunedStrings = (finding: PedalFinding, scordatura: Scordatura): PedalFinding =>
  scordatura.size === 0
    ? finding
    : withoutFixes(
        finding,
        (change) =>
          change.kind === 'respell' &&
          [change.from, change.to].some((pitch) => scordatura.has(nameString(pitch))),
      );
