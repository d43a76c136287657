import { group } from '../group.ts';
import type { LeverAt } from '../harp/lever-name.ts';
import { openAlter } from '../harp/open-tuning.ts';
import type { LeverPlan } from '../levers/model.ts';
import type { LeverOptions } from '../levers/options.ts';
import { planLevers } from '../levers/plan.ts';
import { letterAtStep, stepOf } from '../music/pitch.ts';
import { compare, equals, type Rational } from '../music/rational.ts';
import { alterWith } from '../proof/levers/lever-edits.ts';
import type { LeverFix } from '../proof/levers/model.ts';
import { playLevers, tuningOfFile } from '../proof/levers/play-levers.ts';
import { repairLevers } from '../proof/levers/repair-levers.ts';
import type { StrayName } from '../proof/levers/stated-levers.ts';
import type { FixPlace } from '../proof/model.ts';
import { readLeverSigns } from '../score/lever-signs.ts';
import type { Score } from '../score/model/score.ts';
import { joinSlips } from './join-faults.ts';
import { inOrder, listUnread, missing, placeAt, UNJUDGED } from './judged-change.ts';
import { type LeverJudgement, startJudgement } from './lever-judgement.ts';
import { placeMissing } from './missing-levers.ts';
import type { Correction, JudgedChange, LeverAttempt, WrongSound } from './model.ts';
import { countPoints } from './points.ts';
import { joinSounds } from './wrong-sounds.ts';

type JudgedLever = JudgedChange<LeverAt>;

/**
 * Judges the lever markings that a pupil has written into a part, by the notes and by the plan, as `judgeAttempt` judges
 * pedals. What stands before the first note is one thing that is asked, and after it each name.
 *
 * The strings are tuned as the option or the file says, else by custom or as the plan has them.
 */
export const judgeLeverAttempt = (
  part: Score,
  options: LeverOptions,
  planOf: (unmarked: Score, options: LeverOptions) => LeverPlan = planLevers,
): LeverAttempt => {
  const score = readLeverSigns(part);
  const tuning = tuningOfFile(score, options);
  const plan = planOf({ ...score, markings: [], leverWords: [] }, { ...options, tuning });
  const isWritten = score.leverWords.some(({ says }) => says !== null);
  const changes = isWritten
    ? joinSlips(inOrder(judgeTexts(score, { ...options, tuning }, plan)))
    : listUnwritten(score, plan);
  const unread = listUnread(
    score,
    score.leverWords.filter(({ says }) => says === null),
  );
  return { harp: 'lever', changes, unread, points: countPoints(changes) };
};

const startOf = (score: Score): FixPlace => {
  const bar = score.playOrder[0] ?? 0;
  return placeAt(score, bar, score.bars[bar]!.onset);
};

/** The levers that are up before the first note, if there are any, and every change of the plan. */
const listUnwritten = (score: Score, plan: LeverPlan): readonly JudgedLever[] => [
  ...openingOf(score, plan),
  ...plan.moves.map(({ string, alter, at, bar }) =>
    missing<LeverAt>('change', placeAt(score, bar, at), [{ string, alter }]),
  ),
];

const openingOf = (score: Score, { initial, tuning }: LeverPlan): readonly JudgedLever[] => {
  const up = initial.map((string): LeverAt => ({ string, alter: openAlter(tuning, string) + 1 }));
  return up.length === 0 ? [] : [missing('opening', startOf(score), up)];
};

const judgeTexts = (score: Score, options: LeverOptions, plan: LeverPlan): readonly JudgedLever[] => {
  const played = playLevers(score, options);
  const { groups } = repairLevers(played);
  const judgement = startJudgement(played, groups, plan);
  const start = startOf(score);
  const isAtStart = ({ at }: { readonly at: Rational }): boolean => compare(at, start.at) <= 0;
  const opening = score.leverWords.flatMap((text, index) =>
    text.says !== null && isAtStart(text) ? [index] : [],
  );
  const fixes = groups.flatMap((each) => each.fixes);
  const added = fixes.filter((fix) => fix.kind === 'add');
  const later = score.leverWords.flatMap((text, index) => (isAtStart(text) ? [] : [index]));
  return [
    ...(opening.length === 0 ? openingOf(score, plan) : [judgeOpening(opening, start, fixes, judgement)]),
    ...later.flatMap((marking) => judgeText(marking, judgement)),
    ...played.stated.strays
      .filter(({ marking }) => !opening.includes(marking))
      .map((stray) => judgeStray(stray, fixes, judgement)),
    ...placeMissing(
      added.filter((fix) => !isAtStart(fix)),
      fixes,
      plan,
      { score, stated: played.stated, tuning: played.tuning },
    ).map(
      ({ at, bar, beat, string, alter, from }): JudgedLever => ({
        ...missing('change', { at, bar, beat }, [{ string, alter }]),
        sounds: judgement.wanting(string, alter, from),
      }),
    ),
  ];
};

