import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';

/** Widths of a page to step by, in percent of what fills the pane. */
const STEPS = [50, 75, 100, 150, 200, 300] as const;

/** A step larger or smaller; the size as it is where there is none. */
export const stepZoom = (now: number, step: 1 | -1): number =>
  (step > 0 ? STEPS.find((each) => each > now) : STEPS.findLast((each) => each < now)) ?? now;

/** A whole page may have to be smaller than anyone would step to. In percent. */
const LEAST = 15;

const within = (wanted: number): number => Math.min(STEPS.at(-1)!, Math.max(LEAST, Math.round(wanted)));

/** What of a page is to fill the pane. */
export type Fit = 'width' | 'page';

/** The size in which a page is as wide as the pane, or wholly to be seen in it, in percent. */
const fitting = (pane: HTMLElement, zoom: number, fit: Fit): number => {
  const sheet = pane.querySelector('.sheet');
  const around = pane.querySelector('.sheets');
  if (sheet === null || around === null) return zoom;
  const { width, height } = sheet.getBoundingClientRect();
  const room = around.getBoundingClientRect().width - width;
  const whole = ((pane.clientHeight - room) * width) / height;
  const wanted = Math.min(pane.clientWidth, fit === 'width' ? Number.POSITIVE_INFINITY : whole + room);
  // Rounded down: what is a hair too large has to be scrolled.
  return within(Math.floor((zoom * wanted) / (width + room)));
};

/** A place in the window, in px. */
interface Point {
  readonly x: number;
  readonly y: number;
}

/** What of the pages is at a point, as shares of a sheet's width and height. */
interface Anchor {
  readonly point: Point;
  readonly sheet: Element;
  readonly across: number;
  readonly down: number;
}

const middleOf = (pane: Element): Point => {
  const { left, top, width, height } = pane.getBoundingClientRect();
  return { x: left + width / 2, y: top + height / 2 };
};

/** Where one begins to read. */
export const startOf = (pane: Element): Point => {
  const { left, top } = pane.getBoundingClientRect();
  return { x: left, y: top };
};

/** Where the head of a page stands when it is the first thing in the pane. */
const headOf = (pane: Element, sheet: Element): Point => ({
  x: sheet.getBoundingClientRect().left,
  y: pane.getBoundingClientRect().top + Number.parseFloat(getComputedStyle(sheet).scrollMarginTop),
});

const anchorAt = (pane: Element, point: Point): Anchor | null => {
  const sheets = [...pane.querySelectorAll('.sheet')];
  const sheet = sheets.findLast((each) => each.getBoundingClientRect().top <= point.y) ?? sheets[0];
  if (sheet === undefined) return null;
  const { left, top, width, height } = sheet.getBoundingClientRect();
  return { point, sheet, across: (point.x - left) / width, down: (point.y - top) / height };
};

const bringBack = (pane: Element, { point, sheet, across, down }: Anchor): void => {
  const { left, top, width, height } = sheet.getBoundingClientRect();
  pane.scrollBy({
    left: left + across * width - point.x,
    top: top + down * height - point.y,
    behavior: 'instant',
  });
};

/**
 * How large the pages are, in percent; what is looked at stays where it is when they grow or shrink.
 *
 * @param pane scrolls; its sheets have the class `sheet`
 * @param view remembers the size
 * @param stays what of the pane stays where it is when nothing is pointed at
 */
export const useZoom = (
  pane: { readonly current: HTMLElement | null },
  view: { zoom: number },
  stays = middleOf,
) => {
  const [zoom, setZoom] = useState(view.zoom);
  const anchor = useRef<Anchor | null>(null);
  const zoomTo = (wanted: number, point: Point = stays(pane.current!)): void => {
    anchor.current ??= anchorAt(pane.current!, point);
    view.zoom = within(wanted);
    setZoom(view.zoom);
  };
  const fitTo = (fit: Fit): void => {
    const wanted = fitting(pane.current!, zoom, fit);
    const seen = anchorAt(pane.current!, middleOf(pane.current!));
    zoomTo(wanted);
    if (fit === 'width' || seen === null) return;
    // The page that is seen is then seen from its head.
    anchor.current = { ...seen, point: headOf(pane.current!, seen.sheet), across: 0, down: 0 };
    if (wanted === zoom) bringBack(pane.current!, anchor.current);
  };
  useLayoutEffect(() => {
    if (anchor.current !== null) bringBack(pane.current!, anchor.current);
    anchor.current = null;
  }, [zoom]);
  usePinch(pane, zoom, zoomTo);
  return { zoom, zoomTo, fitTo };
};

/** Px of a wheel, or of two fingers on a touchpad, that make pages e times as large. */
const WHEEL_PX = 300;

/** Two fingers on the pages, or a wheel turned with Ctrl, change the size about where they are. */
const usePinch = (
  pane: { readonly current: HTMLElement | null },
  zoom: number,
  zoomTo: (wanted: number, point: Point) => void,
): void => {
  const latest = useRef({ zoom, zoomTo });
  latest.current = { zoom, zoomTo };
  useEffect(() => {
    const element = pane.current!;
    let begun: { readonly apart: number; readonly zoom: number } | null = null;
    const begin = ({ touches }: TouchEvent): void => {
      begun = touches.length === 2 ? { apart: apartOf(touches), zoom: latest.current.zoom } : null;
    };
    const pinch = (event: TouchEvent): void => {
      if (begun === null || event.touches.length !== 2) return;
      if (event.cancelable) event.preventDefault();
      const grown = apartOf(event.touches) / begun.apart;
      latest.current.zoomTo(begun.zoom * grown, betweenOf(event.touches));
    };
    const turn = (event: WheelEvent): void => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      const { clientX: x, clientY: y, deltaY } = event;
      latest.current.zoomTo(latest.current.zoom * Math.exp(-deltaY / WHEEL_PX), { x, y });
    };
    const stop = new AbortController();
    const { signal } = stop;
    element.addEventListener('touchstart', begin, { passive: true, signal });
    element.addEventListener('touchend', begin, { passive: true, signal });
    element.addEventListener('touchmove', pinch, { passive: false, signal });
    element.addEventListener('wheel', turn, { passive: false, signal });
    return () => stop.abort();
  }, []);
};

const apartOf = ([a, b]: TouchList): number => Math.hypot(a!.clientX - b!.clientX, a!.clientY - b!.clientY);

const betweenOf = ([a, b]: TouchList): Point => ({
  x: (a!.clientX + b!.clientX) / 2,
  y: (a!.clientY + b!.clientY) / 2,
});
