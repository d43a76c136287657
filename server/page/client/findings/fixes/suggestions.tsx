import { pitchName } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { MusicWords } from '../../controls/music-words.tsx';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { addDecisions } from '../../decisions/decision-edits.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { decisionsOf } from './fix-decisions.ts';

const words = STRINGS.decisions;

/** Respellings that would save moves or fix places, where the user asked for them. */
export const Suggestions = ({
  part,
  actions,
}: {
  readonly part: PlannedPart;
  readonly actions: DecisionActions;
}) => {
  const { suggestions } = part.plan;
  if (suggestions.length === 0) return null;
  return (
    <>
      <h3>{words.suggested}</h3>
      <ul class="fixes">
        {suggestions.map((suggestion) => {
          const { notes, alongside, changes, savesMoves, fixesPlaces } = suggestion;
          const bar = part.notes.get(notes[0] ?? '')?.bar ?? 0;
          const what = words.suggestion(
            [suggestion, ...alongside].map((run) => words.readAs(pitchName(run.from), pitchName(run.to))),
            notes.length + alongside.reduce((sum, run) => sum + run.notes.length, 0),
            part.bars[bar]?.name ?? '',
          );
          return (
            <li key={what}>
              <span>
                <MusicWords>{what}</MusicWords>: {words.saves(savesMoves, fixesPlaces)}.
              </span>
              <button
                type="button"
                class="small"
                aria-label={STRINGS.spokenDoubles(words.applyWhat(what))}
                onClick={() =>
                  actions.change(what, addDecisions(actions.decisions, decisionsOf(part, changes)))
                }
              >
                {words.apply}
              </button>
            </li>
          );
        })}
      </ul>
    </>
  );
};
