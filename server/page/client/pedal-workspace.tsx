import type { ComponentChildren } from 'preact';
import { useCallback, useMemo, useState } from 'preact/hooks';
import {
  formatSetting,
  listVerdict,
  namePiece,
  type Plan,
  settingAtQuarters,
} from '../../../engine/index.ts';
import { STRINGS } from '../strings/strings.ts';
import { PedalChart } from './chart/pedal-chart.tsx';
import { useAfterPaint } from './controls/after-paint.ts';
import { isNarrow } from './controls/narrow.ts';
import { createDecisionActions } from './decisions/decision-actions.ts';
import { PreviewedFixProvider, useFixPreview } from './findings/fixes/previewed-fix.ts';
import { useChoices } from './memory/choosing.ts';
import { useKeeping } from './memory/keeping.ts';
import { keyOfFile } from './memory/kept-decisions.ts';
import { recallHistory } from './memory/session-history.ts';
import { planChoicesOf } from './options/choices.ts';
import { PedalSide } from './pedal-side.tsx';
import { WorkFrame } from './piece/work-frame.tsx';
import type { EngineClient } from './planner/engine-client.ts';
import type { OpenedPart } from './planner/engine-messages.ts';
import type { PlannedPart } from './planner/planned-part.ts';
import { useReplannedPart } from './planner/replanned-part.ts';
import type { Listening } from './playback/listening.ts';
import { useAskedProof } from './proof/asked-proof.ts';
import { indexPages, type PageIndex } from './score/drawn/page-markings.ts';
import { usePagesOnScreen } from './score/drawn/pages-on-screen.ts';
import { describePages } from './score/pages-section.tsx';
import { ScorePages } from './score/score-pages.tsx';
import { type ScoreView, useScoreView } from './score/score-view.ts';
import { useSelection } from './selection/followed-selection.ts';
import { usePlaceHistory } from './selection/place-history.ts';
import { selectedBar } from './selection/selected-bar.ts';
import type { Selection, Spot, View } from './selection/spot.ts';
import type { Order, ScoreFile } from './service/annotate-request.ts';
import type { SettingOrigin } from './settings/setting-explorer.tsx';
import type { OtherPlan } from './variants/compared-plan.ts';
import { comparePedalPlans } from './variants/pedal-plans.ts';

export interface WorkspaceProps {
  readonly file: ScoreFile;
  readonly opened: OpenedPart;
  readonly planning: Pick<EngineClient, 'replan' | 'planOther'>;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
}

/** What the header says of the plan. */
const headingOf = (file: ScoreFile, { plan, bars, titles, partName }: PlannedPart) => {
  const { summary, initial } = plan;
  const { moves, unproved, start } = STRINGS.summary;
  const { grade, reasons, failing, measures, passages } = summary.difficulty;
  return {
    title: namePiece(titles) || file.name,
    about: [titles.composer, partName],
    verdict: listVerdict(failing, measures, 'pedal'),
    figures: `${moves(summary.moves, summary.minMoves)}${summary.provenOptimal ? '' : `, ${unproved}`}`,
    start: <span class="names">{start(formatSetting(initial))}</span>,
    difficulty: {
      grade,
      reasons,
      passages: passages.map((passage) => ({
        ...passage,
        from: bars[passage.from]!.name,
        until: bars[passage.until]!.name,
      })),
    },
  };
};

/** Where the pedals stand at a bar: an index into the bars. */
const standingAt = ({ plan, bars }: PlannedPart, bar: number): SettingOrigin => ({
  setting: settingAtQuarters(plan, bars[bar]?.onsetQuarters ?? 0),
  bar: bars[bar]?.name ?? null,
});

/** The open part with the user's decisions and choices, and its pages. */
const useWork = ({ file, opened, planning }: Pick<WorkspaceProps, 'file' | 'opened' | 'planning'>) => {
  const view = useScoreView(file, opened.part.bars.length);
  const [choices, setChoices] = useChoices('pedal', file, view);
  const [before] = useState(() => recallHistory(file));
  const replanned = useReplannedPart(opened, before, planChoicesOf(choices), planning.replan);
  const { history, act, part } = replanned;
  const kept = useKeeping(file, history);
  const actions = useMemo(() => createDecisionActions(part, history.present, act), [part, history.present]);
  // The pages follow the plan: they are asked for with the decisions that it was made with.
  const order = useMemo(
    (): Order => ({ file, harp: 'pedal', choices, decisions: part.inForce }),
    [file, choices, part.inForce],
  );
  const pages = usePagesOnScreen(order, view, part.bars, part.plan, indexPages);
  return { ...replanned, ...pages, view, before, choices, setChoices, kept, actions, order };
};

