import { useEffect, useMemo, useState } from 'preact/hooks';
import { type Decisions, NO_DECISIONS } from '../../../../engine/index.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { listDecisions } from '../decisions/decision-edits.ts';
import { browserMemory } from '../memory/browser-memory.ts';
import { keyOfFile } from '../memory/kept-decisions.ts';
import { keepVariants, recallVariants, type Variant } from '../memory/kept-variants.ts';
import type { PlanChoices } from '../options/choices.ts';
import type { EngineClient } from '../planner/engine-client.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Spot } from '../selection/spot.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { DifferenceList } from './difference-list.tsx';
import { KeptList } from './kept-list.tsx';
import type { ComparedPlan, OtherPlan } from './other-plan.ts';
import { PlanTable } from './plan-table.tsx';

const words = VARIANT_STRINGS;

export interface VariantsProps {
  readonly file: ScoreFile;
  readonly part: PlannedPart;
  readonly choices: PlanChoices;
  readonly actions: DecisionActions;
  readonly planOther: EngineClient['planOther'];
  /** What the score and the chart show beside the plan. */
  readonly compared: ComparedPlan | null;
  readonly onOther: (other: OtherPlan | null) => void;
  readonly onGo: (spot: Spot) => void;
  readonly onClose: () => void;
}

/** A plan that can be compared with: its name, and what it is planned with. */
interface Offered {
  readonly name: string;
  readonly decisions: Decisions;
  readonly choices: PlanChoices;
}

const offeredFor = (
  { actions: { decisions }, choices }: VariantsProps,
  variants: readonly Variant[],
): readonly Offered[] => {
  const respelled: PlanChoices = { ...choices, spelling: choices.spelling === 'free' ? 'keep' : 'free' };
  return [
    ...(listDecisions(decisions).length === 0
      ? []
      : [{ name: words.withoutDecisions, decisions: NO_DECISIONS, choices }]),
    { name: choices.spelling === 'free' ? words.written : words.free, decisions, choices: respelled },
    ...variants.map((variant) => ({
      name: words.variant(variant.name),
      decisions: variant.decisions,
      choices,
    })),
  ];
};

/** Plans of the piece beside the one that is open, and those kept under a name. */
export const VariantsView = (props: VariantsProps) => {
  const { file, part, actions, planOther, compared, onOther } = props;
  const key = useMemo(() => keyOfFile(file), [file]);
  const [variants, setVariants] = useState(() => recallVariants(browserMemory, key));
  const [chosen, setChosen] = useState('');
  const offered = offeredFor(props, variants);
  const other = offered.find(({ name }) => name === chosen) ?? null;
  useEffect(() => {
    if (other === null) onOther(null);
    else planOther(other.decisions, other.choices, (plan) => onOther({ name: other.name, plan }));
  }, [other?.name, JSON.stringify(other?.choices), JSON.stringify(other?.decisions)]);
  // With the view closed nothing is compared.
  useEffect(() => () => onOther(null), []);
  const keep = (kept: readonly Variant[]): boolean => {
    setVariants(kept);
    return keepVariants(browserMemory, key, kept);
  };
  return (
    <>
      <button type="button" class="close" onClick={props.onClose}>
        {words.close}
      </button>
      <label class="chosen">
        <span>{words.compare}</span>
        <select
          name="other"
          value={other?.name ?? ''}
          onChange={({ currentTarget }) => setChosen(currentTarget.value)}
        >
          <option value="">{words.nothing}</option>
          {offered.map(({ name }) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {other !== null && compared?.name !== other.name && <p role="status">{words.planning}</p>}
      {other !== null && compared?.name === other.name && (
        <>
          <PlanTable here={part.plan} there={compared.plan} />
          <DifferenceList part={part} compared={compared} onGo={props.onGo} />
        </>
      )}
      <KeptList variants={variants} actions={actions} onKeep={keep} />
    </>
  );
};
