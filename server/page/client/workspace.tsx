import type { ComponentChildren } from 'preact';
import { useCallback, useEffect, useMemo, useState } from 'preact/hooks';
import { formatSetting, type Plan, settingAtQuarters } from '../../../engine/index.ts';
import { BETWEEN } from '../strings/shared-strings.ts';
import { STRINGS } from '../strings/strings.ts';
import { PedalChart } from './chart/pedal-chart.tsx';
import { PedalCompare } from './compare/pedal-compare.tsx';
import { OpenedSection } from './controls/opened-section.tsx';
import { createDecisionActions } from './decisions/decision-actions.ts';
import { DecisionForms } from './decisions/decision-forms.tsx';
import { DecisionsPanel } from './decisions/decisions-panel.tsx';
import { HistoryBar } from './decisions/history-bar.tsx';
import { RestoredLine } from './decisions/restored-line.tsx';
import { DifficultyDetails } from './difficulty-details.tsx';
import { TakeAway } from './downloads/take-away.tsx';
import { DetailPanel } from './findings/detail-panel.tsx';
import { FindingsList } from './findings/findings-list.tsx';
import { OfferedFixes } from './findings/offered-fixes.tsx';
import { SecondHarp } from './findings/second-harp.tsx';
import { useKeeping } from './memory/keeping.ts';
import { recallChoices, rememberChoices } from './memory/remembered-choices.ts';
import { recallHistory } from './memory/session-history.ts';
import { type Choices, planChoicesOf } from './options/choices.ts';
import { ChoicesPanel } from './options/choices-panel.tsx';
import { LookPreview } from './options/look-preview.tsx';
import type { EngineClient } from './planner/engine-client.ts';
import type { OpenedPart } from './planner/engine-messages.ts';
import type { PlannedPart } from './planner/planned-part.ts';
import { useReplannedPart } from './planner/replanned-part.ts';
import type { Listening } from './playback/listening.ts';
import { FileProof } from './proof/file-proof.tsx';
import { type DrawnPages, usePages } from './score/drawn-pages.ts';
import { ScorePages } from './score/score-pages.tsx';
import { ScreenLayoutProvider, useOrderOnScreen } from './score/screen-layout.ts';
import { useSelection } from './selection/followed-selection.ts';
import { selectedBar } from './selection/selected-bar.ts';
import type { Spot, View } from './selection/spot.ts';
import type { ScoreFile } from './service/annotate-request.ts';
import type { SettingOrigin } from './settings/setting-explorer.tsx';
import { SettingSection } from './settings/setting-section.tsx';
import { compareWith, type OtherPlan } from './variants/other-plan.ts';

export interface WorkspaceProps {
  readonly file: ScoreFile;
  readonly opened: OpenedPart;
  readonly replan: EngineClient['replan'];
  readonly planOther: EngineClient['planOther'];
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
}

const describePages = (drawn: DrawnPages): string => {
  switch (drawn.kind) {
    case 'drawing':
      return STRINGS.progress.drawing;
    case 'drawn':
      if (drawn.stale === false)
        return drawn.progress === null
          ? STRINGS.progress.drawn(drawn.pages.length)
          : STRINGS.progress.drawing;
      return drawn.stale.trouble === null ? STRINGS.progress.redrawing : '';
    case 'failed':
      return drawn.sentence;
  }
};

const Heading = ({ file, part }: { readonly file: ScoreFile; readonly part: PlannedPart }) => {
  const { summary, initial } = part.plan;
  const { moves, unproved, start } = STRINGS.summary;
  const { difficulty } = summary;
  const passages = difficulty.passages.map((passage) => ({
    ...passage,
    from: part.bars[passage.from]!.number,
    until: part.bars[passage.until]!.number,
  }));
  return (
    <div class="piece">
      <h1 tabIndex={-1}>{part.titles.title || file.name}</h1>
      <p>
        {[part.titles.composer, part.partName].filter((each) => each !== '').join(BETWEEN)}
        {BETWEEN}
        <strong class={summary.playable ? '' : 'stop'}>{difficulty.verdict}</strong>
        {BETWEEN}
        {moves(summary.moves, summary.minMoves)}
        {!summary.provenOptimal && `, ${unproved}`}
        {BETWEEN}
        <span class="names">{start(formatSetting(initial))}</span>
      </p>
      <DifficultyDetails grade={difficulty.grade} reasons={difficulty.reasons} passages={passages} />
    </div>
  );
};

/** Remembers the look over visits. */
const useChoices = () => {
  const [choices, setChoices] = useState<Choices>(recallChoices);
  useEffect(() => rememberChoices(choices), [choices]);
  return [choices, setChoices] as const;
};

/** Where the pedals stand at a bar: an index into the bars. */
const standingAt = ({ plan, bars }: PlannedPart, bar: number): SettingOrigin => ({
  setting: settingAtQuarters(plan, bars[bar]?.onsetQuarters ?? 0),
  bar: bars[bar]?.number ?? null,
});

const loadVariants = async () => (await import('./variants/variants-view.tsx')).VariantsView;

const loadPlayer = async () => (await import('./playback/pedal-listen.tsx')).PedalListen;

