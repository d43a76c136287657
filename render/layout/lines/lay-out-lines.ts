import type { MarkingPlacement } from '../../engraving-options.ts';
import { svgUnitsPerVu } from '../breaks/page-layout.ts';
import type { LayoutDocument } from '../document/layout-document.ts';
import type { Drawer } from '../drawer/drawer.ts';
import type { LayoutRequest } from '../layout-request.ts';
import { type ReservedSpace, withFences } from '../spaces/reserve-spaces.ts';
import { growBox, keptBox, type Pads, padOf, padsAgainst } from '../spaces/space-padding.ts';
import type { Stepwise } from '../stepwise.ts';
import { openLines } from './draw-lines.ts';
import type { LaidOutSystem, SystemReading } from './laid-out-system.ts';
import { expectLines, isLineKnown, readLines } from './read-lines.ts';

/** Lines as they were laid out. */
export interface Lines {
  readonly systems: readonly LaidOutSystem[];
  /** The bars at whose start a setting is printed in any case: the rooms are those for them. */
  readonly reminders: readonly number[];
  /** The lines could not be laid out one by one. */
  readonly isWhole: boolean;
}

/** What is laid out. */
export interface LinePlan {
  /** Bars (indices) that begin a line, without the first. */
  readonly starts: readonly number[];
  /** Those of them that may begin a page: the lines up to each are laid out together. */
  readonly pages: readonly number[];
  /** Bars with a setting in any case. */
  readonly reminders: readonly number[];
  /** How many lines are wanted, from the first; all without it. */
  readonly wanted?: number;
}

/** Lines in which something touches for want of width, or of space between the staves, get more of it so often. */
const MORE_PASSES = 2;
/** How much farther apart the staves go in lines whose own words and hairpins find no place, in vu. */
const MORE_APART_VU = [5, 10] as const;

/**
 * Lays each line out by itself. Almost always what touches something can be moved clear of everything; the lines where that is
 * not so are laid out again with more room, and the better of the two is kept.
 *
 * @yields the lines from the first to the end of a page, as they are at first
 * @returns null where the layout cannot load the document, or draws nothing
 */
export function* layOutLines(
  request: LayoutRequest,
  document: LayoutDocument,
  drawer: Drawer,
  plan: LinePlan,
): Stepwise<readonly LaidOutSystem[], Lines | null> {
  const open = opener(request, document, drawer, plan);
  const { areKnown, expect, isWhole, run } = open(new Map(), 0);
  const groups = isWhole ? [] : linesByPages(plan, request.early);
  if (drawer.engraver.isHelped) expect(groups);
  let systems: LaidOutSystem[] = [];
  for (const wanted of isWhole ? [undefined] : joinKnown(groups, areKnown)) {
    const more = run(wanted);
    if (more === null) return null;
    systems = [...systems, ...more];
    yield systems;
  }
  if (systems.length === 0) return null;
  const roomy = withMoreRoom(request, open, systems);
  return {
    systems: withStavesApart(open, roomy.systems, roomy.pads),
    reminders: plan.reminders,
    isWhole,
  };
}

/** @param apartVu how much farther apart the staves stand than usual */
type OpenLines = (pads: Pads, apartVu: number) => OpenedLines;

const opener = (
  { engraving, layout, score, signIds, spacesFor }: LayoutRequest,
  document: LayoutDocument,
  drawer: Drawer,
  { reminders, starts }: LinePlan,
): OpenLines => {
  const rooms = spacesFor(reminders);
  const names = nameSpaces(rooms);
  const byName = new Map(rooms.map((room, i) => [names[i]!, room]));
  const indexOf = new Map(score.bars.map((bar) => [bar.id, bar.index]));
  return (pads, apartVu) => {
    const padded = rooms.map((room, i) => ({
      ...room,
      id: names[i]!,
      box: growBox(keptBox(room), padOf(pads, room)),
    }));
    const lines = openLines(drawer.engraver, document.write(withFences(padded), starts), layout, apartVu);
    const crossed = crossing(engraving.placement);
    const reading: SystemReading = { indexOf, rooms: byName, pads, layout, signIds, ...crossed };
    return {
      isWhole: lines.count === null,
      expect: (groups) => expectLines(drawer, lines, reading, groups),
      areKnown: (wanted) => wanted.every((line) => isLineKnown(drawer, lines, reading, line)),
      run: (wanted) => readLines(drawer, lines, reading, wanted),
    };
  };
};

