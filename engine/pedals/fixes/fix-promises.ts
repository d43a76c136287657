import { FINDINGS, isHandFinding } from '../../findings/catalogue.ts';
import type { NoteHelp } from '../../findings/help/note-help.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { otherPedalStrings, writtenString } from '../../sounding/needs.ts';
import { isTaken } from '../../sounding/taken-string.ts';
import { type Bearing, createBearingOf } from './bearing.ts';
import { blamesNoOther } from './blamed-notes.ts';
import {
  asTold,
  type ChangedPlan,
  cutPlan,
  isInTrouble,
  isNoWorse,
  type LocalPlan,
  putInto,
} from './changed-plan.ts';
import { tryFar } from './far-trials.ts';
import { isSameChange, mergeChanges, notesLost, type PlannedPart, type Stretch } from './fix-trials.ts';
import { createHandTroubles, type HandTroubles, keyOfTrouble } from './hand-troubles.ts';
import { tryNearby } from './nearby-trials.ts';
import { type FoundFix, type FoundFixes, strangeness, type TroubledPlace } from './note-fixes.ts';
import { type Span, spanAround } from './passage.ts';
import { type Reach, reachOf } from './reach.ts';
import { runsOfName } from './run-of-name.ts';
import { tellChanges } from './tell-changes.ts';

/** A finding whose fixes are still to be settled, and what was found for it. */
export interface OpenFinding {
  readonly finding: PedalFinding;
  readonly place: TroubledPlace | null;
  readonly fixes: FoundFixes;
}

/** A fix that keeps the promises alone, and the plan with it. */
export interface TriedFix {
  readonly told: NoteHelp;
  readonly changes: readonly NoteChange[];
  readonly moreMoves: number;
  readonly bearing: Bearing;
  /** What the feet do around it; null where it bears on nothing, or on more than that. */
  readonly local: LocalPlan | null;
}

/** A fix with more notes of its name, in bars in a row. */
interface RespelledRun extends FoundFix, Pick<TriedFix, 'told'> {
  readonly of: TriedFix;
}

/** A finding with those of its fixes that keep the promises alone, the best first. */
export interface TriedFinding {
  readonly open: OpenFinding;
  readonly candidates: readonly TriedFix[];
  readonly reach: Reach;
}

/** Whether neither of two fixes bears on what the other was tried with. */
export const areApart = (a: TriedFix, b: TriedFix): boolean => {
  if (a.bearing.kind === 'none' || b.bearing.kind === 'none') {
    return a.changes.every((one) =>
      b.changes.every((other) => one.note !== other.note || isSameChange(one, other)),
    );
  }
  return a.local !== null && b.local !== null && !overlap(a.local.span, b.local.span);
};

const overlap = (a: Span, b: Span): boolean => a.from < b.until && b.from < a.until;

/** Moments that may be planned for fixes that bear on more than their own notes. */
const MOST_FAR_MOMENTS = 3_000;
/** What listing all that the notes ask for takes, of the time of planning them. */
const SHARE_OF_LISTING = 0.1;
/** Fixes of one finding that are tried, and so many that keep the promises are enough. */
const MOST_TRIED = 3;
const ENOUGH = 2;
/** The same of what is searched where none of these keeps them. */
const MOST_FURTHER = 4;

/** A note left out is lost, unless another hand plucks its string at the same time. */
const lossOf = ({ finding }: OpenFinding, { changes }: TriedFix): number =>
  Number(!FINDINGS[finding.code].omittedIsHeard && changes.some(({ kind }) => kind === 'omit'));

/** Tries fixes: what they have to keep is that nothing gets worse, and that what they are for is fixed. */
export class FixTrials {
  readonly told: ChangedPlan;
  readonly #part: PlannedPart;
  readonly #handTroubles: HandTroubles;
  readonly #lost: ReadonlySet<string>;
  readonly #bearingOf: (changes: readonly NoteChange[]) => Bearing;
  /** Where fixes that bear on more than their own notes were tried; null for one that took the whole part. */
  readonly #farSpans: (Span | null)[] = [];
  #farMoments = 0;

  constructor(part: PlannedPart) {
    this.#part = part;
    this.told = asTold(part.solution);
    this.#bearingOf = createBearingOf(part);
    this.#handTroubles = createHandTroubles(part);
    this.#lost = notesLost(part.problem, part.prepared.options.profile);
  }

