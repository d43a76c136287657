import { STRINGS } from '../../../strings/strings.ts';
import { parseDrawing } from '../../controls/safe-svg.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** Room round a marking that answers to the pointer, in its own units. */
const HALO = 0.6;

/** Paper stays white in the dark as well: what is seen is what is printed, but for what is looked at or sounds. */
const STYLE = `
  :host { display: block; }
  svg { display: block; width: 100%; height: 100%; }
  .pedal-marking, .lever-marking { cursor: pointer; outline: none; touch-action: none; }
  .halo { fill: transparent; stroke: none; pointer-events: all; vector-effect: non-scaling-stroke; }
  .note { cursor: pointer; }
  @media screen {
    .pedal-marking:hover .halo, .lever-marking:hover .halo { fill: #1f5fa822; }
    .only-here .halo { stroke: #7a2a8f; stroke-width: 1.5px; }
    .selected .halo { fill: #1f5fa833; stroke: #1f5fa8; stroke-width: 1.5px; }
    .pedal-marking:focus-visible .halo, .lever-marking:focus-visible .halo { stroke: #1f5fa8; stroke-width: 3px; }
    .sounding, .sounding * { fill: #7a2a8f; color: #7a2a8f; }
    .asks, .asks * { fill: #1f5fa8; color: #1f5fa8; }
  }
`;

const sheetStyle = new CSSStyleSheet();
sheetStyle.replaceSync(STYLE);

/** A lever marking's own title says what it shows. */
const labelOf = (group: Element): ((bar: string, names: string) => string) => {
  if (group.classList.contains('lever-marking')) return STRINGS.score.leverLabel;
  const { settingLabel, changeLabel } = STRINGS.score;
  return group.getAttribute('data-kind') === 'setting' ? settingLabel : changeLabel;
};

/** Markings are what a user goes to; each says in words what it shows. */
const nameMarking = (group: Element): void => {
  const title = group.querySelector('title');
  const names = STRINGS.spoken(
    group.getAttribute('data-pedals') ?? title?.textContent ?? group.getAttribute('data-strings') ?? '',
  );
  const bar = group.getAttribute('data-bar') ?? '';
  const label = labelOf(group);
  title?.remove();
  // The marking is named in words: its letters as text, which is not seen, are for files and paper.
  group.querySelector('text.letters')?.remove();
  group.setAttribute('role', 'button');
  group.setAttribute('aria-label', label(bar, names));
  group.setAttribute('tabindex', '-1');
};

const haloOf = (box: DOMRect): Element => {
  const rect = document.createElementNS(SVG, 'rect');
  rect.setAttribute('class', 'halo');
  rect.setAttribute('x', `${box.x - HALO}`);
  rect.setAttribute('y', `${box.y - HALO}`);
  rect.setAttribute('width', `${box.width + 2 * HALO}`);
  rect.setAttribute('height', `${box.height + 2 * HALO}`);
  rect.setAttribute('rx', `${HALO}`);
  return rect;
};

export const markingsIn = (root: ShadowRoot): SVGGElement[] => [
  ...root.querySelectorAll<SVGGElement>('g.pedal-marking, g.lever-marking'),
];

/** The size of a page as it says it; null where it does not. */
export const sizeOf = (svg: string): { readonly widthMm: number; readonly heightMm: number } | null => {
  const size = /<svg\b[^>]*?\bwidth="([\d.]+)mm"[^>]*?\bheight="([\d.]+)mm"/.exec(svg);
  return size === null ? null : { widthMm: Number(size[1]), heightMm: Number(size[2]) };
};

/** Width to height of a page; of A4 where the page does not say. */
export const proportionOf = (svg: string): number => {
  const { widthMm, heightMm } = sizeOf(svg) ?? { widthMm: 210, heightMm: 297 };
  return widthMm / heightMm;
};

/**
 * Draws a page into a shadow tree of its own: the ids of a score stay apart from those of the page and of other pages.
 *
 * @returns whether it could be drawn
 */
export const drawPage = (root: ShadowRoot, text: string): boolean => {
  const drawing = parseDrawing(text);
  if (drawing === null) return false;
  root.adoptedStyleSheets = [sheetStyle];
  drawing.removeAttribute('width');
  drawing.removeAttribute('height');
  drawing.setAttribute('role', 'group');
  root.replaceChildren(drawing);
  for (const group of markingsIn(root)) nameMarking(group);
  return true;
};

/** Gives the markings of a drawn page room that answers to the pointer: their sizes are known once it has its place. */
export const addHalos = (root: ShadowRoot): void => {
  const bare = markingsIn(root).filter((group) => group.querySelector('.halo') === null);
  const halos = bare.map((group) => haloOf(group.getBBox()));
  bare.forEach((group, i) => {
    group.prepend(halos[i]!);
  });
};
