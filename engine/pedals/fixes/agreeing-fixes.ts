import { help } from '../../findings/help/help.ts';
import { listFastChanges } from '../../findings/join-findings.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { type NoteFix, noteFix, suggestionsOf } from '../../findings/model.ts';
import { SEVERITIES } from '../../findings/severity.ts';
import { lazy } from '../../memoize.ts';
import type { ChangedPlan } from './changed-plan.ts';
import { areApart, FixTrials, type OpenFinding, type TriedFinding, type TriedFix } from './fix-promises.ts';
import { mergeChanges, type PlannedPart } from './fix-trials.ts';
import { fixesOfPassages } from './passage-agreement.ts';
import { groupByReach } from './reach.ts';

/** Fixes of one finding that are offered. */
const MOST_OFFERED = 2;

/**
 * The findings with those of their fixes that keep three promises, each alone and the first ones of all findings together:
 *
 * - no place becomes unplayable, and nothing new goes wrong for the hands;
 * - the plan has no more moves than the fixes say;
 * - what a fix is for stays fixed.
 *
 * A second fix of a finding keeps them in place of its first. The gravest findings choose first. A fix that keeps the
 * promises only without the others is told in words. Under free spelling the other notes keep the strings that the plan
 * chose.
 */
export const agreeOnFixes = (findings: readonly OpenFinding[], part: PlannedPart): PedalFinding[] =>
  agreeBySteps({ tryAlone, agreeAmong })(findings, part);

/** The costly steps of it; each may answer from memory where it was asked the same before. */
export interface AgreeingSteps {
  readonly tryAlone: typeof tryAlone;
  readonly agreeAmong: typeof agreeAmong;
}

export const agreeBySteps =
  (steps: AgreeingSteps): typeof agreeOnFixes =>
  (findings, part) => {
    const open = findings
      .filter(({ finding, fixes: { found } }) => finding.fixes.length + found.length > 0)
      .sort((a, b) => SEVERITIES.indexOf(a.finding.severity) - SEVERITIES.indexOf(b.finding.severity));
    const trials = lazy(() => new FixTrials(part));
    const tried = open.map((each) => steps.tryAlone(each, part, trials));
    const agreed = new Map(
      groupByReach(tried).flatMap((group) => {
        const told = steps.agreeAmong(group, trials);
        return group.map((each, i) => [each, told[i]!] as const);
      }),
    );
    const toldOf = new Map(open.map((each, i) => [each, agreed.get(tried[i]!)!]));
    return findings.map((each) => toldOf.get(each) ?? each.finding);
  };

/** @param part that `trials` are of */
export const tryAlone = (open: OpenFinding, _part: PlannedPart, trials: () => FixTrials): TriedFinding =>
  trials().alone(open);

/** Findings that bear on no others, with the fixes that are offered. */
export const agreeAmong = (
  group: readonly TriedFinding[],
  trials: () => FixTrials,
): readonly PedalFinding[] => {
  const single = new Map(group.map((each) => [each.open, each.candidates]));
  const passages = fixesOfPassages(single, trials);
  // What is one thing to do for several places is offered for each of them, and nothing beside it.
  const candidates = new Map(
    [...single].map(([each, alone]) => [each, passages.has(each) ? [passages.get(each)!] : alone]),
  );
  const open = [...candidates.keys()];
  const agreement = new Agreement(trials());
  // What bears on more than its own notes makes all that is tried after it costly.
  const farOf = (each: OpenFinding): number =>
    Number(candidates.get(each)!.some(({ bearing }) => bearing.kind === 'far'));
  const told = toldAs(open, candidates);
  for (const each of [...open].sort((a, b) => farOf(a) - farOf(b))) {
    if (!told.has(each)) agreement.takeFirst(each, candidates.get(each)!);
  }
  return open.map((each) => {
    const own = candidates.get(each)!;
    const stands = told.get(each) ?? each;
    if (stands !== each && passages.has(stands)) return withOffers(each.finding, [], []);
    return withOffers(each.finding, agreement.offersOf(each, own, stands), own);
  });
};

