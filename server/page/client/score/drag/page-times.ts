import { bisector } from 'd3-array';
import { toNumber } from '../../../../../engine/index.ts';
import type { BarPlace, ReadPart } from '../../planner/planned-part.ts';

/** A score time and where it stands, in px from the left of the page. */
interface Anchor {
  readonly quarters: number;
  readonly x: number;
}

/** A line of music on a page, in px of the page; score times from left to right. */
export interface PageLine {
  readonly top: number;
  readonly bottom: number;
  readonly anchors: readonly Anchor[];
}

/** What is known of the music on the page. */
export interface PageMusic {
  readonly bars: readonly BarPlace[];
  /** The score time of a note, in quarters; null for a note of another part. */
  readonly onsetOf: (note: string) => number | null;
}

/** What pages need to know of a part. */
export const musicOf = ({ bars, notes }: Pick<ReadPart, 'bars' | 'notes'>): PageMusic => ({
  bars,
  onsetOf: (id) => {
    const note = notes.get(id);
    return note === undefined ? null : toNumber(note.onset);
  },
});

/** Each later anchor stands further to the right. */
const inOrder = (anchors: readonly Anchor[]): readonly Anchor[] => {
  const kept: Anchor[] = [];
  for (const each of anchors.toSorted((a, b) => a.quarters - b.quarters || b.x - a.x)) {
    const last = kept.at(-1);
    if (last === undefined || (each.quarters > last.quarters && each.x > last.x)) kept.push(each);
  }
  return kept;
};

/** From bar line to bar line, as its staves are drawn: slurs and lines that go on into the next bar do not count. */
const staffBoxOf = (measure: Element): DOMRect =>
  (measure.querySelector('g.staff > path') ?? measure).getBoundingClientRect();

const anchorsOf = (measure: Element, bar: BarPlace, { onsetOf }: PageMusic, left: number): Anchor[] => {
  const notes = [...measure.querySelectorAll('g.note')].flatMap((note): Anchor[] => {
    const quarters = onsetOf(note.id);
    const head = note.querySelector('.notehead') ?? note;
    return quarters === null ? [] : [{ quarters, x: head.getBoundingClientRect().left - left }];
  });
  const box = staffBoxOf(measure);
  const startsWithNote = notes.some(({ quarters }) => quarters <= bar.onsetQuarters);
  const end = { quarters: bar.onsetQuarters + bar.durationQuarters, x: box.right - left };
  return [...(startsWithNote ? [] : [{ quarters: bar.onsetQuarters, x: box.left - left }]), ...notes, end];
};

/** Reads off a drawn page where its score times stand. */
export const linesOf = (root: ShadowRoot, music: PageMusic): readonly PageLine[] => {
  const page = root.host.getBoundingClientRect();
  const barOf = new Map(music.bars.map((bar) => [bar.id, bar]));
  return [...root.querySelectorAll('g.system')].flatMap((system): PageLine[] => {
    const measures = [...system.querySelectorAll('g.measure')].filter(({ id }) => barOf.has(id));
    if (measures.length === 0) return [];
    const boxes = measures.map((measure) => measure.getBoundingClientRect());
    return [
      {
        top: Math.min(...boxes.map(({ top }) => top)) - page.top,
        bottom: Math.max(...boxes.map(({ bottom }) => bottom)) - page.top,
        anchors: inOrder(
          measures.flatMap((measure) => anchorsOf(measure, barOf.get(measure.id)!, music, page.left)),
        ),
      },
    ];
  });
};

const between = (from: Anchor, to: Anchor, share: number, of: keyof Anchor): number =>
  from[of] + share * (to[of] - from[of]);

/** Between two anchors in proportion; beyond the ends of a line its ends. */
const interpolate = (
  anchors: readonly Anchor[],
  value: number,
  by: keyof Anchor,
  of: keyof Anchor,
): number => {
  const next = bisector((anchor: Anchor) => anchor[by]).right(anchors, value);
  const [from, to] = [anchors[next - 1], anchors[next]];
  if (from === undefined || to === undefined) return (from ?? to)![of];
  return between(from, to, (value - from[by]) / (to[by] - from[by]), of);
};

/** The score time at a place of the page; null where no music stands on it. */
export const quartersAtPoint = (lines: readonly PageLine[], x: number, y: number): number | null => {
  const distance = ({ top, bottom }: PageLine): number => Math.max(top - y, y - bottom, 0);
  const [nearest] = lines.toSorted((a, b) => distance(a) - distance(b));
  return nearest === undefined ? null : interpolate(nearest.anchors, x, 'x', 'quarters');
};

/** A stretch of score time on the page: a rectangle for each line that it crosses. */
export const stretchOnPage = (
  lines: readonly PageLine[],
  from: number,
  until: number,
): readonly { readonly line: PageLine; readonly left: number; readonly right: number }[] =>
  lines.flatMap((line) => {
    const [first, last] = [line.anchors[0], line.anchors.at(-1)];
    if (first === undefined || last === undefined) return [];
    if (until < first.quarters || from >= last.quarters) return [];
    return [
      {
        line,
        left: interpolate(line.anchors, from, 'quarters', 'x'),
        right: interpolate(line.anchors, until, 'quarters', 'x'),
      },
    ];
  });
