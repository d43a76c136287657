import type { PedalFinding } from '../findings/model.ts';
import type { Move, Plan, SuggestedRun } from '../pedals/model.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import type { NoteChange } from '../sounding/changed-needs.ts';

const SECOND = '-p2';

/** The id that a note has where the same part stands a second time, for the second player. */
export const secondId = (id: string): string => `${id}${SECOND}`;

/** A part whose notes and rests have ids of their own, so that it can stand beside the first player's in one score. */
export const withSecondIds = (score: Score): Score => {
  const maybe = (id: string | null): string | null => (id === null ? null : secondId(id));
  const rename = (note: Note): Note => ({
    ...note,
    id: secondId(note.id),
    chord: secondId(note.chord),
    tiedFrom: maybe(note.tiedFrom),
    beam: maybe(note.beam),
    tremolo: note.tremolo === null ? null : { ...note.tremolo, pair: maybe(note.tremolo.pair) },
  });
  return {
    ...score,
    notes: score.notes.map(rename),
    rests: score.rests.map((rest) => ({ ...rest, id: secondId(rest.id) })),
    sweeps: score.sweeps.map((sweep) => ({ ...sweep, from: secondId(sweep.from), to: secondId(sweep.to) })),
    share:
      score.share === null
        ? null
        : { ...score.share, others: new Set([...score.share.others].map(secondId)) },
  };
};

/** The plan of a part for the same part with ids of its own (`withSecondIds`). */
export const withSecondIdsInPlan = (plan: Plan): Plan => ({
  ...plan,
  moves: plan.moves.map(renameMove),
  findings: plan.findings.map(renameFinding),
  respellings: plan.respellings.map((each) => ({ ...each, note: secondId(each.note) })),
  omitted: plan.omitted.map(secondId),
  suggestions: plan.suggestions.map((each) => ({
    ...each,
    ...renameRun(each),
    alongside: each.alongside.map(renameRun),
    changes: each.changes.map(renameChange),
  })),
});

const renameMove = (move: Move): Move => {
  const { after, before } = move.window;
  return {
    ...move,
    graceNote: move.graceNote === null ? null : secondId(move.graceNote),
    window: {
      after: after === null ? null : { ...after, note: secondId(after.note) },
      before: before === null ? null : { ...before, note: secondId(before.note) },
    },
  };
};

const renameFinding = (finding: PedalFinding): PedalFinding => ({
  ...finding,
  notes: finding.notes.map(secondId),
  places: finding.places.map((place) => ({ ...place, notes: place.notes.map(secondId) })),
  fixes: finding.fixes.map((fix) => ({ ...fix, changes: fix.changes.map(renameChange) })),
});

const renameRun = (run: SuggestedRun): SuggestedRun => ({ ...run, notes: run.notes.map(secondId) });

const renameChange = (change: NoteChange): NoteChange => ({ ...change, note: secondId(change.note) });
