import { useState } from 'preact/hooks';
import type { Place } from '../../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { CueForm } from '../../decisions/forms/cue-form.tsx';
import { FoldedForms, ForbidForm, StayForm, TempoForm } from '../../decisions/forms/shared-forms.tsx';
import type { ReadPart } from '../../planner/planned-part.ts';

const own = LEVER_STRINGS.decisions;

interface LeverFormProps {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly actions: DecisionActions;
}

const POSITIONS = ['up', 'down'] as const;

const PositionForm = ({ part, begin, report, actions }: LeverFormProps & { readonly begin: Place }) => {
  const levers = report.strings.filter(({ lever }) => lever).map(({ string }) => string);
  const [lever, setLever] = useState(levers[0] ?? '');
  const [to, setTo] = useState<(typeof POSITIONS)[number]>('up');
  return (
    <StayForm
      part={part}
      begin={begin}
      heading={own.position}
      onAdd={(from, until) =>
        actions.decide({ kind: 'pin', pin: { kind: 'lever-position', lever, to, from, until } })
      }
    >
      <select
        aria-label={own.lever}
        value={lever}
        onChange={({ currentTarget }) => setLever(currentTarget.value)}
      >
        {levers.map((string) => (
          <option key={string}>{string}</option>
        ))}
      </select>
      <select
        aria-label={own.stays}
        value={to}
        onChange={({ currentTarget }) => setTo(currentTarget.value as typeof to)}
      >
        {POSITIONS.map((each) => (
          <option key={each} value={each}>
            {own[each]}
          </option>
        ))}
      </select>
    </StayForm>
  );
};

/** Decisions that need no change to begin with; the forms are made when they are opened. */
export const LeverForms = ({
  barNow,
  ...props
}: LeverFormProps & { readonly barNow: () => number | null }) => {
  const { part, actions } = props;
  return (
    <FoldedForms barNow={barNow}>
      {(begin) => (
        <>
          <ForbidForm {...{ part, begin, actions }} heading={own.forbid} />
          <PositionForm {...props} begin={begin} />
          <TempoForm {...{ part, begin, actions }} />
          <CueForm part={part} actions={actions} />
        </>
      )}
    </FoldedForms>
  );
};
