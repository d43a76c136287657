import { pitchName } from '../engine/music/pitch.ts';
import { rationalKey } from '../engine/music/rational.ts';
import type { Finding, Mend, NoteChange } from '../engine/plan/model.ts';
import type { Score } from '../engine/score/model.ts';
import type { NotesAt } from '../engine/work/model.ts';
import { nameNotes } from '../engine/work/notes-at.ts';
import type { ReportedFinding, ReportedMend } from './api/report.ts';

/** Tells a note by its place. */
export type NameNote = (noteId: string) => NotesAt;

/** Names the notes of a score: of those that its plan speaks of. */
export const noteNamer =
  (score: Score): NameNote =>
  (noteId) => {
    const named = nameNotes(score, noteId);
    if (named === null) throw new Error(`a plan speaks of ${noteId}, which is no note of its score`);
    return named;
  };

const reportChange = (change: NoteChange, nameNote: NameNote): ReportedMend['changes'][number] => {
  const { kind, note } = change;
  const at = nameNote(note);
  return kind === 'respell' ? { kind, note, at, to: pitchName(change.to) } : { kind, note, at };
};

export const reportMend = ({ sentence, changes }: Mend, nameNote: NameNote): ReportedMend => ({
  sentence,
  changes: changes.map((change) => reportChange(change, nameNote)),
});

/** What findings of plans and of proofs have in common. */
export const reportFinding = (
  finding: Omit<Finding, 'code' | 'mends'> & { readonly code: string },
): Omit<ReportedFinding, 'mends'> => ({
  code: finding.code,
  severity: finding.severity,
  bar: finding.barNumber,
  beat: rationalKey(finding.beat),
  staff: finding.staff,
  notes: finding.notes,
  sentence: finding.sentence,
  suggestions: finding.suggestions,
});
