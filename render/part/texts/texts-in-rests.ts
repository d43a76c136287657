import {
  add,
  type Bar,
  childrenNamed,
  descendantsNamed,
  equals,
  type Rational,
  type Score,
  type ScoreText,
  subtract,
  toNumber,
  type XmlElement,
} from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import type { TextStyle } from '../../text/text-runs.ts';
import { lineAdvance } from '../../text/text-signs.ts';

/**
 * In a bar of rest the layout leaves no room for several tempo texts, each at its beat: they would stand over one another
 * like a staircase. A layer of spaces, as many as the words are wide, sets them side by side.
 *
 * @param texts those that are written into the bars, in order
 */
export const restWidthEdits = (score: Score, mei: LayoutMei, texts: readonly ScoreText[]): Edit[] =>
  score.bars.flatMap((bar) => {
    const own = texts.filter((text) => text.bar === bar.index && INLINE.has(text.kind));
    const moments = own.filter(({ at }, i) => i === 0 || !equals(at, own[i - 1]!.at)).map(({ at }) => at);
    const measure = mei.measureOf(bar);
    const [staff] = measure === undefined ? [] : childrenNamed(measure, 'staff');
    if (moments.length < 2 || staff === undefined || !isResting(measure!)) return [];
    const from = [bar.onset, ...moments];
    const spaces = from.map((at, i) => {
      const words = i === 0 ? [] : own.filter((text) => equals(text.at, at));
      return spacesFor(subtract(from[i + 1] ?? add(bar.onset, bar.duration), at), widthOf(words));
    });
    const written = spaces.filter((each) => each !== null).join('');
    if (spaces.includes(null)) return [];
    return [insertAt(staff.inner.end, `<layer n="${TEXT_LAYER}">${written}</layer>`)];
  });

/** The widest words that a joined rest is widened for, in spaces of a quarter note. */
const MOST_SPACES = 8;

/**
 * How many spaces of a quarter note the words over the start of a rest take: narrower, they would stand over those of the next
 * bar, and at the end of a line go back over those before.
 */
export const spacesUnderWords = (texts: readonly ScoreText[], { index, onset }: Bar): number => {
  const over = texts.filter(({ at, bar, kind }) => bar === index && INLINE.has(kind) && equals(at, onset));
  if (over.length === 0) return 0;
  // One more keeps them from the figure of the rest, which stands in the middle.
  return Math.min(MOST_SPACES, 1 + Math.ceil(widthOf(over) / QUARTER_VU));
};

const INLINE: ReadonlySet<ScoreText['kind']> = new Set(['tempo', 'gradual', 'order', 'delay']);

/** No staff has so many voices, and other layers of spaces have other numbers. */
const TEXT_LAYER = 8;

const isResting = (measure: XmlElement): boolean => descendantsNamed(measure, 'note', 'chord').length === 0;

/** The em of words over a staff, and what a quarter note's space takes, in vu, measured on pages of the layout. */
const EM_VU = 4.5;
const QUARTER_VU = 6;
/** How the width of a space follows from its length: the layout's own rule. */
const WIDTH_BY_LENGTH = 0.6;
const BETWEEN_VU = 1.6;

const STYLE: TextStyle = {
  sizeUnits: EM_VU,
  face: 'bold',
  music: false,
  letterSpacing: 0,
  anchor: 'start',
  fill: null,
};

const widthOf = (texts: readonly ScoreText[]): number =>
  texts.reduce((sum, { text }) => sum + lineAdvance(text, STYLE) + BETWEEN_VU, 0);

const LENGTHS = [4, 8, 16, 32, 64, 128] as const;

/** Spaces that last so long (in quarter notes) together, as long as are wide enough; null for a length without note values. */
const spacesFor = (length: Rational, widthVu: number): string | null => {
  const quarters = toNumber(length);
  if (quarters === 0) return '';
  const fitting = LENGTHS.filter((dur) => Number.isInteger((quarters * dur) / 4));
  const wide = fitting.find(
    (dur) => ((quarters * dur) / 4) * QUARTER_VU * (4 / dur) ** WIDTH_BY_LENGTH >= widthVu,
  );
  const dur = wide ?? fitting.at(-1);
  return dur === undefined || quarters < 0 ? null : `<space dur="${dur}"/>`.repeat((quarters * dur) / 4);
};