/** Views from which a user is led to somewhere else; in the others they choose what they see. */
const LEADING: readonly View[] = ['findings', 'decisions', 'detail'];

/** What is looked at or pointed at, and where. @param key of the piece */
const useLooking = (part: PlannedPart, index: PageIndex | null, view: ScoreView, key: string) => {
  const [selection, select] = useSelection(part.plan, index);
  // Until something else is chosen.
  const [barInView, setBarInView] = useState(view.bar);
  const [peeked, setPeek] = useState<{ readonly spot: Spot | null; readonly plan: Plan } | null>(null);
  const leave = useCallback(() => {
    setPeek(null);
    select(null);
  }, []);
  const choose = (chosen: Selection): void => {
    setPeek(null);
    setBarInView(null);
    select(chosen);
  };
  const bar = selectedBar(selection, part, index);
  view.bar = barInView ?? bar ?? view.bar;
  const atBar = bar ?? view.bar ?? 0;
  const leadTo = usePlaceHistory(key, part.bars, view.bar, (spot) => choose({ spot, origin: 'decisions' }));
  return {
    selection,
    selectFrom: (origin: View) => (spot: Spot) => {
      const to = LEADING.includes(origin) ? selectedBar({ spot, origin }, part, index) : null;
      if (to !== null) leadTo(to);
      choose({ spot, origin });
    },
    leave,
    peek: peeked?.plan === part.plan ? peeked.spot : null,
    onPeek: (spot: Spot | null): void => {
      // There the details come over the score: they would cover what is pointed at.
      if (!isNarrow()) setPeek({ spot, plan: part.plan });
    },
    barInView,
    setBarInView,
    /** Index of the bar that is looked at. */
    bar,
    standing: useMemo(() => standingAt(part, atBar), [part, atBar]),
  };
};

/** Another plan that is looked at beside the user's own. */
const useCompared = (part: PlannedPart) => {
  const [other, setOther] = useState<OtherPlan<Plan> | null>(null);
  const compared = useMemo(
    () => (other === null ? null : comparePedalPlans(part, other.name, other.plan)),
    [part, other],
  );
  return { compared, setOther };
};

/** Everything about one open score for the pedal harp. */
export const Workspace = ({ file, opened, planning, picker, dropping }: WorkspaceProps) => {
  const work = useWork({ file, opened, planning });
  const { part, actions, drawn } = work;
  const index = drawn.kind === 'drawn' ? drawn.index : null;
  const looking = useLooking(
    part,
    index,
    work.view,
    useMemo(() => keyOfFile(file), [file]),
  );
  const { selection, selectFrom } = looking;
  const { compared, setOther } = useCompared(part);
  const preview = useFixPreview(part, planChoicesOf(work.choices), planning.planOther, (finding) =>
    selectFrom('findings')({ kind: 'finding', finding }),
  );
  const [listening, setListening] = useState<Listening | null>(null);
  const shared = {
    ...{ part, selection, actions, listening },
    compared: preview.compared ?? compared,
    onPeek: looking.onPeek,
  };
  const isPainted = useAfterPaint();
  const proof = useAskedProof(file, opened.part);
  return (
    <WorkFrame
      {...{ work, opened, file, picker, dropping, proof }}
      choices={work.choices}
      heading={headingOf(file, part)}
      progress={describePages(drawn)}
    >
      <main>
        <ScorePages
          {...shared}
          drawn={drawn}
          isPlanning={work.isPlanning}
          onSelect={selectFrom('score')}
          onRedraw={work.redraw}
          onBarInView={looking.setBarInView}
        />
        <PedalChart {...shared} index={index} barInView={looking.barInView} onSelect={selectFrom('chart')} />
      </main>
      <PreviewedFixProvider value={preview}>
        {isPainted && (
          <PedalSide
            {...{ file, opened, index, compared, drawn, part, actions, proof }}
            order={work.order}
            looking={looking}
            planOther={planning.planOther}
            onChoose={work.setChoices}
            onOther={setOther}
            onListening={setListening}
          />
        )}
      </PreviewedFixProvider>
    </WorkFrame>
  );
};
