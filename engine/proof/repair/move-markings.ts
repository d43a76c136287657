import { POSITIONS, type Position } from '../../harp/setting.ts';
import { equals } from '../../music/rational.ts';
import { type LetterEdit, REPAIR_PRICES } from '../letter/letter-edits.ts';
import type { Statement } from '../letter/letter-track.ts';
import type { FixPlace } from '../model.ts';
import { type Granted, type JointEdit, type PartDraft, takeEdits, totalOf, tryGiven } from './part-draft.ts';
import type { Places } from './place-edits.ts';

/** Bars away from its place that a marking may be meant for: a full setting is tried at fewer, as each concerns all pedals. */
const MOST_BARS = { setting: 2, words: 4 };

/**
 * Looks for markings that are right but in the wrong place, or too many: where several names of one would have to be
 * edited, it is tried elsewhere as a whole, and without it.
 */
export const findMovedMarkings = (draft: PartDraft, places: Places): PartDraft => {
  let moved = draft;
  for (const [marking, edits] of editsByMarking(draft)) {
    if (edits.length > 1) moved = moveMarking(moved, marking, edits, places, totalOf(moved)) ?? moved;
  }
  return moved;
};

/** Drafts with one of the full settings elsewhere: that may come to less when other edits are joined. */
export const moveEachSetting = (draft: PartDraft, places: Places): readonly PartDraft[] =>
  [...editsByMarking(draft)].flatMap(([marking, edits]) => {
    if (!edits[0]!.statement.inSetting) return [];
    const moved = moveMarking(draft, marking, edits, places, totalOf(draft) + MOST_WORSE);
    return moved === null ? [] : [moved];
  });

const MOST_WORSE = 3 * REPAIR_PRICES.edit;

/** A draft with a marking at its best place, or nowhere; null where that comes to no less than `most`. */
const moveMarking = (
  draft: PartDraft,
  marking: number,
  edits: readonly StatementEdit[],
  places: Places,
  most: number,
): PartDraft | null => {
  const entries = entriesOf(draft, marking);
  let best: PartDraft | null = null;
  let least = most;
  for (const place of placesFor(edits, places)) {
    const price = REPAIR_PRICES.edit + (place === null ? REPAIR_PRICES.remove : REPAIR_PRICES.move);
    const tried = tryElsewhere(draft, marking, entries, place, least - price);
    if (tried === null) continue;
    best = tried.draft;
    least = tried.cost + price;
  }
  return best;
};

type StatementEdit = Exclude<LetterEdit, { readonly kind: 'add' }>;

const editsByMarking = ({ repairs }: PartDraft): ReadonlyMap<number, readonly StatementEdit[]> => {
  const found = new Map<number, StatementEdit[]>();
  for (const edit of [...repairs.values()].flatMap(({ edits }) => edits)) {
    if (edit.kind === 'add') continue;
    const { marking } = edit.statement;
    found.set(marking, [...(found.get(marking) ?? []), edit]);
  }
  return found;
};

/** Where the marking is tried: nowhere, where its names are wanted, and about where it stands. */
const placesFor = (edits: readonly StatementEdit[], places: Places): readonly (FixPlace | null)[] => {
  const { at, bar, inSetting } = edits[0]!.statement;
  const wanted = edits.flatMap((edit) =>
    edit.kind === 'move'
      ? places.within(edit.statement.letter, edit.statement.position, edit.window).slice(0, MOST_WANTED)
      : [],
  );
  const all = [...wanted, ...places.about(at, bar, inSetting ? MOST_BARS.setting : MOST_BARS.words)];
  return [null, ...all.filter((place, i) => all.findIndex((other) => equals(other.at, place.at)) === i)];
};

const MOST_WANTED = 6;

const entriesOf = ({ tracks }: PartDraft, marking: number): readonly Statement[] =>
  [...tracks.values()].flatMap(({ bars }) => {
    const entry = bars
      .flatMap((bar) => bar.flatMap(({ statements }) => statements))
      .find((statement) => statement.marking === marking);
    return entry === undefined ? [] : [entry];
  });

/** The draft with a marking elsewhere, or nowhere; null as soon as what is left to do comes to as much as is known. */
const tryElsewhere = (
  draft: PartDraft,
  marking: number,
  entries: readonly Statement[],
  place: FixPlace | null,
  most: number,
): { readonly draft: PartDraft; readonly cost: number } | null => {
  const edits: JointEdit[] = [
    place === null ? { kind: 'remove-marking', marking } : { kind: 'move-marking', marking, place },
  ];
  const repairs = new Map(draft.repairs);
  for (const { letter } of entries) repairs.delete(letter);
  const granted: Granted[] = [];
  let corrections = 0;
  for (const entry of entries) {
    const { own, correction } = tryAt(draft, entry, place);
    granted.push(own);
    repairs.set(entry.letter, own.repair);
    if (correction !== null) {
      edits.push(correction);
      corrections += CORRECTION_PRICE;
    }
    if (totalOf({ repairs }) + corrections >= most) return null;
  }
  return { draft: takeEdits(draft, edits, granted), cost: totalOf({ repairs }) + corrections };
};

const CORRECTION_PRICE = REPAIR_PRICES.edit + REPAIR_PRICES.alter;

interface Tried {
  readonly own: Granted;
  readonly correction: JointEdit | null;
}

/** What a marking says of one pedal, said elsewhere: as it is, or corrected there. */
const tryAt = (draft: PartDraft, entry: Statement, place: FixPlace | null): Tried => {
  const { letter, inSetting } = entry;
  const sayThere = (position: Position): Granted => {
    const also = place === null ? [] : [{ bar: place.bar, at: place.at, position, inWords: !inSetting }];
    return tryGiven(draft, letter, { without: [entry], also });
  };
  const worth = ({ repair: { cost, unmet } }: Granted): number => cost + unmet * REPAIR_PRICES.unmet;
  const asItIs: Tried = { own: sayThere(entry.position), correction: null };
  if (place === null || worth(asItIs.own) < REPAIR_PRICES.edit) return asItIs;
  const corrections = POSITIONS.filter((position) => position !== entry.position).map(
    (position): Tried => ({
      own: sayThere(position),
      correction: { kind: 'alter', statement: entry, position },
    }),
  );
  const corrected = corrections.reduce((one, other) => (worth(other.own) < worth(one.own) ? other : one));
  return worth(corrected.own) + CORRECTION_PRICE < worth(asItIs.own) ? corrected : asItIs;
};
