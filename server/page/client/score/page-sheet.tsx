import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { centreIn, scrollTo } from '../controls/scrolling.ts';
import type { AskedAt } from './at-hand.tsx';
import { DragOverlay } from './drag/drag-overlay.tsx';
import type { MarkingDrag, MarkingMoves } from './drag/marking-drag.ts';
import { addHalos, drawPage, markingsIn, proportionOf } from './drawn/page-drawing.ts';
import { OtherMovesOnPage, type OthersOnPage } from './other-moves.tsx';

/** What is to be seen on a page beside the page itself. */
export interface PageEmphasis {
  /** The marking that is looked at. */
  readonly selected: string | null;
  /** Ids of notes that ask for it. */
  readonly notes: readonly string[];
  /** Markings of moves that a plan which is compared does without, or makes elsewhere. */
  readonly onlyHere: readonly string[];
  /** The marking that the Tab key goes to. */
  readonly tabStop: string | null;
}

/** Something on the page that is to be brought into view; each wish is a new object. */
export interface PageWish {
  /** Ids, the best first: the first one that is on the page is shown. */
  readonly ids: readonly string[];
  /** Whether it takes the focus too. */
  readonly focus: boolean;
  /**
   * How it comes into view: to the middle of the window; of the pane alone, since the user works in a view beside the pages;
   * or no further than it takes to be seen, since the user chose it where it stands.
   */
  readonly reach: 'window' | 'pane' | 'nearest';
}

/** What is to be brought into view, and on which page it is, from 1. */
export type OnPage = PageWish & { readonly page: number };

export interface PageSheetProps {
  readonly svg: string;
  readonly page: number;
  readonly of: number;
  readonly emphasis: PageEmphasis;
  readonly wish: PageWish | null;
  readonly onSelect: (marking: string) => void;
  /** A note was clicked or tapped. */
  readonly onNote: (note: string) => void;
  readonly onPeek: (marking: string | null) => void;
  /** It was asked what can be done with something. @returns whether there is an answer */
  readonly onAsk: (asked: AskedAt) => boolean;
  /** How markings are moved on the pages; null where they stay. */
  readonly moves: MarkingMoves | null;
  /** A marking that is being moved, of this page or of another; null where none is. */
  readonly drag: MarkingDrag | null;
  /** What another plan does otherwise; null where none is looked at. */
  readonly others: OthersOnPage | null;
  /** A key was pressed on a marking. */
  readonly onKey: (marking: string, event: KeyboardEvent) => void;
}

const markingAt = (event: Event): string | null => {
  const [target] = event.composedPath();
  return target instanceof Element ? (target.closest('g.pedal-marking, g.lever-marking')?.id ?? null) : null;
};

/** Px round a click or a touch within which a note is meant by it. */
const NEAR_NOTE = 18;

/** The note that is clicked, or the nearest one beside the click. */
const noteAt = (root: ShadowRoot, event: MouseEvent): string | null => {
  const [target] = event.composedPath();
  const hit = target instanceof Element ? target.closest('g.note') : null;
  if (hit !== null) return hit.id;
  let nearest: { readonly id: string; readonly distance: number } | null = null;
  for (const head of root.querySelectorAll('g.note > .notehead')) {
    const { left, top, width, height } = head.getBoundingClientRect();
    const distance = Math.hypot(left + width / 2 - event.clientX, top + height / 2 - event.clientY);
    if (distance <= (nearest?.distance ?? NEAR_NOTE)) nearest = { id: head.parentElement!.id, distance };
  }
  return nearest?.id ?? null;
};

/** Whether a sheet is near enough to the window to be drawn. */
const useNearness = (host: { readonly current: HTMLElement | null }, wish: PageWish | null): boolean => {
  const [near, setNear] = useState(false);
  useEffect(() => {
    // A sheet that came and went before this was called is told of several times: the last counts.
    const watch = new IntersectionObserver((entries) => setNear(entries.at(-1)!.isIntersecting), {
      rootMargin: '1200px 0px',
      root: host.current!.closest('.pages'),
    });
    watch.observe(host.current!);
    return () => watch.disconnect();
  }, []);
  // What was wished for comes near by it: the page stays drawn when the wish is gone, and the focus with it.
  useLayoutEffect(() => {
    if (wish !== null) setNear(true);
  }, [wish]);
  return near;
};

const namePage = (root: ShadowRoot, page: number, of: number): void =>
  root.querySelector('svg')?.setAttribute('aria-label', STRINGS.score.page(page, of));

const emphasise = (root: ShadowRoot, { selected, notes, onlyHere, tabStop }: PageEmphasis): void => {
  for (const group of markingsIn(root)) {
    group.classList.toggle('selected', group.id === selected);
    group.classList.toggle('only-here', onlyHere.includes(group.id));
    group.setAttribute('aria-pressed', `${group.id === selected}`);
    group.setAttribute('tabindex', group.id === tabStop ? '0' : '-1');
  }
  for (const note of root.querySelectorAll('.asks')) note.classList.remove('asks');
  for (const id of notes) root.getElementById(id)?.classList.add('asks');
};