/** All that is told before the first note, as one thing. */
const judgeOpening = (
  opening: readonly number[],
  start: FixPlace,
  fixes: readonly LeverFix[],
  { stated, tuning, blamedOn, wanting, correctionOf }: LeverJudgement,
): JudgedLever => {
  const up = new Map<number, LeverAt>();
  for (const marking of opening) {
    for (const [step, { place }] of stated.said[marking]!) {
      const string = letterAtStep(step);
      if (place === 1) up.set(step, { string, alter: alterWith(tuning, string, 1) });
    }
  }
  const made = fixes.filter((fix) =>
    fix.kind === 'add' ? equals(fix.at, start.at) : opening.includes(fix.marking),
  );
  const corrections = made.map(correctionOf);
  const writes = corrections.flatMap((each) => (each.kind === 'write' ? each.stated : []));
  const wrongBy = (fix: LeverFix): readonly WrongSound[] => {
    const blamed = opening.flatMap((marking) => blamedOn(marking, stepOf(fix.string)));
    if (blamed.length > 0) return blamed.slice(0, 1);
    return fix.kind === 'add' ? wanting(fix.string, fix.alter, fix.at) : [];
  };
  const base = { kind: 'opening', ...start, stated: [...up.values()], ...UNJUDGED } as const;
  if (made.length === 0) return { ...base, marking: opening[0]!, verdict: 'right' };
  const correction: Correction<LeverAt> =
    writes.length > 0 ? { kind: 'write', stated: writes } : corrections[0]!;
  return {
    ...base,
    marking: opening[0]!,
    verdict: 'wrong',
    sounds: joinSounds(...made.map(wrongBy)),
    correction,
  };
};

/** Each name of a text; one that tells of several strings is one thing. */
const judgeText = (marking: number, judgement: LeverJudgement): readonly JudgedLever[] => {
  const said = [...judgement.stated.said[marking]!];
  const byName = group(said, ([step, { name }]) => name ?? step);
  return [...byName.values()].flatMap((own) =>
    judgeName(
      marking,
      own.map(([step, { place }]) => ({ step, place })),
      judgement,
    ),
  );
};

const judgeName = (
  marking: number,
  own: readonly { readonly step: number; readonly place: 0 | 1 }[],
  { score, tuning, ofString, correctionOf }: LeverJudgement,
): readonly JudgedLever[] => {
  const { bar, at } = score.leverWords[marking]!;
  const each = own.map(({ step }) => ofString(marking, step));
  const stated = own.map(({ step, place }): LeverAt => {
    const string = letterAtStep(step);
    return { string, alter: alterWith(tuning, string, place) };
  });
  const base: JudgedLever = {
    ...{ kind: 'change', ...placeAt(score, bar, at), stated, verdict: 'right', ...UNJUDGED },
    marking,
  };
  const needless = each.every((one) => one.needless !== null) ? (each[0]?.needless ?? null) : null;
  if (needless !== null) return [{ ...base, verdict: 'needless', needless }];
  const wrong = each.filter((one) => one.isWrong);
  if (wrong.length > 0) {
    const fixes = wrong.flatMap(({ fix }) => (fix === null ? [] : [fix]));
    const sounds = joinSounds(...wrong.map((one) => one.sounds));
    const tooQuick = wrong.some((one) => one.tooQuick);
    return [
      { ...base, verdict: 'wrong', sounds, correction: joinCorrections(fixes, correctionOf), tooQuick },
    ];
  }
  if (!each.some(({ hasChanged }) => hasChanged)) return [];
  const better = each.find((one) => one.better !== null)?.better ?? null;
  return [better === null ? base : { ...base, verdict: 'better-place', better }];
};

/** What belongs there instead of a name: all that is to be written, else the one thing that is to be done with it. */
const joinCorrections = (
  fixes: readonly LeverFix[],
  correctionOf: LeverJudgement['correctionOf'],
): Correction<LeverAt> | null => {
  const corrections = fixes.map(correctionOf);
  const stated = corrections.flatMap((each) => (each.kind === 'write' ? each.stated : []));
  if (stated.length > 0) return { kind: 'write', stated };
  const [first = null] = corrections;
  if (first?.kind !== 'strike') return first;
  return {
    kind: 'strike',
    against: corrections.flatMap((each) => (each.kind === 'strike' ? each.against : [])),
  };
};

/** A name that no lever of the harp gives. */
const judgeStray = (
  { marking, name }: StrayName,
  fixes: readonly LeverFix[],
  { score, tuning, correctionOf, wanting }: LeverJudgement,
): JudgedLever => {
  const { bar, at } = score.leverWords[marking]!;
  const fix = fixes.find(
    (each) =>
      each.kind !== 'add' &&
      each.marking === marking &&
      each.string.letter === name.letter &&
      each.string.octave === (name.octave ?? each.string.octave),
  );
  const string = fix?.string ?? { letter: name.letter, octave: name.octave ?? MIDDLE_OCTAVE };
  const alter = name.alter ?? alterWith(tuning, string, name.lever === 'up' ? 1 : 0);
  return {
    ...{ kind: 'change', ...placeAt(score, bar, at), stated: [{ string, alter }], verdict: 'wrong' },
    ...{ ...UNJUDGED, marking },
    sounds: fix?.kind === 'rename' ? wanting(fix.to, fix.alter, at) : [],
    correction: fix === undefined ? null : correctionOf(fix),
  };
};

/** Of a name without an octave any string of its letter is told. */
const MIDDLE_OCTAVE = 4;
