import { type Position, type Setting, settingFrom } from '../../harp/setting.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import { equals } from '../../music/rational.ts';
import type { NonEmpty } from '../../non-empty.ts';
import type { Plan } from '../../pedals/model.ts';
import type { Score } from '../../score/model/score.ts';
import type { Need } from '../../sounding/needs.ts';
import { applyFixes } from '../apply-fixes.ts';
import type { UneasyMarking } from '../comfort.ts';
import { trackLetter } from '../letter/letter-track.ts';
import { listPasses } from '../letter/passes.ts';
import type { MarkingEdit, MarkingFix, Repair } from '../model.ts';
import { type PartEvents, placeMarkings } from '../part-events.ts';
import { addedFaults, type Trials } from '../trials.ts';
import { type DraftEdit, gatherFixes } from './draft-edits.ts';
import { easePlaces } from './ease-places.ts';
import { type EditSet, findDependencies, lettersOf, placeOf } from './edit-dependencies.ts';
import { giveFeetTime } from './feet-in-time.ts';
import { fewestEdits } from './fewest-edits.ts';
import { startDraft } from './part-draft.ts';
import { findPlaces, type Places } from './place-edits.ts';
import { rankWays } from './rank-ways.ts';

/** What a repair is sought from. */
export interface RepairInput {
  readonly score: Score;
  readonly part: PartEvents;
  readonly needs: readonly Need[];
  readonly trials: Trials;
  /** The plan for the notes alone; asked for only where something is to be added or moved. */
  readonly plan: () => Plan;
  /** Changes that are right and uneasy in a part with other markings than its own. */
  readonly listUneasy: (marked: Score) => readonly UneasyMarking[];
}

/** A repair, and what comes of each edit with those it depends on. */
export interface PartRepair extends Repair {
  readonly sets: readonly EditSet[];
}

type FixGroup = NonEmpty<MarkingFix>;

/**
 * Finds the fewest edits with which every note finds its pedal and the feet have time.
 *
 * The seven pedals are independent but for the time of the feet and edits that concern several: names that are meant
 * for another pedal, markings that are out of place as a whole, new markings that say several pedals. So each pedal is
 * repaired by itself, exactly; then those edits are looked for that serve several at once; then the feet are given time.
 * What comes out is proved by playing the part, and the number of edits against a number that none goes below.
 */
export const repairPart = (input: RepairInput): PartRepair => {
  const { score, part, trials } = input;
  const before = trials.before(null);
  if (before.faults.size === 0) return noRepair(input);
  const passes = listPasses(score);
  const events = placeMarkings(score, part);
  const tracks = new Map(
    LETTERS.map((letter) => [letter, trackLetter(score, letter, events, passes.bars)] as const),
  );
  const base = startDraft(tracks, passes.bars);
  const places = findPlaces(score, part.moments, input.plan);
  const groupsOf = (drafts: readonly DraftEdit[]): readonly FixGroup[] => gather(drafts, input, places);
  const fixesOf = (drafts: readonly DraftEdit[]): readonly MarkingFix[] => groupsOf(drafts).flat();
  const lateBefore = before.late.length;
  let best: Outcome | null = null;
  for (const { drafts } of rankWays(base, places, (each) => groupsOf(each).length).slice(0, MOST_WAYS)) {
    const inTime = giveFeetTime(drafts, { ...input, places, fixesOf });
    const planned = groupsOf(inTime);
    const groups = withoutNewFaults(planned, input);
    const { faults, late } = trials.prove(groups.flat());
    const isWhole = groups.length === planned.length;
    if (best === null || faults.size < best.left)
      best = { groups, left: faults.size, drafts: isWhole ? inTime : null };
    if (isWhole && late.length <= lateBefore) break;
  }
  const { drafts } = best!;
  const groups = drafts === null ? best!.groups : groupsOf(easePlaces(drafts, { ...input, groupsOf }));
  const isExact = passes.complete && [...base.repairs.values()].every(({ exact }) => exact);
  const isProven = isExact && groups.length > 0 && groups.length <= fewestEdits(score, part.moments, base);
  return finish(groups, input, isProven);
};

/** Of several ways that are about as good, as many are tried where the feet have no time for the first. */
const MOST_WAYS = 4;

interface Outcome {
  readonly groups: readonly FixGroup[];
  /** The edits that they are made of; null where some were left out. */
  readonly drafts: readonly DraftEdit[] | null;
  /** Faults that are left. */
  readonly left: number;
}

const gather = (drafts: readonly DraftEdit[], input: RepairInput, places: Places): readonly FixGroup[] =>
  gatherFixes(drafts, places.start, (missing, others) => startSetting(input, missing, others)).toSorted(
    (a, b) => placeOf(a, input.score) - placeOf(b, input.score),
  );

/** A full setting that says what is missing and what the markings at its place then say, and else what the plan begins with. */
const startSetting = (
  { score, plan }: RepairInput,
  missing: ReadonlyMap<Letter, Position>,
  others: readonly MarkingFix[],
): Setting => {
  const { onset } = score.bars[score.playOrder[0] ?? 0]!;
  const there = applyFixes(score.markings, others).markings.filter(({ at }) => equals(at, onset));
  const stated: Partial<Setting> = Object.assign(
    {},
    ...there.map(({ positions }) => positions),
    Object.fromEntries(missing),
  );
  const { initial } = plan();
  return settingFrom((letter) => stated[letter] ?? initial[letter]);
};

/** The edits without those that would leave a new fault, should there be any. */
const withoutNewFaults = (
  groups: readonly FixGroup[],
  { score, trials }: RepairInput,
): readonly FixGroup[] => {
  let kept = groups;
  while (kept.length > 0) {
    const outcome = trials.prove(kept.flat());
    const [first] = addedFaults(trials.before(null), outcome);
    if (first === undefined) return kept;
    const { letter } = outcome.faults.get(first)!;
    const rest = kept.filter((fixes) => !fixes.some((fix) => lettersOf(fix, score).includes(letter)));
    if (rest.length === kept.length) return [];
    kept = rest;
  }
  return kept;
};

const finish = (groups: readonly FixGroup[], { score, trials }: RepairInput, proven: boolean): PartRepair => {
  const sets = findDependencies(score, groups, trials);
  const edits = groups.map(
    (fixes, index): MarkingEdit => ({ fixes, with: sets[index]!.edits.filter((each) => each !== index) }),
  );
  const after = trials.prove(groups.flat());
  const { markings } = applyFixes(score.markings, groups.flat());
  return { edits, markings, proven, faultsLeft: after.faults.size, sets };
};

const noRepair = ({ score }: RepairInput): PartRepair => ({
  edits: [],
  markings: score.markings,
  proven: true,
  faultsLeft: 0,
  sets: [],
});
