import { useMemo, useRef, useState } from 'preact/hooks';
import type { HarpName, Playback } from '../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { comparedPart } from '../compare/compared-part.ts';
import { OpenedSection } from '../controls/opened-section.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { DecisionsPanel } from '../decisions/decisions-panel.tsx';
import { keyOfFile } from '../memory/kept-decisions.ts';
import { type Choices, chosenOf, type LeverChoices, leverChoicesOf } from '../options/choices.ts';
import { ChoicesPanel } from '../options/choices-panel.tsx';
import type { EngineClient } from '../planner/engine-client.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import type { AskedProof } from '../proof/asked-proof.ts';
import { FileProof } from '../proof/file-proof.tsx';
import type { DrawnPages } from '../score/drawn/drawn-pages.ts';
import type { ScoreView } from '../score/score-view.ts';
import { usePlaceHistory } from '../selection/place-history.ts';
import type { Order } from '../service/annotate-request.ts';
import type { OtherPlan } from '../variants/compared-plan.ts';
import type { VariantsProps } from '../variants/variants-view.tsx';
import { LeverChart } from './chart/lever-chart.tsx';
import type { LeverIndex } from './lever-markings.ts';
import { LeverPages } from './lever-pages.tsx';
import { compareLeverPlans, otherTunings } from './lever-plans.ts';
import { type LeverLooking, useLeverSelection } from './lever-selection.ts';
import { LeverCompare } from './side/lever-compare.tsx';
import { LeverForms } from './side/lever-forms.tsx';
import { LeverDetail, LeverFindings, LeverTunings } from './side/lever-side.tsx';
import { LeverTakeAway } from './side/lever-take-away.tsx';

export interface LeverViewsProps {
  readonly order: Order;
  readonly harp: HarpName;
  readonly part: ReadPart;
  /** Null where the file brings no markings. */
  readonly proof: AskedProof | null;
  /** What became of decisions that have no place in this part, in sentences. */
  readonly lost: readonly string[];
  readonly report: LeverPlanReport;
  /** What is heard with passages slowed; null where none is. */
  readonly slowedHearing: Playback | null;
  readonly actions: DecisionActions;
  readonly drawn: DrawnPages<LeverIndex>;
  /** Is told the bar that is looked at. */
  readonly view: ScoreView;
  /** Another plan is being made. */
  readonly isPlanning: boolean;
  readonly planOther: EngineClient['planOtherLevers'];
  readonly onRedraw: () => void;
  readonly onChoose: (choices: Choices) => void;
}

const loadPlayer = async () => (await import('./board/lever-listen.tsx')).LeverListen;

const loadVariants = async () =>
  (await import('../variants/variants-view.tsx')).VariantsView<LeverChoices, LeverPlanReport>;

/** Another plan that is looked at beside the user's own. */
const useCompared = ({ part, report }: LeverViewsProps) => {
  const [other, setOther] = useState<OtherPlan<LeverPlanReport> | null>(null);
  const compared = useMemo(
    () => (other === null ? null : compareLeverPlans(part.bars, report, other.name, other.plan)),
    [part.bars, report, other],
  );
  return { compared, setOther };
};

type OtherPlans = Pick<
  VariantsProps<LeverChoices, LeverPlanReport>,
  'compared' | 'onOther' | 'planOther' | 'actions'
>;

const OtherLeverPlans = ({
  order: { file, choices },
  report,
  looking,
  ...view
}: OtherPlans & Pick<LeverViewsProps, 'order' | 'report'> & { readonly looking: LeverLooking }) => {
  const chosen = leverChoicesOf(choices);
  const shown: Omit<VariantsProps<LeverChoices, LeverPlanReport>, 'onClose'> = {
    ...view,
    file,
    choices: chosen,
    otherChoices: otherTunings(chosen, report),
    onGo: ({ bar, quarters }) => looking.look({ kind: 'place', bar, quarters }, 'window'),
  };
  const { heading, open } = STRINGS.variants;
  return <OpenedSection name="other-plans" heading={heading} label={open} load={loadVariants} view={shown} />;
};

type ListenProps = Pick<LeverViewsProps, 'order' | 'part' | 'report' | 'slowedHearing'> & {
  readonly selectedBar: number | null;
  readonly onListening: (listening: Listening | null) => void;
};

const ListenSection = ({ order, part, report, slowedHearing, ...view }: ListenProps) => {
  const heard = useMemo(
    () => (slowedHearing === null ? part : { ...part, hearing: slowedHearing }),
    [part, slowedHearing],
  );
  const omitted = useMemo(() => new Set(report.omitted), [report]);
  const leverSeconds = Number(chosenOf(order.choices, 'leverSeconds', 'lever'));
  return (
    <OpenedSection
      name="listen"
      heading={STRINGS.listen.heading}
      label={LEVER_STRINGS.listen.open}
      load={loadPlayer}
      view={{ ...view, part: heard, report, omitted, leverSeconds }}
    />
  );
};

