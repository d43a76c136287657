import {
  type Bar,
  beatAt,
  compare,
  equals,
  escapeText,
  type Rational,
  type Score,
  type ScoreText,
  toNumber,
  wordsOf,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { styledFigure } from './metronome-figures.ts';
import { restWidthEdits } from './texts-in-rests.ts';
import { LINE_GAP } from './title-lines.ts';

/**
 * The text that concerns every player, shown above the harp: its own part, which alone is laid out, often lacks it. What
 * the bar already shows is not doubled.
 */
export const scoreTextEdits = (score: Score, mei: LayoutMei): Edit[] => {
  const disordered = new Set<XmlElement>();
  const parted = new Set(score.texts.filter((text) => isParted(text, score.texts)));
  const missing = score.texts.filter((text) => {
    const measure = mei.measureOf(score.bars[text.bar]!);
    if (measure === undefined) return false;
    const own = ownTempi(measure, text, mei).filter(
      (event) => parted.has(text) || EMPTY_BRACKETS.test(wordsOf(event, mei.text)),
    );
    for (const each of own) disordered.add(each);
    return own.length > 0 || !isShown(measure, text, mei);
  });
  return [
    ...[...disordered].map(({ span }) => cut(span)),
    ...restWidthEdits(score, mei, missing),
    ...stackTexts(missing).map((block) => {
      const bar = score.bars[block.bar]!;
      return insertAt(mei.measureOf(bar)!.inner.end, blockElement(block, bar, mei.staves[0]!));
    }),
  ];
};

/** Brackets round a metronome mark come out of the conversion empty, in front of it. */
const EMPTY_BRACKETS = /\[\s*\]|\(\s*\)/;

/**
 * Whether the layout would set texts of the harp's own part over one another, or not as what they are: the words of a tempo
 * and its metronome mark, for which one line of both takes their place, and the title of a movement with its tempo.
 */
const isParted = (text: ScoreText, texts: readonly ScoreText[]): boolean =>
  text.kind === 'movement' ||
  (text.kind === 'tempo' &&
    texts.some(
      (other) =>
        equals(other.at, text.at) &&
        (other.kind === 'movement' || (other.kind === 'tempo' && isFigure(other) !== isFigure(text))),
    ));

/** The harp's own tempo marks that say the same as a text of the score. */
const ownTempi = (measure: XmlElement, { text, kind }: ScoreText, mei: LayoutMei): readonly XmlElement[] =>
  measure.children.filter(
    (event) =>
      EVENTS[kind].has(event.name) &&
      TEMPI.has(event.name) &&
      !mei.isDropped(event) &&
      plain(wordsOf(event, mei.text)) === plain(text),
  );

const TEMPI: ReadonlySet<string> = new Set(['dir', 'tempo']);

/** Letters and digits alone. */
const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');

const EVENTS: Readonly<Record<ScoreText['kind'], ReadonlySet<string>>> = {
  rehearsal: new Set(['reh']),
  segno: new Set(['repeatMark']),
  coda: new Set(['repeatMark']),
  movement: new Set(['dir', 'tempo']),
  tempo: new Set(['dir', 'tempo']),
  gradual: new Set(['dir', 'tempo']),
  order: new Set(['dir', 'tempo', 'repeatMark']),
  delay: new Set(['dir']),
};

const isShown = (measure: XmlElement, { text, kind }: ScoreText, mei: LayoutMei): boolean =>
  measure.children
    .filter((event) => EVENTS[kind].has(event.name) && !mei.isDropped(event))
    .some((event) => {
      if (kind === 'segno' || kind === 'coda') return event.attributes.func === kind;
      const shown = plain(wordsOf(event, mei.text));
      return shown !== '' && saysSame(shown, plain(text), kind);
    });

/** As many letters as tell “rit.” from “rall.”, and make “riten.” the same as “ritard.”. */
const FAMILY = 3;

/** Gradual words that are written at different lengths. */
const SHORTENED = /^(?:rit|ral|acc|all|str|sle|aff)/u;

const saysSame = (shown: string, wanted: string, kind: ScoreText['kind']): boolean => {
  if (kind === 'rehearsal') return shown === wanted;
  const isPart = wanted.length >= FAMILY && shown.includes(wanted);
  const begins = shown.length >= FAMILY && wanted.startsWith(shown);
  return (
    isPart ||
    begins ||
    shown === wanted ||
    (SHORTENED.test(wanted) && kind === 'gradual' && shown.startsWith(wanted.slice(0, FAMILY)))
  );
};

/** What stands at one moment as one block of lines. */
interface TextBlock {
  readonly bar: number;
  readonly at: Rational;
  /** Texts side by side in a line, the lines from the top; a sign or a boxed mark has a block of its own. */
  readonly lines: readonly (readonly ScoreText[])[];
}

const INLINE: ReadonlySet<ScoreText['kind']> = new Set(['movement', 'tempo', 'gradual', 'order', 'delay']);

const isFigure = ({ text }: ScoreText): boolean => !/\p{L}/u.test(text);

/** A tempo stands under a movement's title, a metronome mark behind the words of its moment. */
const stackTexts = (texts: readonly ScoreText[]): readonly TextBlock[] => {
  const blocks: TextBlock[] = [];
  for (const text of texts.toSorted(wordsFirst)) {
    const host = INLINE.has(text.kind)
      ? blocks.findLastIndex((each) => equals(each.at, text.at) && INLINE.has(kindOf(each)))
      : -1;
    const lines = host < 0 ? null : linesWith(blocks[host]!.lines, text);
    if (lines === null) blocks.push({ bar: text.bar, at: text.at, lines: [[text]] });
    else blocks[host] = { ...blocks[host]!, lines };
  }
  return blocks;
};

/** Where a file has the metronome mark before the words of its moment. */
const wordsFirst = (a: ScoreText, b: ScoreText): number =>
  compare(a.at, b.at) || (a.kind === b.kind ? Number(isFigure(a)) - Number(isFigure(b)) : 0);

const kindOf = ({ lines }: TextBlock): ScoreText['kind'] => lines[0]![0]!.kind;

/** The lines of a block with one more text; null where it does not belong to them. */
const linesWith = (lines: TextBlock['lines'], text: ScoreText): TextBlock['lines'] | null => {
  const last = lines.at(-1)!;
  if (last[0]!.kind !== 'movement' && isFigure(text)) return [...lines.slice(0, -1), [...last, text]];
  return lines[0]![0]!.kind === 'movement' ? [...lines, [text]] : null;
};

const blockElement = ({ at, lines }: TextBlock, bar: Bar, staff: string): string => {
  const place = `staff="${staff}" tstamp="${toNumber(beatAt(bar, at))}" place="above"`;
  const { kind, text } = lines[0]![0]!;
  if (kind === 'rehearsal')
    return `<reh ${place}><rend rend="box" fontweight="bold">${escapeText(text)}</rend></reh>`;
  if (kind === 'segno' || kind === 'coda') return `<repeatMark ${place} func="${kind}"/>`;
  const written = lines.map((line) => line.map((each) => styled(each.text, styleOf(each))).join('\u00a0'));
  return `<tempo ${place}>${written.join(LINE_GAP)}</tempo>`;
};

const styleOf = ({ kind, bold }: ScoreText): string => {
  if (kind === 'movement') return 'fontsize="x-large" fontweight="bold" fontstyle="normal"';
  return `fontweight="${bold ? 'bold' : 'normal'}" fontstyle="${kind === 'gradual' && !bold ? 'italic' : 'normal'}"`;
};

/** Words in their style, metronome marks in plain type. */
const styled = (text: string, style: string): string =>
  styledFigure(text, style) ?? `<rend ${style}>${escapeText(text)}</rend>`;
