import type { OpenTuning } from '../../harp/open-tuning.ts';
import type { LeverContext } from '../../levers/context.ts';
import type { Score } from '../../score/model/score.ts';
import type { LeverName } from '../../score/words/lever-words.ts';
import { editsIn } from '../letter/letter-edits.ts';
import { isInside, trackLetter } from '../letter/letter-track.ts';
import { listPasses } from '../letter/passes.ts';
import { repairLetter } from '../letter/repair-letter.ts';
import { placeMarkings } from '../part-events.ts';
import { placeEdits } from '../repair/draft-edits.ts';
import { isIn, listStretches, type Stretch } from '../repair/fewest-edits.ts';
import { findLeverRenames, type StringRepair } from './find-lever-renames.ts';
import { gatherLeverEdits, type LeverDraft, type LeverGroup, placeOfLeverFix } from './lever-edits.ts';
import { findLeverPlaces } from './lever-places.ts';
import type { LeverTrials } from './lever-trials.ts';
import type { LeverEdit } from './model.ts';
import type { StatedLevers } from './stated-levers.ts';
import type { StringPart } from './string-parts.ts';

/** What a repair of lever markings is sought from. */
export interface LeverRepairInput {
  readonly context: LeverContext;
  readonly tuning: OpenTuning;
  readonly stated: StatedLevers;
  readonly parts: readonly StringPart[];
  readonly trials: LeverTrials;
}

export interface LeverRepair {
  readonly edits: readonly LeverEdit[];
  readonly groups: readonly LeverGroup[];
  readonly proven: boolean;
  readonly faultsLeft: number;
}

/**
 * Finds the fewest edits with which every note finds its lever and a hand has time for each change.
 *
 * Each string is repaired by itself, exactly, as a pedal is; then names are looked for that are meant for another
 * string; new markings are put where a hand is free, several into one where that does; then markings that no hand has
 * time for are put elsewhere. What comes out is proved by playing the part.
 */
export const repairLevers = (input: LeverRepairInput): LeverRepair => {
  const { context, parts, trials } = input;
  const { score } = context;
  const before = trials.after([]);
  if (before.faults === 0 && input.stated.strays.length === 0)
    return { edits: [], groups: [], proven: true, faultsLeft: 0 };
  const passes = listPasses(score);
  const base = new Map(
    parts.map((part): [number, StringRepair] => {
      const track = trackLetter(
        part.score,
        part.string.letter,
        placeMarkings(part.score, part.events),
        passes.bars,
        [0, 1],
      );
      return [part.step, { part, track, repair: repairLetter(track, passes.bars) }];
    }),
  );
  const { renames, repairs } = findLeverRenames(base, input.stated, score);
  const drafts = useStrays(placeDrafts(renames, repairs, input), input);
  const groups = withoutNewFaults(giveHandsTime(drafts, base, input), input);
  const { faults } = trials.after(groups);
  const edits = groups.map(
    ({ fixes }, index): LeverEdit => ({
      fixes,
      with: dependenciesOf(index, groups, trials, score),
    }),
  );
  const isExact = passes.complete && [...base.values()].every(({ repair }) => repair.exact);
  const proven = isExact && groups.length > 0 && groups.length <= fewestLeverEdits(score, base);
  return { edits, groups, proven, faultsLeft: faults };
};

const placeDrafts = (
  renames: ReturnType<typeof findLeverRenames>['renames'],
  repairs: ReadonlyMap<number, StringRepair>,
  { context }: LeverRepairInput,
): readonly LeverDraft[] => {
  const own = [...repairs.values()].flatMap(({ part, repair }) =>
    repair.edits.map((edit) => ({ part, edit })),
  );
  const placed = placeEdits(
    own.map(({ edit }) => edit),
    findLeverPlaces(context),
  );
  return [
    ...renames.map(
      ({ from, statement, to, position }): LeverDraft => ({
        kind: 'rename',
        part: from,
        statement,
        to,
        position,
      }),
    ),
    ...own.map(({ part }, i): LeverDraft => ({ kind: 'own', part, draft: placed[i]! })),
  ];
};

