import { fail, ok, type Problem, type Result } from '../problem.ts';
import type { XmlElement } from '../xml/tree.ts';
import type { Score } from './model/score.ts';

/** What a score may ask of a page, far above what music does: past it a layout takes hours, or more memory than there is. */
export const DRAWING_LIMITS = {
  /** MusicXML 4.0 numbers at most 16 levels (`number-level`); printed music goes to three (from memory). */
  'tuplet-nesting': 8,
  /** Tablature of lutes has the most in use, 14 (from memory). */
  'staff-lines': 32,
  /** In the units of the file: tenths of MusicXML; an A3 page has some 2,400 (MusicXML 4.0, `page-layout`). */
  'page-side': 20_000,
  /** Eight to a staff serve the densest scores (from memory). */
  voices: 64,
  /** Hymnals go to a dozen verses. */
  'lyrics-on-note': 50,
  /** Some two pages of words. */
  'text-length': 5_000,
  /** A layout takes time by their square. */
  'expansion-entries': 2_000,
} as const;

type DrawingLimit = keyof typeof DRAWING_LIMITS;

/**
 * Checks what a whole file asks of its drawing before anything is laid out. One walk over the elements, which stops at
 * the first limit that is passed.
 *
 * @returns the score, or `limit-exceeded`
 */
export const checkDrawingLimits = (score: Score): Result<Score> => {
  const { root, format } = score.source;
  const problem = format === 'mei' ? findMeiExcess(root, 0) : findMusicXmlExcess(root);
  return problem === null ? ok(score) : fail(problem);
};

const excess = (what: DrawingLimit, found: number): Problem | null =>
  found > DRAWING_LIMITS[what] ? { code: 'limit-exceeded', what, limit: DRAWING_LIMITS[what], found } : null;

/** The number at the start of a value that may bear a unit; 0 where there is none. */
const measureOf = (value: string | undefined): number => {
  const number = Number.parseFloat(value ?? '');
  return Number.isFinite(number) ? Math.abs(number) : 0;
};

const countNamed = (children: readonly XmlElement[], name: string): number =>
  children.reduce((count, child) => (child.name === name ? count + 1 : count), 0);

/** What is told of a score and not drawn. */
const NOT_DRAWN: ReadonlySet<string> = new Set([
  'meiHead',
  'identification',
  'work',
  'movement-title',
  'part-name',
]);

const findTextExcess = ({ text }: XmlElement): Problem | null => excess('text-length', text.trim().length);

const countWords = (text: string | undefined): number => text?.match(/\S+/gu)?.length ?? 0;

const findMeiExcess = (element: XmlElement, tuplets: number): Problem | null => {
  const { attributes, children, name } = element;
  if (NOT_DRAWN.has(name)) return null;
  const depth = name === 'tuplet' ? tuplets + 1 : tuplets;
  const side = Math.max(measureOf(attributes['page.width']), measureOf(attributes['page.height']));
  const own =
    excess('tuplet-nesting', depth) ??
    (name === 'staffDef' ? excess('staff-lines', measureOf(attributes.lines)) : null) ??
    excess('page-side', side) ??
    (name === 'staff' ? excess('voices', countNamed(children, 'layer')) : null) ??
    (name === 'note' || name === 'chord' ? excess('lyrics-on-note', countNamed(children, 'verse')) : null) ??
    (name === 'expansion' ? excess('expansion-entries', countWords(attributes.plist)) : null) ??
    findTextExcess(element);
  if (own !== null) return own;
  for (const child of children) {
    const below = findMeiExcess(child, depth);
    if (below !== null) return below;
  }
  return null;
};

/** Elements whose whole text is a number that is limited. */
const MUSICXML_NUMBERS: Readonly<Record<string, DrawingLimit>> = {
  'staff-lines': 'staff-lines',
  'page-height': 'page-side',
  'page-width': 'page-side',
};

/** Voices of one bar; the numbers of each staff may be its own. */
const countVoices = (children: readonly XmlElement[]): number => {
  const voices = new Map<string, Set<string>>();
  for (const { name, children: fields } of children) {
    if (name !== 'note') continue;
    const fieldOf = (wanted: string): string => fields.find((each) => each.name === wanted)?.text ?? '';
    const staff = fieldOf('staff');
    voices.set(staff, (voices.get(staff) ?? new Set()).add(fieldOf('voice')));
  }
  return [...voices.values()].reduce((most, { size }) => Math.max(most, size), 0);
};

const findMusicXmlExcess = (root: XmlElement): Problem | null => {
  /** Numbers of the tuplets that are open; a number that is started again opens no second one. */
  const open = new Set<string>();
  const visit = (element: XmlElement): Problem | null => {
    const { name, attributes, children, text } = element;
    if (NOT_DRAWN.has(name)) return null;
    if (name === 'part' || name === 'measure') open.clear();
    if (name === 'tuplet') {
      const number = attributes.number ?? '1';
      if (attributes.type === 'start') open.add(number);
      else open.delete(number);
    }
    const limit = MUSICXML_NUMBERS[name];
    const own =
      excess('tuplet-nesting', open.size) ??
      (limit === undefined ? null : excess(limit, measureOf(text))) ??
      (name === 'measure' ? excess('voices', countVoices(children)) : null) ??
      (name === 'note' ? excess('lyrics-on-note', countNamed(children, 'lyric')) : null) ??
      findTextExcess(element);
    if (own !== null) return own;
    for (const child of children) {
      const below = visit(child);
      if (below !== null) return below;
    }
    return null;
  };
  return visit(root);
};
