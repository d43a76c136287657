import { type NoteChange, pitchName } from '../../../../../engine/index.ts';
import { type Decision, decisionKey } from '../../decisions/decision-edits.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';

type Notes = Pick<PlannedPart, 'notes'>;

const once = (decisions: readonly Decision[]): readonly Decision[] => [
  ...new Map(decisions.map((each) => [decisionKey(each), each])).values(),
];

/** The decisions that bring about changes to notes; a note that the part does not have is passed over. */
export const decisionsOf = ({ notes }: Notes, changes: readonly NoteChange[]): readonly Decision[] =>
  once(
    changes.flatMap((change): Decision[] => {
      const place = notes.get(change.note)?.notes;
      if (place === undefined) return [];
      return change.kind === 'respell'
        ? [{ kind: 'respell', notes: { ...place, to: pitchName(change.to) } }]
        : [{ kind: 'omit', notes: place }];
    }),
  );