/** What the user decided, and what the file's own markings have wrong. */
const Decided = ({
  order: { file, choices },
  part,
  proof,
  lost,
  report,
  actions,
  looking,
}: LeverViewsProps & { readonly looking: LeverLooking }) => {
  const goTo = (bar: number): void =>
    looking.look({ kind: 'place', bar, quarters: part.bars[bar]!.onsetQuarters }, 'window');
  return (
    <>
      {proof !== null && (
        <FileProof
          file={file}
          choices={choices}
          part={part}
          proof={proof}
          onSelect={(spot) => {
            if (spot.kind === 'place') goTo(spot.bar);
          }}
        />
      )}
      <DecisionsPanel
        part={part}
        actions={actions}
        lost={lost}
        none={LEVER_STRINGS.decisions.none}
        onGo={({ bar }) => goTo(bar)}
      >
        <LeverForms part={part} report={report} actions={actions} barNow={() => looking.bar} />
      </DecisionsPanel>
    </>
  );
};

const Tunings = ({ order: { choices }, report, onChoose }: LeverViewsProps) => {
  const tune = (tuning: string | null): void => {
    const { tuning: _, ...others } = choices;
    onChoose(tuning === null ? others : { ...others, tuning });
  };
  return <LeverTunings report={report} choices={choices} onTune={tune} />;
};

/** What stands beside the score and the chart. */
const LeverSide = (
  props: LeverViewsProps & {
    readonly looking: LeverLooking;
    readonly onListening: ListenProps['onListening'];
    readonly others: Pick<OtherPlans, 'compared' | 'onOther'>;
  },
) => {
  const { order, part, report, actions, drawn, looking, others, planOther, onChoose } = props;
  return (
    <aside aria-label={LEVER_STRINGS.detail.panel}>
      <ListenSection
        {...{ order, part, report }}
        slowedHearing={props.slowedHearing}
        selectedBar={looking.bar}
        onListening={props.onListening}
      />
      <LeverDetail
        {...{ part, report, actions }}
        move={looking.move}
        note={looking.note}
        onChange={(index) => looking.look({ kind: 'move', index }, 'pane')}
        onLeave={looking.leave}
      />
      <LeverFindings
        report={report}
        remarks={part.remarks}
        selected={looking.finding}
        onSelect={(index) => looking.look({ kind: 'finding', index }, 'window')}
      />
      <Decided {...props} />
      <Tunings {...props} />
      <OtherLeverPlans {...{ order, report, actions, looking, planOther }} {...others} />
      <LeverTakeAway {...{ order, part, report, drawn, onChoose }} />
      <ChoicesPanel harp="lever" choices={order.choices} onChange={onChoose} />
      <LeverCompare compared={comparedPart(order.file, props.harp)} choices={leverChoicesOf(order.choices)} />
    </aside>
  );
};

/** What is looked at, and where. */
const useLooking = ({ part, report, view, order: { file } }: LeverViewsProps, index: LeverIndex | null) => {
  // Until something else is chosen.
  const [barInView, setBarInView] = useState(view.bar);
  const leadTo = useRef<(bar: number) => void>(() => {});
  const looking = useLeverSelection({ part, report, index }, (bar, reach) => {
    if (reach === 'window') leadTo.current(bar);
    setBarInView(null);
  });
  view.bar = barInView ?? looking.bar ?? view.bar;
  const key = useMemo(() => keyOfFile(file), [file]);
  leadTo.current = usePlaceHistory(key, part.bars, view.bar, (place) => looking.look(place, 'window'));
  return { looking, barInView, setBarInView };
};

/** The score, the chart and what stands beside them. */
export const LeverViews = (props: LeverViewsProps) => {
  const { part, report, actions, drawn } = props;
  const index = drawn.kind === 'drawn' ? drawn.index : null;
  const { compared, setOther } = useCompared(props);
  const { looking, barInView, setBarInView } = useLooking(props, index);
  const [listening, setListening] = useState<Listening | null>(null);
  const shared = { part, report, actions, listening, compared, looking };
  return (
    <>
      <main>
        <LeverPages
          {...shared}
          drawn={drawn}
          isPlanning={props.isPlanning}
          onRedraw={props.onRedraw}
          onBarInView={setBarInView}
        />
        <LeverChart {...shared} barInView={barInView} />
      </main>
      <LeverSide
        {...props}
        looking={looking}
        others={{ compared, onOther: setOther }}
        onListening={setListening}
      />
    </>
  );
};
