import { useState } from 'preact/hooks';
import type { Place } from '../../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { SelectList } from '../../controls/select-list.tsx';
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
      <SelectList label={own.lever} value={lever} values={levers} onChange={setLever} />
      <SelectList
        label={own.stays}
        value={to}
        values={POSITIONS}
        tell={(position) => own[position]}
        onChange={setTo}
      />
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
