import { useEffect } from 'preact/hooks';
import { toNumber } from '../../../../engine/index.ts';
import { scrollBehaviour } from '../controls/scrolling.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import type { PageIndex } from './drawn/page-markings.ts';

/** A page that comes into view is drawn within as many frames. */
const FRAMES_TO_DRAW = 60;

/** Share of the pane above the system that is played. */
const ABOVE = 0.2;

const rootOf = (pane: HTMLElement, page: number): ShadowRoot | null =>
  pane.querySelector(`.sheet[data-page="${page}"] .paper`)?.shadowRoot ?? null;

/** Brings a bar into the pane where it is not wholly seen. */
const showBar = (pane: HTMLElement, target: Element): void => {
  const [view, box] = [pane.getBoundingClientRect(), target.getBoundingClientRect()];
  if (box.top >= view.top && box.bottom <= view.bottom) return;
  const top = pane.scrollTop + box.top - view.top - ABOVE * pane.clientHeight;
  pane.scrollTo({ top, behavior: scrollBehaviour() });
};

type Where = Pick<PlannedPart, 'bars' | 'notes'>;

/** Marks the notes that sound and keeps the bar in view; ends with what it answers. */
const followOn = (
  pane: HTMLElement,
  listening: Listening,
  part: Where,
  index: Pick<PageIndex, 'pageOfBar'>,
): (() => void) => {
  let marked: Element[] = [];
  let markedFor = '';
  // Where it stands at first is not forced upon the user's view.
  let { bar } = listening.place();
  let wasPlaying = listening.isPlaying();
  let frame = 0;
  const unmark = (): void => {
    for (const each of marked) each.classList.remove('sounding');
  };
  const follow = (retries = FRAMES_TO_DRAW): void => {
    const place = listening.place();
    const page = index.pageOfBar(place.bar);
    const root = rootOf(pane, page);
    const measure = root?.getElementById(part.bars[place.bar]?.id ?? '') ?? null;
    // What is played is brought into view when it starts, wherever the user had scrolled to.
    const starts = listening.isPlaying() && !wasPlaying;
    wasPlaying = listening.isPlaying();
    if (place.bar !== bar || starts) showBar(pane, measure ?? root?.host ?? pane);
    bar = place.bar;
    const heads = listening.heads();
    const wanted = heads.join(' ');
    if (wanted === markedFor && marked.every((each) => each.isConnected)) return;
    unmark();
    marked = heads.flatMap((id) => root?.getElementById(id) ?? []);
    for (const each of marked) each.classList.add('sounding');
    markedFor = wanted;
    const isDrawn = root?.firstElementChild !== null;
    if (isDrawn || retries === 0) return;
    // The page is still to be drawn: it is looked at again.
    [markedFor, bar] = ['?', -1];
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(() => follow(retries - 1));
  };
  follow();
  const stop = listening.watch(() => follow());
  return () => {
    stop();
    cancelAnimationFrame(frame);
    unmark();
  };
};

/** The note or bar at a click, as a printed place. */
const placeOfClick = (
  event: MouseEvent,
  part: Where,
  barOfId: ReadonlyMap<string, number>,
): { readonly bar: number; readonly quarters: number } | null => {
  const path = event.composedPath().filter((each) => each instanceof Element);
  if (path.some((each) => each.matches('g.pedal-marking, g.lever-marking'))) return null;
  for (const { id } of path) {
    const note = part.notes.get(id);
    if (note !== undefined) return { bar: note.bar, quarters: toNumber(note.onset) };
  }
  const root = path[0]?.getRootNode();
  if (!(root instanceof ShadowRoot)) return null;
  const hit = [...root.querySelectorAll('g.measure')].find((measure) => {
    const { left, right, top, bottom } = measure.getBoundingClientRect();
    const { clientX: x, clientY: y } = event;
    return x >= left && x <= right && y >= top && y <= bottom;
  });
  const bar = hit === undefined ? undefined : barOfId.get(hit.id);
  return bar === undefined ? null : { bar, quarters: part.bars[bar]!.onsetQuarters };
};

/** While the player is open the pages follow it, and a click on a note or bar sets where it is. */
export const useFollowing = (
  pane: { readonly current: HTMLElement | null },
  listening: Listening | null,
  part: Where,
  index: Pick<PageIndex, 'pageOfBar'>,
): void => {
  useEffect(() => {
    const element = pane.current;
    if (listening === null || element === null) return;
    const unfollow = followOn(element, listening, part, index);
    const barOfId = new Map(part.bars.map(({ id }, i) => [id, i]));
    const set = (event: MouseEvent): void => {
      const place = placeOfClick(event, part, barOfId);
      if (place !== null) listening.seekPlace(place.bar, place.quarters);
    };
    element.addEventListener('click', set);
    return () => {
      unfollow();
      element.removeEventListener('click', set);
    };
  }, [listening, part.bars, index]);
};
