import type { Letter } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import { isInside, type LetterTrack, type Statement, type TrackStep } from './letter-track.ts';
import type { BarPasses } from './passes.ts';
import {
  type GivenChanges,
  type LetterEdit,
  type LetterRepair,
  REPAIR_PRICES,
  repairLetter,
} from './repair-letter.ts';

/** A name that is meant for another pedal. */
export interface Rename {
  readonly kind: 'rename';
  readonly statement: Statement;
  readonly to: Letter;
}

/** Repairs of all pedals, each by itself, and the edits that concern two at once. */
export interface CoupledRepair {
  readonly repairs: ReadonlyMap<Letter, LetterRepair>;
  readonly renames: readonly Rename[];
  /** What the renames take from each pedal and give it. */
  readonly given: ReadonlyMap<Letter, GivenChanges>;
}

/** As many names are tried for another pedal: more is not wrong by a few faults. */
const MOST_TRIED = 300;

/** Where a name is as likely a slip as a wrong sign, or nearly. */
const RENAME_PRICE = REPAIR_PRICES.edit + 15;

/**
 * Looks for names that are meant for another pedal: one that its own pedal is better without, or at least as well, and
 * that another pedal wants there. It saves an edit, or leaves less that no note needs.
 */
export const findRenames = (
  tracks: ReadonlyMap<Letter, LetterTrack>,
  passes: readonly BarPasses[],
  base: ReadonlyMap<Letter, LetterRepair>,
): CoupledRepair => {
  const repairs = new Map(base);
  const given = new Map<Letter, GivenChanges>();
  const renames: Rename[] = [];
  let tried = 0;
  const tryRename = (statement: Statement, edit: AddEdit): Tried | null => {
    const from = statement.letter;
    const to = edit.letter;
    const [own, other] = [repairs.get(from)!, repairs.get(to)!];
    const without = addGiven(given.get(from), { without: [statement] });
    const step = stepOf(tracks.get(to)!, edit);
    const also = addGiven(given.get(to), { also: [{ step, position: edit.position, inWords: true }] });
    tried += 1;
    const left = repairLetter(tracks.get(from)!, passes, without);
    if (left.cost + RENAME_PRICE > own.cost + MOST_SAVED) return null;
    const right = repairLetter(tracks.get(to)!, passes, also);
    if (left.unmet + right.unmet > own.unmet + other.unmet) return null;
    const saved = own.cost + other.cost - left.cost - right.cost - RENAME_PRICE;
    return saved > 0 ? { statement, to, without, also, left, right, saved } : null;
  };
  /** Takes the best name for one missing change; false where no name serves any. */
  const renameOne = (): boolean => {
    for (const edit of [...repairs.values()].flatMap((each) => each.edits)) {
      if (edit.kind !== 'add') continue;
      const found = namesIn(tracks, edit)
        .filter((statement) => !renames.some((rename) => rename.statement === statement))
        .map((statement) => (tried < MOST_TRIED ? tryRename(statement, edit) : null))
        .filter((each) => each !== null);
      if (found.length === 0) continue;
      const best = found.reduce((one, each) => (each.saved > one.saved ? each : one));
      const { statement, to } = best;
      given.set(statement.letter, best.without).set(to, best.also);
      repairs.set(statement.letter, best.left).set(to, best.right);
      renames.push({ kind: 'rename', statement, to });
      return true;
    }
    return false;
  };
  while (renameOne());
  return { repairs, renames, given };
};

/** A name taken for another pedal, and what that pedal and its own are then. */
interface Tried {
  readonly statement: Statement;
  readonly to: Letter;
  readonly without: GivenChanges;
  readonly also: GivenChanges;
  readonly left: LetterRepair;
  readonly right: LetterRepair;
  readonly saved: number;
}

type AddEdit = LetterEdit & { readonly kind: 'add' };

const addGiven = (known: GivenChanges | undefined, more: Partial<GivenChanges>): GivenChanges => ({
  without: [...(known?.without ?? []), ...(more.without ?? [])],
  also: [...(known?.also ?? []), ...(more.also ?? [])],
});

/** What the pedal that is meant can save by it at most: an edit, and what made it unlikely. */
const MOST_SAVED = REPAIR_PRICES.edit + 4 * REPAIR_PRICES.needless;

/** Names of other pedals that stand where a change is missing and say the position that it wants. */
const namesIn = (
  tracks: ReadonlyMap<Letter, LetterTrack>,
  { letter, position, window }: AddEdit,
): readonly Statement[] => {
  const found: Statement[] = [];
  const taken = new Set(
    tracks
      .get(letter)!
      .bars.flatMap((bar) => bar.flatMap(({ statements }) => statements.map(({ marking }) => marking))),
  );
  for (const track of tracks.values()) {
    if (track.letter === letter) continue;
    for (const bar of track.bars.slice(Math.max(0, window.bar - BARS_BACK), window.bar + 1)) {
      for (const { statements } of bar)
        found.push(
          ...statements.filter(
            (each) =>
              !each.inSetting &&
              each.position === position &&
              isInside(window, each.at) &&
              !taken.has(each.marking),
          ),
        );
    }
  }
  // The nearest to the note first.
  return found.sort((a, b) => compare(b.at, a.at));
};

const BARS_BACK = 8;

const stepOf = ({ bars }: LetterTrack, { window }: AddEdit): TrackStep =>
  bars[window.bar]!.find((step) => step.window === window)!;
