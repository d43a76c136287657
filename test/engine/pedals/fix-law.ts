import { expect } from 'vitest';
import { NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { nameNotes } from '../../../engine/decisions/notes-at.ts';
import { placeDecisions } from '../../../engine/decisions/place-decisions.ts';
import type { NoteFix, PedalFinding } from '../../../engine/findings/model.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import type { Plan } from '../../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import type { NoteChange } from '../../../engine/sounding/changed-needs.ts';

/** A finding, and one of the fixes that it offers. */
export interface Choice {
  readonly finding: PedalFinding;
  readonly fix: NoteFix;
}

const places = (findings: readonly PedalFinding[]) =>
  findings.flatMap(({ code, severity, places }) => places.map(({ notes }) => ({ code, severity, notes })));

const countStops = ({ findings }: Plan): number =>
  places(findings).filter(({ severity }) => severity === 'stop').length;

const CLASHES: readonly PedalFinding['code'][] = ['pedal-in-two-positions', 'string-in-two-pitches'];

/** The pedals that are wanted in two positions at once, by strings of one octave or of several, and where. */
const clashesOf = ({ findings }: Plan): ReadonlySet<string> =>
  new Set(
    findings
      .filter(({ code }) => CLASHES.includes(code))
      .flatMap(({ places }) =>
        places.map(({ barNumber, beat, sentence }) => {
          const letter = /The (\w) pedal|The string (\w)/.exec(sentence)!;
          return `${letter[1] ?? letter[2]} in bar ${barNumber}, beat ${beat.num}/${beat.den}`;
        }),
      ),
  );

/** Of the places where a pedal is wanted in two positions: the note that finds it elsewhere, and all notes of them. */
const clashNotes = ({ findings }: Plan) => {
  const all = findings.filter(({ code }) => CLASHES.includes(code)).flatMap((finding) => finding.places);
  return {
    blamed: all.flatMap(({ notes }) => notes.slice(0, 1)),
    all: new Set(all.flatMap(({ notes }) => notes)),
  };
};

/** The moves that fixes say they cost; one that two findings offer is taken once. */
const announced = (choices: readonly Choice[]): number =>
  [...new Map(choices.map(({ fix }) => [JSON.stringify(fix.changes), fix])).values()].reduce(
    (sum, { moreMoves }) => sum + Math.max(0, moreMoves),
    0,
  );

/** Troubles of one kind by one note: what a fix is for. */
const troublesOf = (findings: readonly PedalFinding[]): ReadonlySet<string> =>
  new Set(places(findings).map(({ code, notes }) => `${code} ${notes.join(' ')}`));

/** Changes as a user sends them: each note by its place, as answers name it. */
export const asDecided = (score: Score, changes: readonly NoteChange[]) => {
  const names = nameNotes(score);
  const { respelled, omitted, unplaced } = placeDecisions(score, {
    ...NO_DECISIONS,
    respell: changes.flatMap((each) =>
      each.kind === 'respell' ? [{ ...names(each.note)!, to: pitchName(each.to) }] : [],
    ),
    omit: changes.flatMap((each) => (each.kind === 'omit' ? [names(each.note)!] : [])),
  });
  expect(unplaced).toEqual([]);
  return { respelled, omitted };
};

/** What taking fixes breaks of the law, in words. */
export const breaksOfLaw = (
  score: Score,
  before: Plan,
  choices: readonly Choice[],
  options: PlanOptions = DEFAULT_PLAN_OPTIONS,
): string[] => {
  const decided = asDecided(
    score,
    choices.flatMap(({ fix }) => fix.changes),
  );
  const after = planPedals(score, { ...options, ...decided });
  const [stops, left] = [countStops(before), countStops(after)];
  const allowed = before.summary.moves + announced(choices);
  const troubles = troublesOf(after.findings);
  return [
    ...(left > stops ? [`stops rose from ${stops} to ${left}`] : []),
    ...[...clashesOf(after)]
      .filter((clash) => !clashesOf(before).has(clash))
      .map((clash) => `new clash: ${clash}`),
    ...clashNotes(after)
      .blamed.filter((note) => !clashNotes(before).all.has(note))
      .map((note) => `newly blamed: ${note}`),
    ...(after.summary.moves > allowed ? [`${after.summary.moves} moves where ${allowed} were said`] : []),
    ...choices
      .filter(({ finding }) => finding.places.length === 1)
      .filter(({ finding }) => [...troublesOf([finding])].some((trouble) => troubles.has(trouble)))
      .map(({ finding }) => `not fixed: bar ${finding.barNumber}: ${finding.sentence}`),
  ];
};

/** The place of a passage that a fix is for: the first with one of its notes. */
const placeOf = ({ places }: PedalFinding, { changes }: NoteFix): number =>
  Math.max(
    0,
    places.findIndex(({ notes }) => changes.some(({ note }) => notes.includes(note))),
  );

/** The first fix of every place of every finding. */
export const firstFixes = ({ findings }: Plan): readonly Choice[] =>
  findings.flatMap((finding) => {
    const firsts = new Map<number, Choice>();
    for (const fix of finding.fixes) {
      const place = placeOf(finding, fix);
      if (!firsts.has(place)) firsts.set(place, { finding, fix });
    }
    return [...firsts.values()];
  });

/** Every fix alone, all first ones together, and each other one in place of the first. */
export const waysToTake = (plan: Plan): readonly (readonly Choice[])[] => {
  const firsts = firstFixes(plan);
  const all = plan.findings.flatMap((finding) => finding.fixes.map((fix): Choice => ({ finding, fix })));
  const others = all.filter(({ fix }) => !firsts.some((first) => first.fix === fix));
  return [
    firsts,
    ...all.map((choice) => [choice]),
    ...others.map((other) => [
      ...firsts.filter(
        ({ finding, fix }) =>
          finding !== other.finding || placeOf(finding, fix) !== placeOf(finding, other.fix),
      ),
      other,
    ]),
  ];
};

export const expectLaw = (score: Score, options: PlanOptions = DEFAULT_PLAN_OPTIONS): void => {
  const plan = planPedals(score, options);
  for (const choices of waysToTake(plan)) {
    const sentences = choices.map(({ fix }) => fix.sentence);
    expect({ sentences, breaks: breaksOfLaw(score, plan, choices, options) }).toEqual({
      sentences,
      breaks: [],
    });
  }
};