  /** Tries each fix of a finding by itself. */
  alone(open: OpenFinding): TriedFinding {
    const {
      finding,
      fixes: { found, further },
    } = open;
    const { score } = this.#part.prepared;
    const withWords = (each: FoundFix) => ({ ...each, told: tellChanges(each.changes, score, finding) });
    const own = finding.fixes
      .filter(({ changes }) => this.#staysFixed(finding, changes))
      .map(({ told, changes }) => ({ told, changes, local: null }));
    // One string for both hands loses nothing by being left to one of them.
    const isByChoice = found.length > 0 || FINDINGS[finding.code].omittedIsHeard === true;
    const inOrder = isByChoice
      ? own
      : own.toSorted((a, b) => strangeness(a.changes) - strangeness(b.changes));
    const first = [...found.map(withWords), ...inOrder].slice(0, MOST_TRIED);
    const single = this.#firstGood(open, first);
    const runs = this.#runsFor(open, single);
    const good = this.#withRuns(open, single, runs);
    const tried = [...first, ...runs];
    if (good.some(({ moreMoves }) => moreMoves <= 0)) return this.#triedFinding(open, good, tried);
    const others = further().slice(0, MOST_FURTHER).map(withWords);
    const more = this.#firstGood(open, others);
    // More notes are respelled only where that spares moves.
    const better = good.length === 0 ? more : [...more.filter(({ moreMoves }) => moreMoves <= 0), ...good];
    return this.#triedFinding(open, better, [...tried, ...others]);
  }

  /** What is respelled with the fixes that cost moves, the smallest first of each. */
  #runsFor(open: OpenFinding, good: readonly TriedFix[]): readonly RespelledRun[] {
    if (open.place === null) return [];
    const { score } = this.#part.prepared;
    return good
      .filter(({ moreMoves }) => moreMoves > 0)
      .flatMap((of) =>
        runsOfName(this.#part, of.changes).map((changes) => ({
          of,
          changes,
          told: tellChanges(changes, score, open.finding),
          local: null,
        })),
      );
  }

  /** With each fix that costs moves the fewest notes of its name in bars in a row that are respelled for fewer. */
  #withRuns(
    open: OpenFinding,
    good: readonly TriedFix[],
    runs: readonly RespelledRun[],
  ): readonly TriedFix[] {
    const all = good.flatMap((fix) => {
      let best = fix;
      for (const run of runs.filter(({ of }) => of === fix)) {
        if (best.moreMoves <= 0) break;
        const tried = this.#tryAlone(open, run);
        if (tried !== null && tried.moreMoves < best.moreMoves) best = tried;
      }
      return best === fix ? [fix] : [best, fix];
    });
    return all
      .toSorted((a, b) => lossOf(open, a) - lossOf(open, b) || a.moreMoves - b.moreMoves)
      .slice(0, ENOUGH);
  }

  /** A respelling taken for every note of its name that some findings name, in any octave, on strings that are free then. */
  throughout(
    change: NoteChange & { readonly kind: 'respell' },
    findings: readonly OpenFinding[],
  ): readonly NoteChange[] {
    const { score, options } = this.#part.prepared;
    const byId = notesById(score.notes);
    const ids = new Set([change.note, ...findings.flatMap(({ finding }) => finding.notes)]);
    return [...ids].flatMap((id) => {
      const note = byId.get(id)!;
      const from = writtenString(note);
      const to = otherPedalStrings(from, options.profile, options.scordatura).find(
        ({ letter, alter }) => letter === change.to.letter && alter === change.to.alter,
      );
      const isAlike = from.letter === change.from.letter && from.alter === change.from.alter;
      if (!isAlike || to === undefined || isTaken(score, note, to)) return [];
      return [{ kind: 'respell' as const, note: id, from, to }];
    });
  }

  /**
   * A fix for several findings, and those of some others that it is for as well; null where it does not keep its promises.
   *
   * @param all of the passage, the several among them
   */
  ofSeveral(
    changes: readonly NoteChange[],
    several: readonly OpenFinding[],
    all: readonly OpenFinding[],
  ): { readonly fix: TriedFix; readonly mended: readonly OpenFinding[] } | null {
    const told = tellChanges(changes, this.#part.prepared.score, null);
    const fix = this.#tryAlone(several[0]!, { told, changes, local: null });
    if (fix === null || this.together(this.told, changes, several) === null) return null;
    const mended = all.filter(
      (open) =>
        several.includes(open) ||
        (open.place !== null && this.together(this.told, changes, [...several, open]) !== null),
    );
    return { fix, mended };
  }

  #triedFinding(
    open: OpenFinding,
    candidates: readonly TriedFix[],
    tried: readonly Pick<TriedFix, 'changes'>[],
  ): TriedFinding {
    const changes = tried.map((each) => each.changes);
    return { open, candidates, reach: reachOf(this.#part, open, changes, this.#bearingOf) };
  }

  #firstGood(open: OpenFinding, tries: readonly (FoundFix & Pick<TriedFix, 'told'>)[]): readonly TriedFix[] {
    const good: TriedFix[] = [];
    for (const each of tries) {
      const tried = this.#tryAlone(open, each);
      if (tried !== null) good.push(tried);
      if (good.length === ENOUGH) break;
    }
    return good.sort((a, b) => lossOf(open, a) - lossOf(open, b) || a.moreMoves - b.moreMoves);
  }

  /** Free spelling knows no hands: it may put the other note on the string that one was taken off. */
  #staysFixed({ code }: PedalFinding, changes: readonly NoteChange[]): boolean {
    const isFree = this.#part.prepared.options.spelling === 'free';
    return !isHandFinding(code) || !isFree || changes.every(({ kind }) => kind === 'omit');
  }

  /** The plan with a fix that nothing taken before bears on. */
  join(plan: ChangedPlan, { changes, local }: TriedFix): ChangedPlan {
    const all = mergeChanges([plan.changes, changes])!;
    return local === null
      ? { ...plan, changes: all }
      : putInto(plan, local, all, this.#part.prepared.moments);
  }

  /** The plan with these changes, from one with others; null where that breaks a promise to one of the findings. */
  together(
    plan: ChangedPlan,
    changes: readonly NoteChange[],
    fixed: readonly OpenFinding[],
  ): ChangedPlan | null {
    const different = differenceOf(plan.changes, changes);
    if (different.length === 0) return plan;
    const bearing = this.#bearingOf(different);
    const near = bearing.kind === 'local' && !this.#meetsFar(bearing, changes) ? bearing : null;
    const tried = near === null ? null : tryNearby(this.#part, plan, changes, different, near);
    const now = tried ?? this.#tryFar(plan, changes);
    return now !== null && this.#keeps(plan, now, different, fixed) ? now.plan : null;
  }

  /** Whether the music around some moments is other than by their own notes, for changes that bear on more than theirs. */
  #meetsFar({ first, last }: Stretch, changes: readonly NoteChange[]): boolean {
    if (this.#bearingOf(changes).kind !== 'far') return false;
    const span = spanAround(this.#part.problem.context.graph, first, last);
    return span === null || this.#farSpans.some((far) => far === null || overlap(far, span));
  }

  #tryAlone(
    open: OpenFinding,
    { told, changes, local: known }: FoundFix & Pick<TriedFix, 'told'>,
  ): TriedFix | null {
    const bearing = this.#bearingOf(changes);
    if (bearing.kind === 'none') return { told, changes, moreMoves: 0, bearing, local: null };
    const tried =
      known === null || bearing.kind === 'far'
        ? ((bearing.kind === 'local' ? tryNearby(this.#part, this.told, changes, changes, bearing) : null) ??
          this.#tryFar(this.told, changes))
        : { local: known, plan: putInto(this.told, known, changes, this.#part.prepared.moments) };
    if (tried === null) return null;
    const { local, plan } = tried;
    if (bearing.kind === 'far') this.#farSpans.push(local?.span ?? null);
    if (!this.#keeps(this.told, tried, changes, [open])) return null;
    const moreMoves = plan.moves.length - this.told.moves.length;
    return { told, changes, moreMoves, bearing, local };
  }

  /** Null where the trials are used up, or a note has no string that had one before. */
  #tryFar(
    from: ChangedPlan,
    changes: readonly NoteChange[],
  ): { readonly plan: ChangedPlan; readonly local: LocalPlan | null } | null {
    const all = this.#part.prepared.moments.all.length;
    if (this.#farMoments > MOST_FAR_MOMENTS) return null;
    const { plan, local, lost, planned } = tryFar(this.#part, from, changes, this.#bearingOf);
    this.#farMoments += planned + all * SHARE_OF_LISTING;
    const changed = new Set(changes.map(({ note }) => note));
    return [...lost].every((note) => this.#lost.has(note) && !changed.has(note)) ? { plan, local } : null;
  }

  #keeps(
    before: ChangedPlan,
    { plan: now, local }: { readonly plan: ChangedPlan; readonly local: LocalPlan | null },
    different: readonly NoteChange[],
    fixed: readonly OpenFinding[],
  ): boolean {
    const { moments } = this.#part.prepared;
    const { weights } = this.#part.problem.context;
    // Outside the span that was planned anew both are the same.
    const cut = (plan: ChangedPlan) => (local === null ? plan : cutPlan(plan, local.span, moments));
    if (!isNoWorse(cut(now), cut(before)) || !blamesNoOther(cut(now), this.#part)) return false;
    if (fixed.some(({ place }) => place !== null && isInTrouble(now, place.trouble, weights))) return false;
    const near = this.#stretchOf(different);
    const hands = this.#handTroubles(now.changes, near);
    if (fixed.some(({ finding }) => hands.has(keyOfTrouble(finding)))) return false;
    const handsBefore = this.#handTroubles(before.changes, near);
    return [...hands].every((key) => handsBefore.has(key));
  }

  /** The moments at which notes that are changed begin. */
  #stretchOf(changes: readonly NoteChange[]): Stretch {
    const { score, moments } = this.#part.prepared;
    const notes = notesById(score.notes);
    const at = changes.map(({ note }) => moments.ofNote(notes.get(note)!));
    return { first: Math.min(...at), last: Math.max(...at) };
  }
}

/** The changes that one list has and the other has not. */
const differenceOf = (a: readonly NoteChange[], b: readonly NoteChange[]): readonly NoteChange[] => {
  const isIn = (list: readonly NoteChange[], change: NoteChange): boolean =>
    list.some((each) => isSameChange(each, change));
  return [...a.filter((change) => !isIn(b, change)), ...b.filter((change) => !isIn(a, change))];
};
