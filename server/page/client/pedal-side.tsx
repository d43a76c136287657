import { useMemo, useRef } from 'preact/hooks';
import type { Plan } from '../../../engine/index.ts';
import { STRINGS } from '../strings/strings.ts';
import { comparedPart } from './compare/compared-part.ts';
import { PedalCompare } from './compare/pedal-compare.tsx';
import { OpenedSection } from './controls/opened-section.tsx';
import type { DecisionActions } from './decisions/decision-actions.ts';
import { DecisionsPanel } from './decisions/decisions-panel.tsx';
import { DecisionForms } from './decisions/forms/decision-forms.tsx';
import { TakeAway } from './downloads/take-away.tsx';
import { DetailPanel } from './findings/detail-panel.tsx';
import { FindingsList } from './findings/findings-list.tsx';
import { OfferedFixes } from './findings/fixes/offered-fixes.tsx';
import {
  type SearchedFixes,
  SearchedFixesProvider,
  useSearchedFixes,
} from './findings/fixes/searched-fixes.tsx';
import { SecondHarp } from './findings/second-harp.tsx';
import { type Choices, type PlanChoices, planChoicesOf } from './options/choices.ts';
import { ChoicesPanel } from './options/choices-panel.tsx';
import { LookPreview } from './options/look-preview.tsx';
import type { EngineClient } from './planner/engine-client.ts';
import type { OpenedPart } from './planner/engine-messages.ts';
import type { PlannedPart } from './planner/planned-part.ts';
import type { Listening } from './playback/listening.ts';
import type { AskedProof } from './proof/asked-proof.ts';
import { FileProof } from './proof/file-proof.tsx';
import type { DrawnPages } from './score/drawn/drawn-pages.ts';
import type { PageIndex } from './score/drawn/page-markings.ts';
import type { Selection, Spot, View } from './selection/spot.ts';
import type { Order, ScoreFile } from './service/annotate-request.ts';
import type { SettingOrigin } from './settings/setting-explorer.tsx';
import { SettingSection } from './settings/setting-section.tsx';
import type { ComparedPlan, OtherPlan } from './variants/compared-plan.ts';
import { otherSpelling } from './variants/pedal-plans.ts';
import type { VariantsProps } from './variants/variants-view.tsx';

export interface PedalSideProps {
  readonly file: ScoreFile;
  readonly opened: OpenedPart;
  readonly part: PlannedPart;
  /** Null where the file brings no markings. */
  readonly proof: AskedProof | null;
  readonly order: Order;
  readonly drawn: DrawnPages;
  readonly index: PageIndex | null;
  readonly actions: DecisionActions;
  readonly looking: {
    readonly selection: Selection | null;
    /** What is pointed at; null for nothing. */
    readonly peek: Spot | null;
    readonly selectFrom: (origin: View) => (spot: Spot) => void;
    readonly leave: () => void;
    /** Index of the bar that is looked at. */
    readonly bar: number | null;
    readonly standing: SettingOrigin;
  };
  readonly compared: ComparedPlan<unknown> | null;
  readonly planOther: EngineClient['planOther'];
  readonly onChoose: (choices: Choices) => void;
  readonly onOther: (other: OtherPlan<Plan> | null) => void;
  readonly onListening: (listening: Listening | null) => void;
}

const loadVariants = async () =>
  (await import('./variants/variants-view.tsx')).VariantsView<PlanChoices, Plan>;

const loadPlayer = async () => (await import('./playback/pedal-listen.tsx')).PedalListen;

type FoundProps = Pick<PedalSideProps, 'part' | 'order' | 'actions' | 'looking'> & {
  readonly searched: SearchedFixes;
};

