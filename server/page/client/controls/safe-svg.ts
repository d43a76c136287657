const SVG = 'http://www.w3.org/2000/svg';

/** All that our pages are drawn with; anything else could only have come out of a score's own text. */
const DRAWN = new Set(
  'svg g defs symbol path use ellipse circle rect line polyline polygon text tspan title desc'.split(' '),
);

const isHarmless = ({ name, value }: Attr): boolean => {
  const plain = name.toLowerCase();
  if (plain.startsWith('on') || plain === 'style') return false;
  if (plain === 'href' || plain.endsWith(':href')) return value.startsWith('#');
  return !/url\(\s*['"]?(?!#)|javascript:/i.test(value);
};

const clean = (element: Element): void => {
  for (const child of [...element.children]) {
    if (child.namespaceURI === SVG && DRAWN.has(child.localName)) clean(child);
    else child.remove();
  }
  for (const attribute of [...element.attributes]) {
    if (!isHarmless(attribute)) element.removeAttributeNode(attribute);
  }
};

/** The letters that a page brings: parsing them breaks the page's policy, and the program has them already. */
const STYLES = /<style\b[\s\S]*?<\/style>/g;

/**
 * Reads an SVG document as a drawing and nothing more: no script, no foreign content, no event, no outside address.
 *
 * @returns the drawing, not yet in any document; null where the text is no SVG
 */
export const parseDrawing = (text: string): SVGSVGElement | null => {
  const root = new DOMParser().parseFromString(text.replace(STYLES, ''), 'image/svg+xml').documentElement;
  if (root.namespaceURI !== SVG || root.localName !== 'svg') return null;
  clean(root);
  return document.importNode(root, true) as unknown as SVGSVGElement;
};
