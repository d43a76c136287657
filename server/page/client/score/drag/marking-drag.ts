import { useEffect, useRef, useState } from 'preact/hooks';
import { type Direction, nearestMoment } from '../../planner/moved-moment.ts';
import type { MomentPlace } from '../../planner/planned-part.ts';
import { linesOf, type PageLine, type PageMusic, quartersAtPoint } from './page-times.ts';

/** How markings are moved on the page. */
export interface MarkingMoves extends PageMusic {
  /** The moments at which what a marking tells could be done, in order of time; none where it stays. */
  readonly allowedFor: (marking: string) => readonly MomentPlace[];
  readonly onDrop: (marking: string, to: MomentPlace) => void;
  /** To the allowed moment before or after. */
  readonly onStep: (marking: string, direction: Direction) => void;
  /** What the user fixed of it is free again. */
  readonly onFree: (marking: string) => void;
  /** The place in words; and why it goes no further, where it is wanted further. */
  readonly describe: (marking: string, to: MomentPlace, wanted: number) => string;
}

/** A marking that is being moved. */
export interface MarkingDrag {
  readonly marking: string;
  readonly allowed: readonly MomentPlace[];
  readonly lines: readonly PageLine[];
  readonly to: MomentPlace;
  /** The score time under the pointer, in quarters. */
  readonly wanted: number;
}

/** Px that a pointer may move while it is pressed before that is a drag. */
const DRAG_FROM = 5;

interface Held {
  readonly marking: string;
  readonly allowed: readonly MomentPlace[];
  readonly x: number;
  readonly y: number;
  readonly pointer: number;
  lines: readonly PageLine[] | null;
}

const changeAt = (event: Event): Element | null => {
  const [target] = event.composedPath();
  return target instanceof Element ? target.closest('g.pedal-marking, g.lever-marking') : null;
};

/** Drags the markings of one page from one allowed moment to another; Escape gives up. */
export const useMarkingDrag = (
  host: { readonly current: HTMLDivElement | null },
  moves: MarkingMoves | null,
): MarkingDrag | null => {
  const [drag, setDrag] = useState<MarkingDrag | null>(null);
  const latest = useRef(moves);
  latest.current = moves;
  useEffect(() => {
    const paper = host.current!;
    let held: Held | null = null;
    let dropped: MarkingDrag | null = null;
    const giveUp = (): void => {
      [held, dropped] = [null, null];
      setDrag(null);
    };
    const begin = (event: PointerEvent): void => {
      const marking = changeAt(event);
      if (event.button !== 0 || marking === null) return;
      const allowed = latest.current?.allowedFor(marking.id) ?? [];
      if (allowed.length === 0) return;
      held = {
        marking: marking.id,
        allowed,
        x: event.clientX,
        y: event.clientY,
        pointer: event.pointerId,
        lines: null,
      };
    };
    const follow = (event: PointerEvent): void => {
      const known = latest.current;
      if (held === null || known === null || event.pointerId !== held.pointer) return;
      const { marking, allowed, x, y } = held;
      if (held.lines === null) {
        if (Math.hypot(event.clientX - x, event.clientY - y) <= DRAG_FROM) return;
        held.lines = linesOf(paper.shadowRoot!, known);
        paper.setPointerCapture(event.pointerId);
      }
      const { left, top } = paper.getBoundingClientRect();
      const wanted = quartersAtPoint(held.lines, event.clientX - left, event.clientY - top);
      const to = wanted === null ? null : nearestMoment(allowed, wanted);
      if (wanted === null || to === null) return;
      dropped = { marking, allowed, lines: held.lines, to, wanted };
      setDrag(dropped);
    };
    const end = (): void => {
      if (dropped !== null) latest.current?.onDrop(dropped.marking, dropped.to);
      giveUp();
    };
    const cancel = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape' || held === null) return;
      event.preventDefault();
      giveUp();
    };
    paper.shadowRoot!.addEventListener('pointerdown', begin as EventListener);
    paper.addEventListener('pointermove', follow);
    paper.addEventListener('pointerup', end);
    paper.addEventListener('pointercancel', giveUp);
    addEventListener('keydown', cancel, { capture: true });
    return () => removeEventListener('keydown', cancel, { capture: true });
  }, []);
  return drag;
};