/** Names that no lever gives are what is missing about there, or there for nothing. */
const useStrays = (
  drafts: readonly LeverDraft[],
  { stated, context: { score } }: LeverRepairInput,
): readonly LeverDraft[] => {
  let left = drafts;
  const corrected = stated.strays.map((stray): LeverDraft => {
    const { at } = score.leverWords[stray.marking]!;
    const wanted = left.flatMap((each) => {
      if (each.kind !== 'own' || each.draft.edit.kind !== 'add' || !isInside(each.draft.edit.window, at))
        return [];
      return [{ each, part: each.part, position: each.draft.edit.position }];
    });
    const [best] = wanted.sort((a, b) => unlikeness(stray.name, a.part) - unlikeness(stray.name, b.part));
    if (best === undefined) return { kind: 'stray', stray, to: null };
    left = left.filter((each) => each !== best.each);
    return { kind: 'stray', stray, to: best };
  });
  return [...corrected, ...left];
};

const unlikeness = ({ letter, octave }: LeverName, { string }: StringPart): number =>
  (letter === string.letter ? 0 : 2) + (octave === null || octave === string.octave ? 0 : 1);

/** Changes without time that are put elsewhere, and places tried for each. */
const MOST_ROUNDS = 12;
const MOST_PLACES_TRIED = 12;

/** Puts changes that no hand has time for elsewhere, first those that are edited anyway. */
const giveHandsTime = (
  drafts: readonly LeverDraft[],
  base: ReadonlyMap<number, StringRepair>,
  input: LeverRepairInput,
): readonly LeverGroup[] => {
  const { context, tuning, trials } = input;
  const { score } = context;
  const places = findLeverPlaces(context);
  const gather = (each: readonly LeverDraft[]): readonly LeverGroup[] =>
    gatherLeverEdits(each, places, tuning, score, input.stated);
  let best = drafts;
  let outcome = trials.after(gather(best));
  for (let round = 0; round < MOST_ROUNDS && outcome.troubles.length > 0; round += 1) {
    let next: { readonly drafts: readonly LeverDraft[]; readonly faults: number } | null = null;
    for (const trouble of outcome.troubles) {
      for (const tried of elsewhere(best, trouble, base, input)) {
        const { faults } = trials.after(gather(tried));
        if (faults < (next?.faults ?? outcome.faults)) next = { drafts: tried, faults };
      }
      if (next !== null) break;
    }
    if (next === null) break;
    best = next.drafts;
    outcome = trials.after(gather(best));
  }
  return gather(best);
};

/** The drafts with the marking of a change that no hand has time for at other places. */
const elsewhere = (
  drafts: readonly LeverDraft[],
  {
    step,
    task,
  }: {
    readonly step: number;
    readonly task: { readonly before: { readonly onset: { num: number; den: number } } };
  },
  base: ReadonlyMap<number, StringRepair>,
  { context }: LeverRepairInput,
): readonly (readonly LeverDraft[])[] => {
  const { part, track } = base.get(step)!;
  const places = findLeverPlaces(context);
  const until = task.before.onset;
  const own = drafts.findIndex(
    (each) =>
      each.kind === 'own' &&
      each.part.step === step &&
      each.draft.place !== null &&
      each.draft.options.some(({ at }) => at.num / at.den <= until.num / until.den),
  );
  const edited = drafts[own];
  if (edited?.kind === 'own')
    return edited.draft.options
      .slice(0, MOST_PLACES_TRIED)
      .map((place) =>
        drafts.map((each, i) => (i === own ? { ...edited, draft: { ...edited.draft, place } } : each)),
      );
  const steps = track.bars.flat();
  const needing = steps.find(
    ({ at, needs }) => at.num * until.den === until.num * at.den && needs.length > 0,
  );
  const statement = steps
    .flatMap(({ statements }) => statements)
    .findLast(
      ({ at, marking, inSetting }) => marking > 0 && !inSetting && at.num / at.den <= until.num / until.den,
    );
  if (
    needing === undefined ||
    statement === undefined ||
    drafts.some((each) => each.kind === 'rename' && each.part === part)
  )
    return [];
  const window = windowBefore(steps, needing);
  if (window === null) return [];
  const options = places.within(part.string.letter, statement.position, window);
  return options
    .slice(0, MOST_PLACES_TRIED)
    .map((place) => [
      ...drafts,
      { kind: 'own', part, draft: { edit: { kind: 'move', statement, window }, place, options } } as const,
    ]);
};

