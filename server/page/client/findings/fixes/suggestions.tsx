import { nameRun } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { MusicWords } from '../../controls/music-words.tsx';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { addDecisions } from '../../decisions/decision-edits.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { decisionsOf } from './fix-decisions.ts';

const words = STRINGS.decisions;

/** The names of the bars of the first and the last of some notes. */
const barsOf = ({ notes, bars }: PlannedPart, ids: readonly string[]): readonly [string, string] => {
  const [first, last] = [ids[0]!, ids.at(-1)!].map((id) => bars[notes.get(id)?.bar ?? 0]?.name ?? '');
  return [first!, last!];
};

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
          const { alongside, changes, savesMoves, fixesPlaces } = suggestion;
          const what = words.suggestion(
            [suggestion, ...alongside].map((run) =>
              words.readAs(
                { ...nameRun(run), notes: run.notes.length, octaves: run.octaves },
                barsOf(part, run.notes),
              ),
            ),
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
