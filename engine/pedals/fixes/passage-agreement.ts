import { FINDINGS } from '../../findings/catalogue.ts';
import { areNeighbours } from '../../findings/join-findings.ts';
import { group } from '../../group.ts';
import type { FixTrials, OpenFinding, TriedFix } from './fix-promises.ts';
import { mergeChanges } from './fix-trials.ts';
import { areAllAlike, kindOfChange } from './likeness.ts';

type Candidates = ReadonlyMap<OpenFinding, readonly TriedFix[]>;

/** Ways of doing alike at places of one passage that are tried. */
const MOST_WAYS = 4;
/** Places of one passage that are looked at together: each takes a trial. */
const MOST_PLACES = 24;

/**
 * For places near each other that cannot be played for one reason: what is respelled at one of them, respelled at all of them
 * at once. One thing to do for a passage: “Write F♭5 for the E5 in bar 7 (4 notes).”
 *
 * @param candidates what keeps the promises at each place alone
 * @returns by the findings that it is for, the same fix for several; the others have none
 */
export const fixesOfPassages = (
  candidates: Candidates,
  trials: () => FixTrials,
): ReadonlyMap<OpenFinding, TriedFix> => {
  const fixes = new Map<OpenFinding, TriedFix>();
  for (const run of runsOf([...candidates.keys()])) {
    const ways = waysFor(run, candidates, trials).slice(0, MOST_WAYS);
    const tried = ways.flatMap(({ changes, at }) => trials().ofSeveral(changes, at, run) ?? []);
    const best = tried.toSorted(
      (a, b) => b.mended.length - a.mended.length || a.fix.moreMoves - b.fix.moreMoves,
    )[0];
    if (best === undefined || best.mended.length < 2) continue;
    for (const each of best.mended) fixes.set(each, best.fix);
  }
  return fixes;
};

/** Stops that are told as one passage, where these are several. */
const runsOf = (open: readonly OpenFinding[]): readonly (readonly OpenFinding[])[] => {
  const stops = open
    .filter(({ finding: { severity, code } }) => severity === 'stop' && FINDINGS[code].passage !== undefined)
    .toSorted((a, b) => a.finding.bar - b.finding.bar);
  return [...group(stops, ({ finding }) => finding.code).values()].flatMap((alike) => {
    const runs: OpenFinding[][] = [];
    for (const each of alike) {
      const last = runs.at(-1);
      if (
        last !== undefined &&
        last.length < MOST_PLACES &&
        areNeighbours(last.at(-1)!.finding, each.finding)
      )
        last.push(each);
      else runs.push([each]);
    }
    return runs.filter(({ length }) => length > 1);
  });
};

/**
 * What is respelled at some place, taken for every note of its name in the passage, and with those in bars in a row with it
 * that go the same way at a place; what is offered at most places first.
 */
const waysFor = (run: readonly OpenFinding[], candidates: Candidates, trials: () => FixTrials) => {
  const each = run.flatMap((open) =>
    candidates
      .get(open)!
      .flatMap(({ changes }) =>
        changes[0]?.kind === 'respell' && areAllAlike(changes) ? [{ open, change: changes[0], changes }] : [],
      ),
  );
  const alike = group(each, ({ change }) => kindOfChange(change));
  return [...alike.values()]
    .toSorted((a, b) => b.length - a.length)
    .flatMap((same) => {
      const at = [...new Set(same.map(({ open }) => open))];
      const throughout = trials().throughout(same[0]!.change, run);
      const inARow = mergeChanges([throughout, ...same.map(({ changes }) => changes)]);
      return [throughout, ...(inARow === null || inARow.length === throughout.length ? [] : [inARow])].map(
        (changes) => ({ at, changes }),
      );
    })
    .filter(({ changes }) => changes.length > 1);
};
