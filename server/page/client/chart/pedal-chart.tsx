import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { LETTERS, toNumber } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import { scrollBehaviour } from '../controls/scrolling.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { pinOfMove } from '../decisions/decision-edits.ts';
import { letGo, makeAt } from '../decisions/move-actions.tsx';
import { fileNameOf, saveFile } from '../downloads/save-file.ts';
import { allowedFor, type Direction, stepMoment } from '../planner/moved-moment.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import type { PageIndex } from '../score/page-markings.ts';
import { movesOf } from '../selection/selected-moves.ts';
import type { Selection, Spot } from '../selection/spot.ts';
import { type BarSpan, BarStrip, SpanTools } from './bar-span.tsx';
import { Spans } from './chart-decisions.tsx';
import { findingQuarters, HEIGHT, LEFT, lengthQuarters, type XOf } from './chart-geometry.ts';
import { Bars, HardSpots, Impossible, Lane, WindowBar } from './chart-lanes.tsx';
import { MovePoint, namedMoves } from './chart-moves.tsx';
import { pictureOf } from './chart-picture.ts';
import { Playhead } from './chart-playhead.tsx';
import { ChartSection, useFollowedBar } from './chart-section.tsx';
import { ChartTools, type ChartZoom } from './chart-tools.tsx';
import { isNear, useChartWindow, WHOLE_CHART } from './chart-window.ts';
import { useMoveDrag } from './drag/chart-drag.ts';
import { useHeldTouch } from './drag/held-touch.ts';
import { readMoveKey } from './drag/move-keys.ts';
import { LaneNames } from './lane-names.tsx';

const words = STRINGS.chart;

/** Px between the letters and the first bar line. */
const INDENT = LEFT + 4;

/** Px right of the last bar line. */
const END = 12;

/** Px of a quarter note: as chosen, or so that the whole piece fits into the pane, whatever its size becomes. */
const useWidth = (
  pane: { readonly current: HTMLElement | null },
  zoom: ChartZoom,
  quarters: number,
): number => {
  const [fitting, setFitting] = useState(1);
  useLayoutEffect(() => {
    if (zoom !== 'whole') return;
    const measure = (): void =>
      setFitting((pane.current!.clientWidth - INDENT - END) / Math.max(1, quarters));
    const watch = new ResizeObserver(measure);
    watch.observe(pane.current!);
    measure();
    return () => watch.disconnect();
  }, [zoom, quarters]);
  return zoom === 'whole' ? Math.max(0.2, fitting) : zoom;
};

export interface PedalChartProps {
  readonly part: PlannedPart;
  readonly index: PageIndex | null;
  readonly selection: Selection | null;
  readonly actions: DecisionActions;
  readonly listening: Listening | null;
  /** The bar that the score shows since the user scrolled it: an index; null before. */
  readonly barInView: number | null;
  readonly onSelect: (spot: Spot) => void;
  readonly onPeek: (spot: Spot | null) => void;
}

/** Where the chart is to scroll: to the selection of another view. */
const quartersShown = (
  part: PlannedPart,
  index: PageIndex | null,
  selection: Selection | null,
): number | null => {
  if (selection === null || selection.origin === 'chart' || selection.origin === 'plan') return null;
  const { spot } = selection;
  if (spot.kind === 'place') return spot.quarters;
  if (spot.kind === 'finding') return findingQuarters(part, part.plan.findings[spot.finding]!);
  if (spot.kind === 'note') return toNumber(part.notes.get(spot.id)!.onset);
  const [move] = movesOf(spot, index);
  if (move !== undefined) return toNumber(part.plan.moves[move]!.at);
  const marking = spot.kind === 'marking' ? index?.markings.find(({ id }) => id === spot.id) : undefined;
  return marking?.onsetQuarters ?? null;
};

/** Keeps the focus on the move that has it while plans change: moves are counted anew in each. */
const useKeptFocus = (
  drawing: { readonly current: SVGSVGElement | null },
  part: PlannedPart,
  chosen: number | undefined,
) => {
  const inside = useRef(false);
  useLayoutEffect(() => {
    if (!inside.current || chosen === undefined) return;
    drawing.current?.querySelector<SVGElement>(`[data-move="${chosen}"]`)?.focus({ preventScroll: true });
  }, [part.plan]);
  return {
    onFocusIn: () => {
      inside.current = true;
    },
    onFocusOut: ({ relatedTarget }: FocusEvent) => {
      if (!(relatedTarget instanceof Node) || !drawing.current?.contains(relatedTarget))
        inside.current = false;
    },
  };
};

/** Of a long chart only what is near the view is drawn, but a move that is gone to, and all of it for the picture. */
const useLongChart = ({
  pane,
  drawing,
  width,
  total,
  title,
}: {
  readonly pane: { readonly current: HTMLElement | null };
  readonly drawing: { readonly current: SVGSVGElement | null };
  readonly width: number;
  readonly total: number;
  /** Of the piece. */
  readonly title: string;
}) => {
  const seen = useChartWindow(pane, width, total);
  const [wanted, setWanted] = useState<number | null>(null);
  const [saving, setSaving] = useState(false);
  useLayoutEffect(() => {
    if (wanted === null) return;
    drawing.current?.querySelector<SVGElement>(`[data-move="${wanted}"]`)?.focus();
    setWanted(null);
  }, [wanted]);
  useLayoutEffect(() => {
    if (!saving) return;
    saveFile(pictureOf(drawing.current!, total, HEIGHT), fileNameOf(`${title} ${words.heading}`, 'svg'));
    setSaving(false);
  }, [saving]);
  return {
    near: saving ? WHOLE_CHART : seen,
    wanted,
    goToMove: setWanted,
    savePicture: () => setSaving(true),
  };
};

