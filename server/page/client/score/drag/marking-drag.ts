import { useEffect, useRef, useState } from 'preact/hooks';
import { type Direction, nearestMoment } from '../../planner/moved-moment.ts';
import type { MomentPlace } from '../../planner/planned-part.ts';
import { pageAt, readLines } from './page-lines.ts';
import { type PageLine, type PageMusic, quartersAtPoint } from './page-times.ts';

/** What became of a wish to move what a marking tells. */
export type StepOutcome = 'done' | 'at-end' | 'not-movable';

/** How markings are moved on the page. */
export interface MarkingMoves extends PageMusic {
  /** The moments at which what a marking tells could be done, in order of time; none where it stays. */
  readonly allowedFor: (marking: string) => readonly MomentPlace[];
  readonly onDrop: (marking: string, to: MomentPlace) => void;
  /** To the allowed moment before or after. */
  readonly onStep: (marking: string, direction: Direction) => StepOutcome;
  /** What the user fixed of it is free again. */
  readonly onFree: (marking: string) => StepOutcome;
  /** The place in words; and why it goes no further, where it is wanted further. */
  readonly describe: (marking: string, to: MomentPlace, wanted: number) => string;
  /** Plans it as if it were made there, and tells what could not be played then, in sentences. */
  readonly tryAt: (marking: string, to: MomentPlace, onTold: (trouble: readonly string[]) => void) => void;
}

/** A marking that is being moved. */
export interface MarkingDrag {
  readonly marking: string;
  readonly allowed: readonly MomentPlace[];
  /** The lines of a page, from 1; none where it is not drawn. */
  readonly linesOf: (page: number) => readonly PageLine[];
  readonly to: MomentPlace;
  /** The score time under the pointer, in quarters. */
  readonly wanted: number;
}

/** Px that a pointer may move while it is pressed before that is a drag. */
const DRAG_FROM = 5;

/** Px from the upper and the lower edge of the pane within which it scrolls along, and by how much at a time. */
const EDGE = 44;
const STEP = 10;

interface Held extends Pick<MarkingDrag, 'marking' | 'allowed'> {
  readonly x: number;
  readonly y: number;
  readonly pointer: number;
  /** Null until it is dragged. */
  linesOf: MarkingDrag['linesOf'] | null;
  /** Where the pointer is. */
  at: { readonly x: number; readonly y: number };
}

const markingOf = (event: Event): Element | null => {
  const [target] = event.composedPath();
  return target instanceof Element ? target.closest('g.pedal-marking, g.lever-marking') : null;
};

/** By how much a pane scrolls along with a pointer near its edge, in px. */
const scrollFor = (pane: HTMLElement, y: number): number => {
  const { top, bottom } = pane.getBoundingClientRect();
  if (y < Math.max(0, top) + EDGE) return -STEP;
  return y > Math.min(innerHeight, bottom) - EDGE ? STEP : 0;
};

/** Where what is held would fall. */
const dragOf = (pane: HTMLElement, { marking, allowed, linesOf, at }: Held): MarkingDrag | null => {
  const under = pageAt(pane, at.y);
  if (under === null || linesOf === null) return null;
  const { left, top } = under.paper.getBoundingClientRect();
  const wanted = quartersAtPoint(linesOf(under.page), at.x - left, at.y - top);
  const to = wanted === null ? null : nearestMoment(allowed, wanted);
  return wanted === null || to === null ? null : { marking, allowed, linesOf, to, wanted };
};

/** The pages while a marking may be held. */
interface Dragging {
  readonly pane: HTMLElement;
  /** Null while markings stay. */
  readonly moves: () => MarkingMoves | null;
  readonly onDrag: (drag: MarkingDrag | null) => void;
  /** A marking was taken hold of that stays. */
  readonly onRefused: () => void;
  held: Held | null;
  /** Where it would fall if it were let go now. */
  shown: MarkingDrag | null;
  frame: number;
}

