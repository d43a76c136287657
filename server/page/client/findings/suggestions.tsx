import { pitchName } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { Desk } from '../decisions/desk.ts';
import { addDecisions } from '../decisions/work-edits.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { decisionsOfSuggestion } from './mend-decisions.ts';

const words = STRINGS.work;

/** Respellings that would save moves or mend places, where the user asked for them. */
export const Suggestions = ({ part, desk }: { readonly part: PlannedPart; readonly desk: Desk }) => {
  const { suggestions } = part.plan;
  if (suggestions.length === 0) return null;
  return (
    <>
      <h3>{words.suggested}</h3>
      <ul class="mends">
        {suggestions.map((suggestion) => {
          const { notes, alongside, savesMoves, mendsPlaces } = suggestion;
          const bar = part.notes.get(notes[0] ?? '')?.bar ?? 0;
          const what = words.suggestion(
            [suggestion, ...alongside].map((run) => words.readAs(pitchName(run.from), pitchName(run.to))),
            notes.length + alongside.reduce((sum, run) => sum + run.notes.length, 0),
            part.bars[bar]?.number ?? '',
          );
          return (
            <li key={what}>
              <span>
                {what}: {words.saves(savesMoves, mendsPlaces)}.
              </span>
              <button
                type="button"
                class="small"
                aria-label={words.applyWhat(what)}
                onClick={() =>
                  desk.change(what, addDecisions(desk.work, decisionsOfSuggestion(part, suggestion)))
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
