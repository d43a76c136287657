import { compare } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import { type LetterEdit, NOTHING_GIVEN, REPAIR_PRICES } from '../letter/letter-edits.ts';
import { isInside, type LetterTrack, type Statement } from '../letter/letter-track.ts';
import { type LetterRepair, repairAgain } from '../letter/repair-letter.ts';
import type { StatedLevers } from './stated-levers.ts';
import type { StringPart } from './string-parts.ts';

/** A string with its track and what it needs to be right. */
export interface StringRepair {
  readonly part: StringPart;
  readonly track: LetterTrack;
  readonly repair: LetterRepair;
}

/** A name of one string that is meant for another, and what both still need then. */
export interface FoundRename {
  readonly from: StringPart;
  readonly statement: Statement;
  readonly to: StringPart;
  readonly position: Statement['position'];
}

/** An edit may make the rest this much less likely. */
const MOST_UNLIKELY = REPAIR_PRICES.edit / 2;

const BARS_BACK = 8;

const worthOf = ({ cost, unmet }: LetterRepair): number => cost + unmet * REPAIR_PRICES.unmet;

/**
 * Looks for names that are meant for another string, of another octave or letter: one that its own string is as well or
 * better without, and that saves the other an edit.
 */
export const findLeverRenames = (
  repairs: ReadonlyMap<number, StringRepair>,
  stated: StatedLevers,
  score: Score,
): { readonly renames: readonly FoundRename[]; readonly repairs: ReadonlyMap<number, StringRepair> } => {
  const left = new Map(repairs);
  const renames: FoundRename[] = [];
  const taken = new Set<string>();
  for (const { part: to } of repairs.values()) {
    for (const edit of left.get(to.step)!.repair.edits) {
      if (edit.kind !== 'add') continue;
      const found = bestFor(to, edit, left, stated, score, taken);
      if (found === null) continue;
      taken.add(`${found.rename.from.step} ${found.rename.statement.marking}`);
      renames.push(found.rename);
      left.set(found.rename.from.step, { ...left.get(found.rename.from.step)!, repair: found.own });
      left.set(to.step, { ...left.get(to.step)!, repair: found.other });
      break;
    }
  }
  return { renames, repairs: left };
};

const bestFor = (
  to: StringPart,
  edit: LetterEdit & { readonly kind: 'add' },
  repairs: ReadonlyMap<number, StringRepair>,
  stated: StatedLevers,
  score: Score,
  taken: ReadonlySet<string>,
) => {
  let best: { rename: FoundRename; own: LetterRepair; other: LetterRepair; saved: number } | null = null;
  const { window, position } = edit;
  const known = repairs.get(to.step)!.repair;
  for (const { part: from, track, repair } of repairs.values()) {
    if (from === to) continue;
    for (const statement of statementsNear(track, window.bar)) {
      if (!isInside(window, statement.at) || taken.has(`${from.step} ${statement.marking}`)) continue;
      if (!isLikely(from, to, statement, position, stated, score)) continue;
      const own = repairAgain(repair, { without: [statement], also: [] });
      if (worthOf(own) > worthOf(repair)) continue;
      const { bar, at } = statement;
      const other = repairAgain(known, { ...NOTHING_GIVEN, also: [{ bar, at, position, inWords: true }] });
      if (worthOf(other) + REPAIR_PRICES.edit > worthOf(known) + MOST_UNLIKELY) continue;
      const saved = worthOf(repair) - worthOf(own) + worthOf(known) - worthOf(other);
      if (best === null || saved > best.saved)
        best = { rename: { from, statement, to, position }, own, other, saved };
    }
  }
  return best;
};

const statementsNear = ({ bars }: LetterTrack, bar: number): readonly Statement[] =>
  bars
    .slice(Math.max(0, bar - BARS_BACK), bar + 1)
    .flatMap((steps) => steps.flatMap(({ statements }) => statements))
    .filter(({ marking, inSetting }) => marking > 0 && !inSetting)
    .sort((a, b) => compare(b.at, a.at));

/** A slip of the octave, or of the letter with the same accidental; of a name that means one string. */
const isLikely = (
  from: StringPart,
  to: StringPart,
  { marking }: Statement,
  position: number,
  { said }: StatedLevers,
  score: Score,
): boolean => {
  const statements = said[marking - 1]!;
  const own = statements.get(from.step);
  if (own?.name == null || statements.has(to.step)) return false;
  const { name } = own;
  if ([...statements.values()].filter((each) => each.name === name).length > 1) return false;
  if (score.leverWords[marking - 1]!.says!.isTable) return false;
  return from.string.letter === to.string.letter || name.alter === null || own.place === position;
};