/** From the last step at which the lever was needed otherwise up to a note. */
const windowBefore = (
  steps: readonly StringRepair['track']['bars'][number][number][],
  needing: StringRepair['track']['bars'][number][number],
) => {
  const [wanted] = needing.needs;
  const index = steps.indexOf(needing);
  const last = steps.slice(0, index).findLast(({ needs }) => needs.some((need) => need !== wanted));
  const { at: until, bar } = needing;
  return { after: last?.at ?? null, closed: last === undefined, until, bar };
};

/** The edits without those that would leave a new fault, should there be any. */
const withoutNewFaults = (
  groups: readonly LeverGroup[],
  { trials }: LeverRepairInput,
): readonly LeverGroup[] => {
  let kept = groups;
  while (kept.length > 0) {
    const added = trials.firstAdded(kept);
    if (added === null) return kept;
    const rest = kept.filter((group) => !touches(group, added.step));
    if (rest.length === kept.length) return [];
    kept = rest;
  }
  return kept;
};

const touches = ({ views }: LeverGroup, step: number): boolean => views.some((view) => view.step === step);

/** The other edits that must be made with one: together they leave no fault that was not there before. */
const dependenciesOf = (
  index: number,
  groups: readonly LeverGroup[],
  trials: LeverTrials,
  score: Score,
): readonly number[] => {
  const chosen = new Set([index]);
  while (chosen.size < groups.length) {
    const added = trials.firstAdded([...chosen].map((each) => groups[each]!));
    if (added === null) break;
    const left = groups.map((_, i) => i).filter((i) => !chosen.has(i));
    const own = left.filter((i) => touches(groups[i]!, added.step));
    const distance = (i: number): number =>
      Math.abs(
        placeOfLeverFix(groups[i]!.fixes[0], score) -
          (added.onset ?? placeOfLeverFix(groups[index]!.fixes[0], score)),
      );
    chosen.add((own.length > 0 ? own : left).reduce((a, b) => (distance(b) < distance(a) ? b : a)));
  }
  chosen.delete(index);
  return [...chosen].sort((a, b) => a - b);
};

/**
 * A number of edits that no repair goes below: that of the string that needs most; and where the part is read straight
 * through, as many as there are stretches that have to be edited and no edit reaches two of.
 */
const fewestLeverEdits = (score: Score, base: ReadonlyMap<number, StringRepair>): number => {
  const most = Math.max(...[...base.values()].map(({ repair }) => editsIn(repair.cost)));
  if (!score.playOrder.every((bar, i) => bar === i)) return most;
  const stretches = [...base.values()]
    .flatMap(({ part, track }) => listStretches(track).map((stretch) => ({ stretch, part })))
    .sort((a, b) => a.stretch.to.num / a.stretch.to.den - b.stretch.to.num / b.stretch.to.den);
  const apart: typeof stretches = [];
  for (const each of stretches) if (apart.every((other) => !canShare(each, other))) apart.push(each);
  return Math.max(most, apart.length);
};

interface StringStretch {
  readonly stretch: Stretch;
  readonly part: StringPart;
}

/** Whether one edit may reach both: they overlap, or a text that tells of both strings can leave one for the other. */
const canShare = (one: StringStretch, other: StringStretch): boolean =>
  isIn(one.stretch, other.stretch.to) ||
  isIn(other.stretch, one.stretch.to) ||
  one.part.score.markings.some(({ at, positions }, i) => {
    const tells = positions[one.part.string.letter] !== undefined;
    const tellsOther = other.part.score.markings[i]!.positions[other.part.string.letter] !== undefined;
    return tells && tellsOther && (isIn(one.stretch, at) || isIn(other.stretch, at));
  });
