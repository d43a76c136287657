import type { ComponentChildren } from 'preact';
import { STRINGS } from '../../strings/strings.ts';
import { useKeptFocus } from '../controls/kept-focus.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Spot } from '../selection/spot.ts';
import type { DecisionActions } from './decision-actions.ts';
import { type Decision, decisionKey, listDecisions, placeOf } from './decision-edits.ts';
import { describeDecision } from './decision-words.ts';
import { quartersOfPlace } from './places.ts';

const words = STRINGS.decisions;

type Place = Extract<Spot, { readonly kind: 'place' }>;

/** One decision: to be gone to, and to be taken back. */
const DecisionItem = ({
  part,
  decision,
  onGo,
  onRemove,
}: {
  readonly part: Pick<PlannedPart, 'bars'>;
  readonly decision: Decision;
  readonly onGo: (place: Place) => void;
  readonly onRemove: () => void;
}) => {
  const told = describeDecision(part, decision);
  const place = placeOf(decision);
  const goTo = (): void =>
    onGo({ kind: 'place', bar: place.barIndex, quarters: quartersOfPlace(part, place) });
  return (
    <li>
      <button type="button" class="plain" aria-label={STRINGS.spokenDoubles(words.goTo(told))} onClick={goTo}>
        {told}
      </button>
      <button
        type="button"
        class="small"
        aria-label={STRINGS.spokenDoubles(words.removeWhat(told))}
        onClick={onRemove}
      >
        {words.remove}
      </button>
    </li>
  );
};

/** Everything that the user decided, each to be gone to and to be taken back. */
export const DecisionsPanel = ({
  part,
  actions,
  lost,
  none,
  children,
  onGo,
}: {
  readonly part: Pick<PlannedPart, 'bars'>;
  readonly actions: DecisionActions;
  /** What became of decisions that have no place in this part, in sentences. */
  readonly lost: readonly string[];
  /** What is said where nothing is decided. */
  readonly none: string;
  /** Ways to decide more. */
  readonly children: ComponentChildren;
  readonly onGo: (place: Place) => void;
}) => {
  const decisions = listDecisions(actions.decisions);
  const section = useKeptFocus();
  return (
    <section ref={section} class="decisions">
      <h2 tabIndex={-1}>{words.heading}</h2>
      {decisions.length === 0 && <p class="aside">{none}</p>}
      <ul>
        {decisions.map((decision) => (
          <DecisionItem
            key={decisionKey(decision)}
            {...{ part, decision, onGo }}
            onRemove={() => actions.remove(decision)}
          />
        ))}
      </ul>
      {lost.map((sentence) => (
        <p key={sentence} class="aside">
          {sentence}
        </p>
      ))}
      {children}
      {decisions.length > 0 && (
        <div class="buttons">
          <button type="button" class="small" onClick={actions.startOver}>
            {words.startOver}
          </button>
        </div>
      )}
    </section>
  );
};