/** Everything about one open score. */
export const Workspace = ({ file, opened, replan, planOther, picker, dropping }: WorkspaceProps) => {
  const [choices, setChoices] = useChoices();
  const [before] = useState(() => recallHistory(file));
  const { history, act, part, refusals } = useReplannedPart(opened, before, planChoicesOf(choices), replan);
  const kept = useKeeping(file, history);
  const decisions = history.present;
  const actions = useMemo(() => createDecisionActions(part, decisions, act), [part, decisions]);
  // The pages follow the plan: they are asked for with the decisions that it was made with.
  const order = useMemo(() => ({ file, choices, decisions: part.inForce }), [file, choices, part.inForce]);
  const { layout, onScreen } = useOrderOnScreen(order);
  const { drawn, redraw } = usePages(onScreen, part);
  const index = drawn.kind === 'drawn' ? drawn.index : null;
  const [selection, select] = useSelection(part.plan, index);
  const [barInView, setBarInView] = useState<number | null>(null);
  const [other, setOther] = useState<OtherPlan | null>(null);
  const compared = useMemo(() => (other === null ? null : compareWith(part, other)), [part, other]);
  const [listening, setListening] = useState<Listening | null>(null);
  const [triedFix, setTriedFix] = useState(false);
  const [peeked, setPeek] = useState<{ readonly spot: Spot | null; readonly plan: Plan } | null>(null);
  const peek = peeked?.plan === part.plan ? peeked.spot : null;
  const onPeek = (spot: Spot | null): void => setPeek({ spot, plan: part.plan });
  const selectFrom = (origin: View) => (spot: Spot) => {
    setPeek(null);
    select({ spot, origin });
  };
  const leave = useCallback(() => {
    setPeek(null);
    select(null);
  }, []);
  const goToBar = (bar: number): void =>
    selectFrom('findings')({ kind: 'place', bar, quarters: part.bars[bar]!.onsetQuarters });
  const atBar = selectedBar(selection, part, index) ?? barInView ?? 0;
  const standing = useMemo(() => standingAt(part, atBar), [part, atBar]);
  // What is long is drawn anew only when it changes, not with every marking that is pointed at.
  const findings = useMemo(
    () => (
      <FindingsList part={part} selection={selection} actions={actions} onSelect={selectFrom('findings')}>
        {!part.plan.summary.playable && (
          <OfferedFixes
            key={JSON.stringify(part.inForce)}
            order={order}
            actions={actions}
            isAsked={triedFix}
            onTry={(bar) => {
              setTriedFix(true);
              goToBar(bar);
            }}
          />
        )}
        {!part.plan.summary.playable && (
          <SecondHarp
            key={`second harp ${JSON.stringify(part.inForce)}`}
            order={order}
            title={part.titles.title || part.partName}
            onGo={goToBar}
          />
        )}
      </FindingsList>
    ),
    [part, order, selection, actions, triedFix],
  );
  const proofread = useMemo(
    () => <FileProof {...{ file, choices }} part={opened.part} onSelect={selectFrom('findings')} />,
    [file, choices, opened.part],
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
        <DecisionForms part={part} actions={actions} />
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
        onChange={setChoices}
      />
    ),
    [choices],
  );
  return (
    <ScreenLayoutProvider value={layout}>
      <div class={dropping ? 'workspace dropping' : 'workspace'}>
        <header>
          <Heading file={file} part={part} />
          <HistoryBar
            history={history}
            refusals={refusals}
            kept={kept}
            progress={describePages(drawn)}
            act={act}
          >
            {picker}
          </HistoryBar>
          {before === null && <RestoredLine opened={opened} actions={actions} />}
        </header>
        <main>
          <ScorePages
            {...{ part, drawn, selection, actions, listening, compared, onPeek }}
            onSelect={selectFrom('score')}
            onRedraw={redraw}
            onBarInView={setBarInView}
          />
          <PedalChart
            part={part}
            index={index}
            selection={selection}
            actions={actions}
            listening={listening}
            barInView={barInView}
            compared={compared}
            onSelect={selectFrom('chart')}
            onPeek={onPeek}
          />
        </main>
        <aside aria-label={STRINGS.detail.panel}>
          <OpenedSection
            name="listen"
            heading={STRINGS.listen.heading}
            label={STRINGS.listen.open}
            load={loadPlayer}
            view={{
              part,
              selectedBar: selectedBar(selection, part, index),
              onListening: setListening,
            }}
          />
          <DetailPanel
            part={part}
            index={index}
            spot={peek ?? selection?.spot ?? null}
            actions={actions}
            onGo={selectFrom('detail')}
            onLeave={leave}
          />
          <SettingSection standing={standing} footRestSeconds={part.plan.footRestSeconds} />
          {findings}
          {opened.part.markings > 0 && proofread}
          {decided}
          <OpenedSection
            name="other-plans"
            heading={STRINGS.variants.heading}
            label={STRINGS.variants.open}
            load={loadVariants}
            view={{
              file,
              part,
              choices: planChoicesOf(choices),
              actions,
              planOther,
              compared,
              onOther: setOther,
              onGo: selectFrom('decisions'),
            }}
          />
          <PedalCompare file={file} />
          <TakeAway order={order} part={part} drawn={drawn} onChoose={setChoices} />
          {choosing}
        </aside>
      </div>
    </ScreenLayoutProvider>
  );
};