/** Findings that are told in another one of the same fast change, and in which: one first fix is enough for both. */
const toldAs = (
  open: readonly OpenFinding[],
  candidates: ReadonlyMap<OpenFinding, readonly TriedFix[]>,
): ReadonlyMap<OpenFinding, OpenFinding> => {
  const openOf = new Map(
    open.filter((each) => candidates.get(each)!.length > 0).map((each) => [each.finding, each]),
  );
  return new Map(
    listFastChanges([...openOf.keys()]).flatMap(({ stands, others }) =>
      others.map((other) => [openOf.get(other)!, openOf.get(stands)!] as const),
    ),
  );
};

/** The fixes taken so far, one of each finding, and the plan with all of them. */
class Agreement {
  readonly #trials: FixTrials;
  #plan: ChangedPlan;
  #taken: readonly TakenFix[] = [];

  constructor(trials: FixTrials) {
    this.#trials = trials;
    this.#plan = trials.told;
  }

  /** Takes the first fix that agrees with those taken before, if one does. */
  takeFirst(open: OpenFinding, candidates: readonly TriedFix[]): void {
    for (const fix of candidates) {
      const found = this.#fitting({ open, fix }, this.#taken, null);
      if (found === null) continue;
      this.#plan = found.plan;
      this.#taken = [...this.#taken, { open, fix, moreMoves: found.moreMoves }];
      return;
    }
  }

  /**
   * The first fix, and the best other one that agrees with the first ones of all other findings.
   *
   * @param told the finding in which these are told: its first fix is the one that others take the place of
   */
  offersOf(open: OpenFinding, candidates: readonly TriedFix[], told: OpenFinding): readonly NoteFix[] {
    const first = this.#taken.find((each) => each.open === told);
    if (first === undefined) return [];
    const offered = first.open === open ? [offerOf(first)] : [];
    const others = this.#taken.filter((each) => each !== first);
    for (const fix of candidates) {
      if (fix === first.fix || offered.length === MOST_OFFERED) continue;
      const found = this.#fitting({ open, fix }, others, first.fix);
      if (found !== null) offered.push(offerOf({ fix, moreMoves: found.moreMoves }));
    }
    return offered;
  }

  /** The plan with a fix beside others, and the moves that it costs at most; null where they do not agree. */
  #fitting(
    { open, fix }: Pick<TakenFix, 'open' | 'fix'>,
    others: readonly TakenFix[],
    instead: TriedFix | null,
  ): { readonly plan: ChangedPlan; readonly moreMoves: number } | null {
    if (others.every((other) => areApart(other.fix, fix))) {
      const plan = instead === null ? this.#trials.join(this.#plan, fix) : this.#plan;
      return { plan, moreMoves: fix.moreMoves };
    }
    const changes = mergeChanges([...others.map((each) => each.fix.changes), fix.changes]);
    if (changes === null) return null;
    const plan = this.#trials.together(this.#plan, changes, [open, ...others.map((each) => each.open)]);
    if (plan === null) return null;
    const said = others.reduce((sum, { moreMoves }) => sum + Math.max(0, moreMoves), 0);
    const over = plan.moves.length - this.#trials.told.moves.length - said;
    return { plan, moreMoves: Math.max(fix.moreMoves, over) };
  }
}

interface TakenFix {
  readonly open: OpenFinding;
  readonly fix: TriedFix;
  /** What it is said to cost. */
  readonly moreMoves: number;
}

const offerOf = ({ fix, moreMoves }: Pick<TakenFix, 'fix' | 'moreMoves'>): NoteFix =>
  noteFix(fix.told, fix.changes, moreMoves);

/** The finding with the fixes that are offered; what cannot be offered with them is told after them, if at all. */
const withOffers = (
  finding: PedalFinding,
  offered: readonly NoteFix[],
  alone: readonly TriedFix[],
): PedalFinding => {
  const apart =
    offered.length > 0 ? [] : alone.slice(0, 1).map(({ told }) => help('without-other-fixes', { fix: told }));
  const all = [...apart, ...finding.help];
  const then = { ...finding, fixes: offered, help: all };
  return { ...then, suggestions: suggestionsOf(then) };
};