/** What the player should know, with the smallest changes for what cannot be played. */
const Found = ({ part, order, actions, searched, looking: { selection, selectFrom } }: FoundProps) => {
  const onSelect = selectFrom('findings');
  const goTo = (bar: number): void =>
    onSelect({ kind: 'place', bar, quarters: part.bars[bar]!.onsetQuarters });
  return (
    <>
      <OfferedFixes {...{ part, searched, actions }} onGo={goTo} />
      <FindingsList part={part} selection={selection} actions={actions} onSelect={onSelect} />
      {!part.plan.summary.playable && (
        <SecondHarp key={`second harp ${JSON.stringify(part.inForce)}`} order={order} onGo={goTo} />
      )}
    </>
  );
};

/** What is long is drawn anew only when it changes, not with every marking that is pointed at. */
const useLongSections = (props: PedalSideProps, searched: SearchedFixes) => {
  const { file, opened, part, proof, order, actions, looking, onChoose } = props;
  const { choices } = order;
  const { selectFrom, selection } = looking;
  const bar = useRef(looking.bar);
  bar.current = looking.bar;
  const found = useMemo(
    () => <Found {...{ part, order, actions, looking, searched }} />,
    [part, order, selection, actions, searched.asked, searched.isEarlier],
  );
  const proofread = useMemo(
    () =>
      proof !== null && (
        <FileProof {...{ file, choices, proof }} part={opened.part} onSelect={selectFrom('findings')} />
      ),
    [file, choices, proof, opened.part],
  );
  const decided = useMemo(
    () => (
      <DecisionsPanel
        part={part}
        actions={actions}
        lost={part.lost}
        none={STRINGS.decisions.none}
        onGo={selectFrom('decisions')}
      >
        <DecisionForms part={part} actions={actions} barNow={() => bar.current} />
      </DecisionsPanel>
    ),
    [part, actions],
  );
  const choosing = useMemo(
    () => (
      <ChoicesPanel
        harp="pedal"
        choices={choices}
        preview={<LookPreview choices={choices} />}
        onChange={onChoose}
      />
    ),
    [choices],
  );
  return { found, proofread, decided, choosing };
};

const OtherPlans = ({ file, part, order, actions, compared, looking, ...props }: PedalSideProps) => {
  const choices = planChoicesOf(order.choices);
  const view: Omit<VariantsProps<PlanChoices, Plan>, 'onClose'> = {
    file,
    choices,
    otherChoices: otherSpelling(choices),
    actions,
    planOther: props.planOther,
    compared,
    onOther: props.onOther,
    onGo: ({ bar, quarters }) => looking.selectFrom('decisions')({ kind: 'place', bar, quarters }),
  };
  const { heading, open } = STRINGS.variants;
  return <OpenedSection name="other-plans" heading={heading} label={open} load={loadVariants} view={view} />;
};

/** What stands beside the score and the chart. */
export const PedalSide = (props: PedalSideProps) => {
  const { part, index, order, drawn, actions, looking } = props;
  const searched = useSearchedFixes(part, order);
  const { found, proofread, decided, choosing } = useLongSections(props, searched);
  return (
    <SearchedFixesProvider value={searched}>
      <aside aria-label={STRINGS.detail.panel}>
        <OpenedSection
          name="listen"
          heading={STRINGS.listen.heading}
          label={STRINGS.listen.open}
          load={loadPlayer}
          view={{ part, selectedBar: looking.bar, onListening: props.onListening }}
        />
        <DetailPanel
          part={part}
          index={index}
          spot={looking.peek ?? looking.selection?.spot ?? null}
          actions={actions}
          onGo={looking.selectFrom('detail')}
          onLeave={looking.leave}
        />
        {found}
        <SettingSection standing={looking.standing} footRestSeconds={part.plan.footRestSeconds} />
        {proofread}
        {decided}
        <OtherPlans {...props} />
        <PedalCompare
          compared={comparedPart(props.file, props.opened.harp)}
          choices={planChoicesOf(order.choices)}
        />
        <TakeAway order={order} part={part} drawn={drawn} onChoose={props.onChoose} />
        {choosing}
      </aside>
    </SearchedFixesProvider>
  );
};
