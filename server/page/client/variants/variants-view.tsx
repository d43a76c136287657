import { useEffect, useMemo, useState } from 'preact/hooks';
import { type Decisions, NO_DECISIONS } from '../../../../engine/index.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { listDecisions } from '../decisions/decision-edits.ts';
import { browserMemory } from '../memory/browser-memory.ts';
import { keyOfFile } from '../memory/kept-decisions.ts';
import { keepVariants, recallVariants, type Variant } from '../memory/kept-variants.ts';
import type { Ask } from '../planner/engine-client.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { ComparedPlan, Difference, OtherChoices, OtherPlan } from './compared-plan.ts';
import { DifferenceList } from './difference-list.tsx';
import { KeptList } from './kept-list.tsx';
import { PlanTable } from './plan-table.tsx';

const words = VARIANT_STRINGS;

export interface VariantsProps<Choices, Plan> {
  readonly file: ScoreFile;
  readonly choices: Choices;
  /** What plans are offered beside those of other decisions. */
  readonly otherChoices: readonly OtherChoices<Choices>[];
  readonly actions: DecisionActions;
  readonly planOther: Ask<Choices, Plan>;
  /** What the score and the chart show beside the plan. */
  readonly compared: Omit<ComparedPlan<unknown>, 'others' | 'own'> | null;
  readonly onOther: (other: OtherPlan<Plan> | null) => void;
  readonly onGo: (place: Difference) => void;
  readonly onClose: () => void;
}

/** A plan that can be compared with, and what it is planned with. */
interface Offered<Choices> extends OtherChoices<Choices> {
  readonly decisions: Decisions;
}

const offeredFor = <Choices, Plan>(
  { actions: { decisions }, choices, otherChoices }: VariantsProps<Choices, Plan>,
  variants: readonly Variant[],
): readonly Offered<Choices>[] => [
  ...(listDecisions(decisions).length === 0
    ? []
    : [{ name: words.withoutDecisions, decisions: NO_DECISIONS, choices }]),
  ...otherChoices.map((other) => ({ ...other, decisions })),
  ...variants.map((variant) => ({
    name: words.variant(variant.name),
    decisions: variant.decisions,
    choices,
  })),
];

const Choice = ({
  names,
  chosen,
  onChoose,
}: {
  readonly names: readonly string[];
  readonly chosen: string;
  readonly onChoose: (name: string) => void;
}) => (
  <label class="chosen">
    <span>{words.compare}</span>
    <select name="other" value={chosen} onChange={({ currentTarget }) => onChoose(currentTarget.value)}>
      <option value="">{words.nothing}</option>
      {names.map((name) => (
        <option key={name} value={name}>
          {name}
        </option>
      ))}
    </select>
  </label>
);

/** The variants of a piece, kept in the browser. */
const useVariants = (file: ScoreFile) => {
  const key = useMemo(() => keyOfFile(file), [file]);
  const [variants, setVariants] = useState(() => recallVariants(browserMemory, key));
  const keep = (kept: readonly Variant[]): boolean => {
    setVariants(kept);
    return keepVariants(browserMemory, key, kept);
  };
  return { variants, keep };
};

/** Plans of the piece beside the one that is open, and those kept under a name. */
export const VariantsView = <Choices, Plan>(props: VariantsProps<Choices, Plan>) => {
  const { file, actions, planOther, compared, onOther } = props;
  const { variants, keep } = useVariants(file);
  const [chosen, setChosen] = useState('');
  const offered = offeredFor(props, variants);
  const other = offered.find(({ name }) => name === chosen) ?? null;
  useEffect(() => {
    if (other === null) onOther(null);
    else planOther(other.decisions, other.choices, (plan) => onOther({ name: other.name, plan }));
  }, [other?.name, JSON.stringify(other?.choices), JSON.stringify(other?.decisions)]);
  // With the view closed nothing is compared.
  useEffect(() => () => onOther(null), []);
  return (
    <>
      <button type="button" class="close" onClick={props.onClose}>
        {words.close}
      </button>
      <Choice names={offered.map(({ name }) => name)} chosen={other?.name ?? ''} onChoose={setChosen} />
      {other !== null && compared?.name !== other.name && <p role="status">{words.planning}</p>}
      {other !== null && compared?.name === other.name && (
        <>
          <PlanTable rows={compared.rows} />
          <DifferenceList differences={compared.differences} onGo={props.onGo} />
        </>
      )}
      <KeptList variants={variants} actions={actions} onKeep={keep} />
    </>
  );
};