/** Lines in which a drawing of ours touches something get more room for it. */
const withMoreRoom = (
  { engraving, layout }: LayoutRequest,
  open: OpenLines,
  asLaid: readonly LaidOutSystem[],
): { readonly systems: readonly LaidOutSystem[]; readonly pads: Pads } => {
  let systems = asLaid;
  let tried = asLaid;
  let pads: Pads = new Map();
  for (let i = 0; i < MORE_PASSES; i += 1) {
    const touching = indicesWhere(systems, ({ overlaps }) => overlaps.length > 0);
    if (touching.length === 0) break;
    pads = morePads(pads, tried, engraving.placement, svgUnitsPerVu(layout));
    const again = open(pads, 0).run(touching);
    if (again === null) break;
    tried = systems.map((system, index) => again[touching.indexOf(index)] ?? system);
    systems = systems.map((system, index) =>
      tried[index]!.overlaps.length < system.overlaps.length ? tried[index]! : system,
    );
  }
  return { systems, pads };
};

/** Lines in which words, figures or hairpins of the part lie on something get more space between the staves. */
const withStavesApart = (
  open: OpenLines,
  asLaid: readonly LaidOutSystem[],
  pads: Pads,
): readonly LaidOutSystem[] => {
  let systems = asLaid;
  for (const apartVu of MORE_APART_VU) {
    const crowded = indicesWhere(systems, (system) => system.crowded > 0);
    if (crowded.length === 0) break;
    const again = open(pads, apartVu).run(crowded);
    if (again === null) break;
    systems = systems.map((system, index) => {
      const other = again[crowded.indexOf(index)];
      return other !== undefined && isLessCrowded(other, system) ? other : system;
    });
  }
  return systems;
};

const isLessCrowded = (system: LaidOutSystem, than: LaidOutSystem): boolean =>
  system.crowded < than.crowded && system.overlaps.length <= than.overlaps.length;

const indicesWhere = (
  systems: readonly LaidOutSystem[],
  holds: (system: LaidOutSystem) => boolean,
): number[] => systems.flatMap((system, index) => (holds(system) ? [index] : []));

/** The lines of a document with its rooms, to be laid out and read. */
interface OpenedLines {
  readonly isWhole: boolean;
  /** Whether lines were laid out before. */
  readonly areKnown: (lines: readonly number[]) => boolean;
  /** Tells which will be wanted, and which together. */
  readonly expect: (groups: readonly (readonly number[])[]) => void;
  /** @param wanted indices; all without it */
  readonly run: (wanted?: readonly number[]) => LaidOutSystem[] | null;
}

/** How many pages are laid out together while somebody waits: each of the first few by itself, since each load has its price. */
const PAGES_AT_FIRST = [1, 1, 2];
const PAGES_LATER = 3;

/** Indices of the lines that are laid out together. */
const linesByPages = (
  { pages, starts, wanted = starts.length + 1 }: LinePlan,
  isAwaited: boolean,
): number[][] => {
  const begins = new Set(pages);
  const groups: number[][] = [[]];
  let page = 0;
  for (let line = 0; line < wanted; line += 1) {
    if (line > 0 && begins.has(starts[line - 1]!)) page += 1;
    if (isAwaited && page >= (PAGES_AT_FIRST[groups.length - 1] ?? PAGES_LATER)) {
      groups.push([]);
      page = 0;
    }
    groups.at(-1)!.push(line);
  }
  return groups;
};

/** Groups in turn, those that are known together: nobody has to wait for them. */
function* joinKnown(
  groups: readonly number[][],
  areKnown: (lines: readonly number[]) => boolean,
): Generator<readonly number[], void, undefined> {
  let known: number[] = [];
  for (const group of groups) {
    if (areKnown(group)) known.push(...group);
    else {
      if (known.length > 0) yield known;
      known = [];
      yield group;
    }
  }
  if (known.length > 0) yield known;
}

/** Names for spaces by their bars: another plan leaves those of other bars as they were. */
const nameSpaces = (rooms: readonly ReservedSpace[]): string[] => {
  const counts = new Map<number, number>();
  return rooms.map(({ bar }) => {
    const count = counts.get(bar) ?? 0;
    counts.set(bar, count + 1);
    return `space-${bar}-${count}`;
  });
};

const morePads = (
  pads: Pads,
  systems: readonly LaidOutSystem[],
  placement: MarkingPlacement,
  unitsPerVu: number,
): Pads =>
  padsAgainst(
    pads,
    systems.flatMap(({ overlaps }) => overlaps),
    systems.map(({ placed }) => placed.map(({ room }) => room)),
    placement,
    unitsPerVu,
  );

/** Bar lines run through the space between the staves. */
const PASSABLE_BETWEEN: ReadonlySet<string> = new Set(['barLine']);
const NOTHING_PASSABLE: ReadonlySet<string> = new Set();

const crossing = (placement: MarkingPlacement): Pick<SystemReading, 'placement' | 'passable'> => ({
  placement,
  passable: placement === 'between' ? PASSABLE_BETWEEN : NOTHING_PASSABLE,
});
