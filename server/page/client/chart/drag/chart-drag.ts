import { useEffect, useRef, useState } from 'preact/hooks';
import { nearestMoment } from '../../planner/moved-moment.ts';
import type { MomentPlace } from '../../planner/planned-part.ts';

/** A move that is being dragged, and where it would fall. */
export interface MoveDrag {
  /** Index into the plan's moves. */
  readonly move: number;
  readonly to: MomentPlace;
}

/** Px that a pointer may move while it is pressed before that is a drag. */
const DRAG_FROM = 4;

/** Px from the edge of the pane within which it scrolls along, and by how much at a time. */
const EDGE = 36;
const STEP = 14;

export interface MoveDragOptions {
  /** The moments at which a move could be made, and where it is made now, in quarters. */
  readonly allowedFor: (move: number) => readonly MomentPlace[];
  readonly quartersOf: (move: number) => number;
  readonly pane: { readonly current: HTMLElement | null };
  /** The score time, in quarters, under a place on the screen. */
  readonly quartersAt: (clientX: number) => number;
  readonly onDrop: (drag: MoveDrag) => void;
}

const scrollAlong = (pane: HTMLElement, clientX: number): void => {
  const { left, right } = pane.getBoundingClientRect();
  if (clientX < left + EDGE) pane.scrollLeft -= STEP;
  if (clientX > right - EDGE) pane.scrollLeft += STEP;
};

/** Drags moves by pointer from one allowed moment to another; Escape gives up, and what falls where it was stays. */
export const useMoveDrag = ({ allowedFor, quartersOf, pane, quartersAt, onDrop }: MoveDragOptions) => {
  const [drag, setDrag] = useState<MoveDrag | null>(null);
  const start = useRef<{
    readonly move: number;
    readonly x: number;
    /** From where it was taken, which may be its name beside it, to its own moment, in quarters. */
    readonly offset: number;
    dragging: boolean;
  } | null>(null);
  const giveUp = (): void => {
    start.current = null;
    setDrag(null);
  };
  useEffect(() => {
    if (drag === null) return;
    const watch = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      giveUp();
    };
    addEventListener('keydown', watch, { capture: true });
    return () => removeEventListener('keydown', watch, { capture: true });
  }, [drag !== null]);

  const follow = (event: PointerEvent): void => {
    const held = start.current;
    if (held === null) return;
    held.dragging ||= Math.abs(event.clientX - held.x) > DRAG_FROM;
    if (!held.dragging) return;
    scrollAlong(pane.current!, event.clientX);
    const to = nearestMoment(allowedFor(held.move), quartersAt(event.clientX) + held.offset);
    if (to !== null) setDrag((now) => (now?.to === to ? now : { move: held.move, to }));
  };
  const handlersFor = (move: number) => ({
    onPointerDown: (event: PointerEvent): void => {
      if (event.button !== 0) return;
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      const offset = quartersOf(move) - quartersAt(event.clientX);
      start.current = { move, x: event.clientX, offset, dragging: false };
    },
    onPointerMove: follow,
    onPointerUp: (): void => {
      const isElsewhere = drag !== null && drag.to.quarters !== quartersOf(drag.move);
      if (isElsewhere && start.current !== null) onDrop(drag);
      giveUp();
    },
    onPointerCancel: giveUp,
  });
  return { drag, handlersFor };
};