const fulfil = (host: HTMLElement, { ids, focus, reach }: PageWish): void => {
  const root = host.shadowRoot!;
  const target = ids.map((id) => root.getElementById(id)).find((each) => each !== null);
  if (focus && target instanceof SVGElement) target.focus({ preventScroll: true });
  if (reach === 'pane') centreIn(host.closest('.pages')!, target ?? host);
  else if (reach === 'window') scrollTo(target ?? host, target === undefined ? 'start' : 'center');
  else if (target !== undefined) scrollTo(target, 'nearest');
};

/** Draws the page while it is near the window. @returns whether it could be drawn */
const useDrawing = (
  host: { readonly current: HTMLElement | null },
  { svg, page, of, emphasis, wish }: PageSheetProps,
  wanted: boolean,
): boolean => {
  const [drawable, setDrawable] = useState(true);
  useLayoutEffect(() => {
    const root = host.current!.shadowRoot ?? host.current!.attachShadow({ mode: 'open' });
    const hadFocus = root.activeElement !== null;
    if (wanted) setDrawable(drawPage(root, svg));
    else root.replaceChildren();
    // Drawn anew, the page goes on having the focus that it had.
    if (hadFocus && emphasis.tabStop !== null) {
      root.querySelector<SVGGElement>(`#${CSS.escape(emphasis.tabStop)}`)?.focus({ preventScroll: true });
    }
  }, [wanted, svg]);
  useEffect(() => {
    if (!wanted) return;
    const timer = setTimeout(() => addHalos(host.current!.shadowRoot!));
    return () => clearTimeout(timer);
  }, [wanted, svg]);
  useLayoutEffect(() => namePage(host.current!.shadowRoot!, page, of), [wanted, svg, page, of]);
  useLayoutEffect(() => emphasise(host.current!.shadowRoot!, emphasis), [wanted, svg, emphasis]);
  useLayoutEffect(() => {
    if (wish !== null) fulfil(host.current!, wish);
  }, [wish]);
  return drawable;
};

type Answers = Pick<PageSheetProps, 'onSelect' | 'onNote' | 'onAsk' | 'onPeek' | 'onKey'>;

/** Tells of clicks, keys and the pointer on markings and notes. @param answers as they are now */
const listenTo = (host: HTMLElement, answers: () => Answers): void => {
  const root = host.shadowRoot!;
  const select = (event: Event): void => {
    const marking = markingAt(event);
    if (marking !== null) answers().onSelect(marking);
  };
  const click = (event: MouseEvent): void => {
    select(event);
    const note = markingAt(event) === null ? noteAt(root, event) : null;
    if (note !== null) answers().onNote(note);
  };
  const key = (event: Event): void => {
    const marking = markingAt(event);
    if (marking !== null) answers().onKey(marking, event as KeyboardEvent);
  };
  const ask = (event: MouseEvent): void => {
    const marking = markingAt(event);
    const id = marking ?? noteAt(root, event);
    if (id === null) return;
    const { clientX: x, clientY: y } = event;
    // What is asked about is what is looked at.
    if (marking === null) answers().onNote(id);
    else answers().onSelect(id);
    if (answers().onAsk({ kind: marking === null ? 'note' : 'marking', id, x, y })) event.preventDefault();
  };
  root.addEventListener('contextmenu', (event) => ask(event as MouseEvent));
  root.addEventListener('focusin', select);
  root.addEventListener('click', (event) => click(event as MouseEvent));
  root.addEventListener('pointerover', (event) => answers().onPeek(markingAt(event)));
  root.addEventListener('keydown', key);
  host.addEventListener('pointerleave', () => answers().onPeek(null));
};

/** Paper takes the pages that were never near the window too. */
const useDrawingForPaper = (
  host: { readonly current: HTMLElement | null },
  latest: () => PageSheetProps,
): void =>
  useEffect(() => {
    const drawForPaper = (): void => {
      const root = host.current!.shadowRoot!;
      if (root.childElementCount > 0) return;
      const { svg, page, of, emphasis } = latest();
      drawPage(root, svg);
      namePage(root, page, of);
      emphasise(root, emphasis);
    };
    addEventListener('beforeprint', drawForPaper);
    return () => removeEventListener('beforeprint', drawForPaper);
  }, []);

/** One page of the score, drawn when it comes near the window. */
export const PageSheet = (props: PageSheetProps) => {
  const { svg, page, wish, drag, moves, others } = props;
  const host = useRef<HTMLDivElement>(null);
  const latest = useRef(props);
  latest.current = props;
  const wanted = useNearness(host, wish) || wish !== null;
  const drawable = useDrawing(host, props, wanted);
  useEffect(() => listenTo(host.current!, () => latest.current), []);
  useDrawingForPaper(host, () => latest.current);
  return (
    <div class="sheet" data-page={page}>
      <div ref={host} class="paper" style={{ aspectRatio: `${proportionOf(svg)}` }} />
      {drag !== null && moves !== null && <DragOverlay page={page} drag={drag} moves={moves} />}
      {wanted && drawable && others !== null && <OtherMovesOnPage paper={host} drawn={svg} others={others} />}
      {!drawable && <p role="alert">{STRINGS.score.notDrawable}</p>}
    </div>
  );
};
