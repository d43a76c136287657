import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { compare, type Rational } from '../../music/rational.ts';
import { type LetterEdit, REPAIR_PRICES } from '../letter/letter-edits.ts';
import { firstNeeding, isInside, type LetterTrack, type Statement } from '../letter/letter-track.ts';
import {
  type Granted,
  type JointEdit,
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
export const findRenames = (draft: PartDraft, start: Rational): PartDraft => {
  const tries = { left: MOST_TRIED };
  let renamed = draft;
  for (;;) {
    const next = renameOne(renamed, start, tries);
    if (next === null) return renamed;
    renamed = next;
  }
};

/** A position that a pedal is to have at a note at the latest. */
interface Want {
  readonly letter: Letter;
  readonly position: Position;
  readonly until: Rational;
  readonly bar: number;
}

/** Takes the best name for what one pedal wants; null where no name serves any. */
const renameOne = (draft: PartDraft, start: Rational, tries: { left: number }): PartDraft | null => {
  const taken = takenMarkings(draft);
  for (const want of wantsOf(draft, start)) {
    let best: Tried | null = null;
    for (const statement of namesFor(draft.tracks, want)) {
      if (taken.has(statement.marking) || tries.left === 0) continue;
      tries.left -= 1;
      const tried = tryRename(draft, statement, want);
      if (tried !== null && (best === null || tried.saved > best.saved)) best = tried;
    }
    if (best !== null) return takeEdits(draft, [best.rename], best.granted);
  }
  return null;
};

/** Markings that are edited for several pedals already. */
const takenMarkings = ({ joint }: PartDraft): ReadonlySet<number> =>
  new Set(
    joint.flatMap((edit) => {
      if (edit.kind === 'add') return [];
      return 'statement' in edit ? edit.statement.marking : edit.marking;
    }),
  );

/** What the edits of single pedals put right: what is missing, and what is said wrongly. */
const wantsOf = ({ repairs, tracks, joint }: PartDraft, start: Rational): readonly Want[] => {
  const isAtStart = (edit: LetterEdit | JointEdit): boolean =>
    edit.kind === 'add' && isInside(edit.window, start);
  const edits = [...repairs.values()].flatMap((repair) => repair.edits);
  // Where a setting is to be added at the start, it says any pedal at no further cost.
  const isSettingAdded = [...joint, ...edits].filter(isAtStart).length > 1;
  return edits.flatMap((edit): readonly Want[] => {
    if (edit.kind === 'remove' || edit.kind === 'move' || (isSettingAdded && isAtStart(edit))) return [];
    const { position } = edit;
    if (edit.kind === 'add') {
      const { until, bar } = edit.window;
      return [{ letter: edit.letter, position, until, bar }];
    }
    const { letter, at, bar } = edit.statement;
    const step = firstNeeding(tracks.get(letter)!, bar, at, position);
    return step === undefined ? [] : [{ letter, position, until: step.at, bar: step.bar }];
  });
};

const tryRename = (draft: PartDraft, statement: Statement, { letter: to, position }: Want): Tried | null => {
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

/** Names of other pedals that stand ahead of where a position is wanted, and say it: the nearest first. */
const namesFor = (
  tracks: PartDraft['tracks'],
  { letter, position, until, bar }: Want,
): readonly Statement[] => {
  const said = ({ bars }: LetterTrack): readonly Statement[] =>
    bars
      .slice(Math.max(0, bar - BARS_BACK), bar + 1)
      .flatMap((steps) => steps.flatMap(({ statements }) => statements));
  const named = new Set(said(tracks.get(letter)!).map(({ marking }) => marking));
  return [...tracks.values()]
    .filter((track) => track.letter !== letter)
    .flatMap(said)
    .filter(
      (each) =>
        !each.inSetting &&
        each.position === position &&
        compare(each.at, until) <= 0 &&
        !named.has(each.marking),
    )
    .sort((a, b) => compare(b.at, a.at));
};

const BARS_BACK = 8;