/** Seven pedals over the bars: positions as stepped lines, moves as points to be dragged, needs as ticks. */
export const PedalChart = ({
  part,
  index,
  selection,
  actions,
  listening,
  barInView,
  onSelect,
  onPeek,
}: PedalChartProps) => {
  const [zoom, setZoom] = useState<ChartZoom>(12);
  const [span, setSpan] = useState<BarSpan | null>(null);
  const pane = useRef<HTMLDivElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const width = useWidth(pane, zoom, lengthQuarters(part));
  const xOf: XOf = (quarters) => INDENT + quarters * width;
  const quartersAt = (clientX: number): number =>
    (clientX - drawing.current!.getBoundingClientRect().left - INDENT) / width;
  const { moves } = part.plan;
  const chosen = movesOf(selection?.spot ?? null, index);
  const total = xOf(lengthQuarters(part)) + END;
  const { near, wanted, goToMove, savePicture } = useLongChart({
    ...{ pane, drawing, width, total },
    title: part.titles.title,
  });
  const pinned = useMemo(
    () => moves.map((move) => pinOfMove(actions.decisions, move) !== null),
    [moves, actions.decisions],
  );
  useHeldTouch(pane);
  const focusWatch = useKeptFocus(drawing, part, chosen[0]);
  const { drag, handlersFor } = useMoveDrag({
    allowedFor: (move) => allowedFor(part, move),
    quartersOf: (move) => toNumber(moves[move]!.at),
    pane,
    quartersAt,
    onDrop: ({ move, to }) => makeAt({ part, actions, at: move }, to),
  });

  useLayoutEffect(() => {
    const quarters = quartersShown(part, index, selection);
    if (quarters === null) return;
    const { clientWidth } = pane.current!;
    pane.current!.scrollTo({ left: xOf(quarters) - clientWidth / 2, behavior: scrollBehaviour() });
  }, [selection]);

  useFollowedBar(pane, barInView, (bar) => xOf(part.bars[bar]!.onsetQuarters) - INDENT);

  const named = useMemo(() => namedMoves(moves, xOf), [moves, width]);
  const lanes = useMemo(
    () => (
      <>
        <HardSpots part={part} xOf={xOf} />
        {LETTERS.map((letter) => (
          <Lane key={letter} part={part} letter={letter} near={near} xOf={xOf} />
        ))}
        <Bars part={part} near={near} xOf={xOf} />
        <Spans part={part} decisions={actions.decisions} xOf={xOf} />
        <Impossible part={part} xOf={xOf} />
      </>
    ),
    [part, actions.decisions, width, near.from, near.until],
  );
  /** Drawn wherever it is: what is chosen, what the Tab key goes to, what is dragged. */
  const isKept = (move: number): boolean =>
    chosen.includes(move) || move === (chosen[0] ?? 0) || move === wanted || move === drag?.move;

  const stepMove = (at: number, direction: Direction): void => {
    const to = stepMoment(part, at, direction);
    if (to !== null) makeAt({ part, actions, at }, to);
  };
  const takeKey = (at: number, event: KeyboardEvent): void => {
    const asked = readMoveKey(event, at, moves.length - 1);
    if (asked === null) return;
    if (asked.kind === 'go') goToMove(asked.to);
    else if (asked.kind === 'step') stepMove(at, asked.direction);
    else letGo({ part, actions, at });
    event.preventDefault();
  };
  return (
    <ChartSection
      heading={words.heading}
      tools={
        span === null ? (
          <ChartTools zoom={zoom} width={width} onZoom={setZoom} onSave={savePicture} />
        ) : (
          <SpanTools part={part} span={span} actions={actions} onClose={() => setSpan(null)}>
            <button
              type="button"
              class="small"
              onClick={() => {
                actions.decide({
                  kind: 'setting',
                  setting: { barIndex: span.first, beat: '1', print: true },
                });
                setSpan(null);
              }}
            >
              {STRINGS.decisions.printAtBar(part.bars[span.first]!.number)}
            </button>
          </SpanTools>
        )
      }
      pane={pane}
    >
      <LaneNames />
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset */}
      <svg
        ref={drawing}
        class={drag === null ? 'chart' : 'chart dragging'}
        width={total}
        height={HEIGHT}
        // It watches the focus of its moves, for which some browsers would give it a place among the tab stops.
        tabindex={-1}
        role="group"
        aria-label={`${words.label(part.bars.length, moves.length)}. ${words.keys}`}
        {...focusWatch}
      >
        {lanes}
        <BarStrip
          part={part}
          height={HEIGHT}
          xOf={xOf}
          quartersAt={quartersAt}
          span={span}
          onSpan={setSpan}
        />
        {(drag === null ? chosen : [drag.move]).map((move) => (
          <WindowBar key={move} part={part} at={move} xOf={xOf} />
        ))}
        {listening !== null && (
          <Playhead listening={listening} part={part} width={width} indent={INDENT} height={HEIGHT} />
        )}
        {moves.map(
          (move, i) =>
            (isKept(i) || isNear(near, toNumber(move.at))) && (
              <MovePoint
                key={i}
                part={part}
                at={i}
                xOf={xOf}
                selected={chosen.includes(i)}
                tabStop={i === (chosen[0] ?? 0)}
                pinned={pinned[i]!}
                named={named.has(i)}
                drag={drag}
                handlers={handlersFor(i)}
                onSelect={() => onSelect({ kind: 'move', move: i })}
                onPeek={(here) => onPeek(here ? { kind: 'move', move: i } : null)}
                onKey={(event) => takeKey(i, event)}
              />
            ),
        )}
      </svg>
    </ChartSection>
  );
};
