import {
  type Bar,
  beatAt,
  descendantsNamed,
  fail,
  isOwnElement,
  LETTERS,
  type Note,
  ok,
  type Position,
  type Rest,
  type Result,
  rationalKey,
  type Score,
  type Setting,
  toNumber,
  type XmlElement,
} from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import type { PrintedMarking } from '../../markings/printed-markings.ts';
import { escapeForEncoding, insertAfter, insertBefore, isSelfClosing, prefixOf } from './insertion.ts';
import { type MarkContent, type MarkStyle, markContentOf, sideOf } from './mark-content.ts';

/**
 * Insertions that write markings into MEI: behind the staves of their measure, a full setting as `harpPedal` with all
 * seven letters (MEI 5.1: one left out is natural), a change as `dir`, the right foot's line above the left's; what is
 * told of levers as `dir`. What is written is alike in MEI 3, 4 and 5.
 *
 * @returns `unsupported` where a measure is empty, so that only a change of its own tags would make room
 */
export const meiMarkEdits = (
  score: Score,
  markings: readonly PrintedMarking[],
  { side, settings }: MarkStyle,
  idOf: (markingId: string) => string,
): Result<Edit[]> => {
  const { text, root, encoding } = score.source;
  const measures = new Map(descendantsNamed(root, 'measure').map((each) => [each.span.start, each]));
  const momentOf = findMoments(score);
  const edits: Edit[] = [];
  for (const marking of markings) {
    const bar = score.bars[marking.bar]!;
    const measure = measures.get(bar.span.start)!;
    if (isSelfClosing(text, measure)) return fail(emptyMeasure(bar));
    const own = sideOf(marking, side);
    const staff = score.harp.meiStaves.at(own.staff === 'highest' ? 0 : -1)!;
    const place = `staff="${staff}" place="${own.place}" ${momentOf(marking, bar)}`;
    const last = measure.children.findLast((each) => each.name === 'staff') ?? othersIn(measure).at(-1);
    for (const { suffix, write } of markElements(markContentOf(marking, settings), prefixOf(text, measure))) {
      const element = write(`xml:id="${idOf(marking.id + suffix)}" ${place}`);
      const xml = escapeForEncoding(encoding, element);
      edits.push(
        last === undefined ? insertBefore(text, measure.inner.end, xml) : insertAfter(text, last, xml),
      );
    }
  }
  return ok(edits);
};

const othersIn = (measure: XmlElement): readonly XmlElement[] =>
  measure.children.filter((each) => !isOwnElement(each));

const emptyMeasure = (bar: Bar) => ({
  code: 'unsupported' as const,
  feature: `A marking in bar ${bar.number || bar.index + 1}, whose measure element is empty,`,
  advice: 'Put staves into the measure, or ask for SVG or PDF.',
});

interface WrittenMark {
  /** Behind the marking's id. */
  readonly suffix: string;
  readonly write: (attributes: string) => string;
}

const markElements = (content: MarkContent, prefix: string): readonly WrittenMark[] => {
  const words = (lines: readonly string[]) => (attributes: string) =>
    `<${prefix}dir ${attributes}><${prefix}rend fontstyle="normal" fontweight="bold">${lines.join(`<${prefix}lb/>`)}</${prefix}rend></${prefix}dir>`;
  if (content.kind === 'words') return [{ suffix: '', write: words(content.lines) }];
  const { setting, words: told, time } = content;
  const label = time === null ? '' : ` label="${time}"`;
  return [
    {
      suffix: '',
      write: (attributes) => `<${prefix}harpPedal ${attributes} ${pedalAttributes(setting)}${label}/>`,
    },
    ...(told === null ? [] : [{ suffix: '-words', write: words([told]) }]),
  ];
};

const MEI_POSITION: Readonly<Record<Position, string>> = { [-1]: 'f', 0: 'n', 1: 's' };

const pedalAttributes = (setting: Setting): string =>
  LETTERS.map((letter) => `${letter.toLowerCase()}="${MEI_POSITION[setting[letter]]}"`).join(' ');

/**
 * How a marking tells its moment: by the note or rest that begins there where the file gives it an id, the lowest
 * staff first, else by its beat.
 */
const findMoments = (score: Score): ((marking: PrintedMarking, bar: Bar) => string) => {
  const ids = new Set<string>();
  const visit = (element: XmlElement): void => {
    const id = element.attributes['xml:id'];
    if (id !== undefined) ids.add(id);
    for (const each of element.children) visit(each);
  };
  visit(score.source.root);
  const events = new Map<string, Note | Rest>();
  for (const event of [...score.notes, ...score.rests]) {
    if (!ids.has(event.id) || ('grace' in event && event.grace !== null)) continue;
    const key = `${event.bar} ${rationalKey(event.onset)}`;
    const known = events.get(key);
    if (known === undefined || event.staff > known.staff) events.set(key, event);
  }
  return (marking, bar) => {
    if (marking.graceNote !== null && ids.has(marking.graceNote)) return `startid="#${marking.graceNote}"`;
    const event = events.get(`${bar.index} ${rationalKey(marking.at)}`);
    return event === undefined ? `tstamp="${beatOf(marking, bar)}"` : `startid="#${event.id}"`;
  };
};

/** Beats of the meter's unit from 1 at the bar's start (MEI 5.1, data.BEAT), to a millionth. */
const beatOf = (marking: PrintedMarking, bar: Bar): number =>
  Math.round(toNumber(beatAt(bar, marking.at)) * 1e6) / 1e6;
