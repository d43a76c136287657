import { childrenNamed, firstChild, type Score, type XmlElement } from '../../../engine/index.ts';
import { type Edit, editSlices, insertAt } from '../../edit.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import type { RestRun } from '../../markings/silences.ts';
import { endTagEdits, missingStaffEdits } from '../../part/bars/missing-staves.ts';
import { multiBarRests } from '../../part/bars/multi-bar-rests.ts';
import { barNumberEdits } from '../../part/prepare-mei.ts';
import { lineBreakEdits } from '../breaks/breaks.ts';
import type { Drawer } from '../drawer/drawer.ts';
import { placeholderEdits, type ReservedSpace } from '../spaces/reserve-spaces.ts';
import type { LayoutMei } from './layout-mei.ts';
import { type PartRequest, type PreparedPart, preparePart, type ToldOfPart } from './prepared-part.ts';

/** The harp's part as a document for the layout, from which each pass writes its own text. */
export interface LayoutDocument extends ToldOfPart {
  /** What it is made of. */
  readonly part: PreparedPart;
  /** Bars (indices) that follow a final bar line. */
  readonly movements: ReadonlySet<number>;
  /**
   * The document without rooms and lines.
   *
   * @param begun bars that no joined rest may hide
   * @returns how to write it, and what of the part makes it what it is
   */
  readonly unbroken: (begun: readonly number[]) => { readonly key: string; readonly write: () => string };
  /**
   * @param lines bars (indices) with which lines begin, without the first
   */
  readonly write: (rooms: readonly ReservedSpace[], lines: readonly number[]) => string;
}

/** What the document is made of. */
export interface DocumentRequest extends PartRequest {
  readonly engraving: EngravingOptions;
  /** What is to be set as notes of the layout's own document. */
  readonly signEdits: (mei: LayoutMei) => readonly Edit[];
}

/** @returns null where the layout cannot load the score */
export const prepareDocument = (request: DocumentRequest, drawer: Drawer): LayoutDocument | null => {
  const part = preparePart(request, drawer);
  if (part === null) return null;
  const { score, engraving } = request;
  const { edits, mei } = part;
  const signs = request.signEdits(mei);
  const numbering = { every: engraving.barNumbers, numerals: engraving.edition === 'study' };
  const lasting = [...edits.before, ...signs, ...edits.after];
  const writeWith = (
    rooms: readonly ReservedSpace[],
    lines: readonly number[],
    begun: readonly number[],
  ): string => {
    const joined = joinRests(part, request, new Set(begun));
    const all = [
      ...lasting,
      ...joined.edits,
      ...placeholderEdits(score, mei, rooms, engraving.placement, joined.homes),
      ...endTagEdits(joined.shown.map(({ measure }) => measure)),
      ...barNumberEdits(score, mei, numbering, new Set(lines)),
      ...lineBreakEdits(score, mei, lines),
      ...lines.flatMap((bar) => part.cues.names.get(bar) ?? []),
    ];
    return `<?xml version="1.0" encoding="UTF-8"?>\n${editSlices(mei.text, all)(mei.root.span)}`;
  };
  return {
    ...part.told,
    part,
    movements: part.movements,
    unbroken: (begun) => {
      const { multiBarRests: joins, restRanges } = engraving;
      const parted = joins ? begun.filter((bar) => part.rests.some((run) => isWithin(run, bar))) : null;
      const key = JSON.stringify([numbering, restRanges, signs, parted]);
      return { key, write: () => writeWith([], [], begun) };
    },
    write: (rooms, lines) => writeWith(rooms, lines, [...rooms.map(({ bar }) => bar), ...lines]),
  };
};

const isWithin = ({ first, last }: RestRun, bar: number): boolean => first <= bar && bar <= last;

interface JoinedRests {
  readonly edits: readonly Edit[];
  /** For a bar inside a joined rest, the index of the bar that stands for it. */
  readonly homes: ReadonlyMap<number, number>;
  /** The bars that the page shows. */
  readonly shown: readonly BarInMei[];
}

interface BarInMei {
  readonly bar: number;
  readonly measure: XmlElement;
}

/** Joins bars of rest, and gives every other bar all of its staves. @param begun bars that no joined rest may hide */
const joinRests = (
  { cues, mei, rests }: PreparedPart,
  { engraving, score }: DocumentRequest,
  begun: ReadonlySet<number>,
): JoinedRests => {
  const { edits, homes } = multiBarRests(score, mei, engraving.multiBarRests ? rests : [], {
    begun: new Set([...begun, ...cues.bars]),
    prepared: cues.clefs,
    ranged: engraving.restRanges,
  });
  const single = measuresOf(mei, score, (bar) => !homes.has(bar));
  const layerOf = (bar: number, n: string): string =>
    cues.layers.get(`${bar} ${n}`) ?? `<layer n="1"><mRest/>${cues.clefs.get(`${bar} ${n}`) ?? ''}</layer>`;
  return {
    edits: [
      ...edits,
      ...single.flatMap(({ bar, measure }) => missingStaffEdits(measure, mei.staves, (n) => layerOf(bar, n))),
      ...single.flatMap(({ bar, measure }) =>
        mei.staves.flatMap((n) => clefAtEnd(measure, n, cues.clefs.get(`${bar} ${n}`))),
      ),
    ],
    homes,
    shown: measuresOf(mei, score, (bar) => (homes.get(bar) ?? bar) === bar),
  };
};

/** A clef after what the first layer of a staff holds. */
const clefAtEnd = (measure: XmlElement, n: string, clef: string | undefined): Edit[] => {
  const staff = childrenNamed(measure, 'staff').find(({ attributes }) => attributes.n === n);
  const layer = staff === undefined ? undefined : firstChild(staff, 'layer');
  if (clef === undefined || layer === undefined) return [];
  return layer.inner.end < layer.span.end ? [insertAt(layer.inner.end, clef)] : [];
};

const measuresOf = (mei: LayoutMei, score: Score, isWanted: (bar: number) => boolean): readonly BarInMei[] =>
  score.bars
    .filter(({ index }) => isWanted(index))
    .flatMap((bar) => {
      const measure = mei.measureOf(bar);
      return measure === undefined ? [] : [{ bar: bar.index, measure }];
    });
