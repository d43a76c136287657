import { useEffect, useRef } from 'preact/hooks';
import { scrollBehaviour } from '../controls/scrolling.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import { LEFT } from './geometry/chart-geometry.ts';

export interface PlayheadProps {
  readonly listening: Listening;
  readonly part: Pick<PlannedPart, 'bars'>;
  /** Px of a quarter note, and px left of the first. */
  readonly width: number;
  readonly indent: number;
  /** Of the chart. */
  readonly height: number;
}

/** Shares of the pane: past the first the chart scrolls on, so that the music stands at the second. */
const SCROLL_ON = 0.85;
const STANDS_AT = 0.2;

const keepInView = (pane: Element, x: number): void => {
  const { scrollLeft, clientWidth } = pane;
  if (x >= scrollLeft + LEFT && x <= scrollLeft + SCROLL_ON * clientWidth) return;
  pane.scrollTo({ left: x - STANDS_AT * clientWidth, behavior: scrollBehaviour() });
};

/** What answers to a click itself. */
const ANSWERING = '[role="button"], .strip, .grip';

/** A line in the chart where the music is; a click beside the moves sets it. */
export const Playhead = ({ listening, part, width, indent, height }: PlayheadProps) => {
  const line = useRef<SVGPathElement>(null);
  useEffect(() => {
    let { bar } = listening.place();
    const follow = (): void => {
      const place = listening.place();
      const x = indent + place.quarters * width;
      line.current?.setAttribute('transform', `translate(${x} 0)`);
      const pane = line.current?.closest('.chart-pane');
      // Smooth scrolling is given time: once a bar is enough.
      if (pane && place.bar !== bar) keepInView(pane, x);
      bar = place.bar;
    };
    follow();
    return listening.watch(follow);
  }, [listening, width]);
  useEffect(() => {
    const chart = line.current!.ownerSVGElement!;
    const set = (event: MouseEvent): void => {
      if (event.target instanceof Element && event.target.closest(ANSWERING) !== null) return;
      const x = event.clientX - chart.getBoundingClientRect().left;
      const quarters = Math.max(0, (x - indent) / width);
      const bar = part.bars.findLastIndex(({ onsetQuarters }) => onsetQuarters <= quarters);
      if (bar !== -1) listening.seekPlace(bar, quarters);
    };
    chart.addEventListener('click', set);
    return () => chart.removeEventListener('click', set);
  }, [listening, part.bars, width]);
  return <path ref={line} class="playhead" d={`M0 4V${height}M-5 4h10l-5 7z`} />;
};
