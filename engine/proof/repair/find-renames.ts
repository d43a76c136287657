import { compare } from '../../music/rational.ts';
import { REPAIR_PRICES } from './letter-edits.ts';
import type { LetterTrack, Statement } from './letter-track.ts';
import {
  type AddEdit,
  type Granted,
  type PartDraft,
  type Rename,
  takeEdits,
  totalOf,
  tryGiven,
} from './part-draft.ts';

/** As many names are tried for another pedal: more is not wrong by a few faults. */
const MOST_TRIED = 300;

/** Where a name is as likely a slip as a wrong sign, or nearly. */
const RENAME_PRICE = REPAIR_PRICES.edit + 15;

/** What the pedal that is meant can save by it at most: an edit, and what made it unlikely. */
const MOST_SAVED = REPAIR_PRICES.edit + 4 * REPAIR_PRICES.needless;

/** A name taken for another pedal, and what that pedal and its own are then. */
interface Tried {
  readonly rename: Rename;
  readonly granted: readonly Granted[];
  readonly saved: number;
}

/**
 * Looks for names that are meant for another pedal: one that its own pedal is better without, or at least as well, and
 * that another pedal wants there. It saves an edit, or leaves less that no note needs.
 */
export const findRenames = (draft: PartDraft): PartDraft => {
  const tries = { left: MOST_TRIED };
  let renamed = draft;
  for (let next = renameOne(renamed, tries); next !== null; next = renameOne(renamed, tries)) renamed = next;
  return renamed;
};

/** Takes the best name for one missing change; null where no name serves any. */
const renameOne = (draft: PartDraft, tries: { left: number }): PartDraft | null => {
  const taken = new Set(draft.joint.map((edit) => ('statement' in edit ? edit.statement : null)));
  for (const edit of [...draft.repairs.values()].flatMap((each) => each.edits)) {
    if (edit.kind !== 'add') continue;
    let best: Tried | null = null;
    for (const statement of namesIn(draft.tracks, edit)) {
      if (taken.has(statement) || tries.left === 0) continue;
      tries.left -= 1;
      const tried = tryRename(draft, statement, edit);
      if (tried !== null && (best === null || tried.saved > best.saved)) best = tried;
    }
    if (best !== null) return takeEdits(draft, [best.rename], best.granted);
  }
  return null;
};

const tryRename = (
  draft: PartDraft,
  statement: Statement,
  { letter: to, position }: AddEdit,
): Tried | null => {
  const { letter: from, bar, at } = statement;
  const [own, other] = [draft.repairs.get(from)!, draft.repairs.get(to)!];
  const left = tryGiven(draft, from, { without: [statement] });
  if (left.repair.cost + RENAME_PRICE > own.cost + MOST_SAVED) return null;
  const right = tryGiven(draft, to, { also: [{ bar, at, position, inWords: true }] });
  if (left.repair.unmet + right.repair.unmet > own.unmet + other.unmet) return null;
  const granted = [left, right];
  const saved = totalOf(draft) - totalOf(takeEdits(draft, [], granted)) - RENAME_PRICE;
  return saved > 0 ? { rename: { kind: 'rename', statement, to }, granted, saved } : null;
};

/** Names of other pedals that stand ahead of where a change is missing, and say the position that it wants. */
const namesIn = (
  tracks: PartDraft['tracks'],
  { letter, position, window }: AddEdit,
): readonly Statement[] => {
  const said = ({ bars }: LetterTrack): readonly Statement[] =>
    bars
      .slice(Math.max(0, window.bar - BARS_BACK), window.bar + 1)
      .flatMap((steps) => steps.flatMap(({ statements }) => statements));
  const taken = new Set(said(tracks.get(letter)!).map(({ marking }) => marking));
  return (
    [...tracks.values()]
      .filter((track) => track.letter !== letter)
      .flatMap(said)
      .filter(
        (each) =>
          !each.inSetting &&
          each.position === position &&
          compare(each.at, window.until) <= 0 &&
          !taken.has(each.marking),
      )
      // The nearest to the note first.
      .sort((a, b) => compare(b.at, a.at))
  );
};

const BARS_BACK = 8;