const giveUp = (dragging: Dragging): void => {
  cancelAnimationFrame(dragging.frame);
  Object.assign(dragging, { held: null, shown: null });
  dragging.onDrag(null);
};

const begin = (dragging: Dragging, event: PointerEvent): void => {
  const marking = markingOf(event)?.id;
  if (event.button !== 0 || marking === undefined) return;
  const { clientX: x, clientY: y, pointerId: pointer } = event;
  const allowed = dragging.moves()?.allowedFor(marking) ?? [];
  dragging.held = { marking, allowed, x, y, pointer, linesOf: null, at: { x, y } };
};

const show = (dragging: Dragging): void => {
  const drag = dragging.held === null ? null : dragOf(dragging.pane, dragging.held);
  if (drag === null) return;
  if (dragging.shown?.to !== drag.to || dragging.shown.wanted !== drag.wanted) dragging.onDrag(drag);
  dragging.shown = drag;
};

/** Brings the page before or after into the pane while the pointer is held at its edge. */
const scrollAlong = (dragging: Dragging): void => {
  const { pane, held } = dragging;
  if (held === null) return;
  const step = scrollFor(pane, held.at.y);
  if (step !== 0) {
    pane.scrollTop += step;
    show(dragging);
  }
  dragging.frame = requestAnimationFrame(() => scrollAlong(dragging));
};

/** What was pressed is dragged. @returns whether it can be */
const takeHold = (dragging: Dragging, held: Held): boolean => {
  const known = dragging.moves();
  if (known === null) dragging.onRefused();
  if (known === null || held.allowed.length === 0) {
    dragging.held = null;
    return false;
  }
  held.linesOf = readLines(dragging.pane, known);
  dragging.pane.setPointerCapture(held.pointer);
  dragging.frame = requestAnimationFrame(() => scrollAlong(dragging));
  return true;
};

const follow = (dragging: Dragging, event: PointerEvent): void => {
  const { held } = dragging;
  if (held === null || event.pointerId !== held.pointer) return;
  held.at = { x: event.clientX, y: event.clientY };
  const isFar = Math.hypot(held.at.x - held.x, held.at.y - held.y) > DRAG_FROM;
  if (held.linesOf === null && !(isFar && takeHold(dragging, held))) return;
  show(dragging);
};

const drop = (dragging: Dragging): void => {
  const { shown } = dragging;
  if (shown !== null) dragging.moves()?.onDrop(shown.marking, shown.to);
  giveUp(dragging);
};

const cancel = (dragging: Dragging, event: KeyboardEvent): void => {
  if (event.key !== 'Escape' || dragging.held === null) return;
  event.preventDefault();
  giveUp(dragging);
};

/** Listens to the pane's pointer. @returns what ends that */
const listen = (dragging: Dragging): (() => void) => {
  const { pane } = dragging;
  const key = (event: KeyboardEvent): void => cancel(dragging, event);
  pane.addEventListener('pointerdown', (event) => begin(dragging, event));
  pane.addEventListener('pointermove', (event) => follow(dragging, event));
  pane.addEventListener('pointerup', () => drop(dragging));
  pane.addEventListener('pointercancel', () => giveUp(dragging));
  addEventListener('keydown', key, { capture: true });
  return () => {
    cancelAnimationFrame(dragging.frame);
    removeEventListener('keydown', key, { capture: true });
  };
};

/** Drags markings from one allowed moment to another, on their page or over its edge; Escape gives up. */
export const useMarkingDrag = (
  pane: { readonly current: HTMLElement | null },
  moves: MarkingMoves | null,
  onRefused: () => void,
): MarkingDrag | null => {
  const [drag, setDrag] = useState<MarkingDrag | null>(null);
  const latest = useRef({ moves, onRefused });
  latest.current = { moves, onRefused };
  useEffect(
    () =>
      listen({
        pane: pane.current!,
        moves: () => latest.current.moves,
        onDrag: setDrag,
        onRefused: () => latest.current.onRefused(),
        held: null,
        shown: null,
        frame: 0,
      }),
    [],
  );
  return drag;
};
