import { isSetting, type Position, type Setting } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { equals } from '../music/rational.ts';
import type { Plan } from '../pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS } from '../pedals/options.ts';
import { planPedals } from '../pedals/plan.ts';
import { listRedundantMarkings } from '../proof/marking-faults.ts';
import type { MarkingPlayback } from '../proof/marking-playback.ts';
import type { MarkingFix, Proof } from '../proof/model.ts';
import { listPartEvents, placeMarkings } from '../proof/part-events.ts';
import { playByMarkings } from '../proof/play-by-markings.ts';
import { DEFAULT_PROOF_OPTIONS, type ProofOptions, proofreadScore } from '../proof/proof.ts';
import { findLateChanges } from '../proof/trials.ts';
import type { Score } from '../score/model/score.ts';
import { joinSettings, joinSlips, joinWithOpening } from './join-faults.ts';
import { inOrder, listUnread, missing, placeAt, UNJUDGED } from './judged-change.ts';
import type { Correction, JudgedChange, Needless, PedalAttempt, StatedPedal, WrongSound } from './model.ts';
import { findNeedless } from './needless-changes.ts';
import { pairSlips } from './pair-slips.ts';
import { countPoints } from './points.ts';
import { keyOf, playRepaired, type RepairedPart } from './repaired-part.ts';
import { type FailureSearch, joinSounds, searchFailures, wantedBy } from './wrong-sounds.ts';

/**
 * Judges the markings that a pupil has written into a part, by the notes and by the plan.
 *
 * What is wrong or missing is what the fewest edits that leave every note its pedal change; another way than the plan's
 * is as right. A change that is right but uneasy is told with an easier place, unless the plan has it there too.
 *
 * @param planOf makes the plan for the notes alone
 */
export const judgeAttempt = (
  score: Score,
  options: ProofOptions = DEFAULT_PROOF_OPTIONS,
  planOf: (unmarked: Score) => Plan = (unmarked) => planPedals(unmarked, DEFAULT_PLAN_OPTIONS),
): PedalAttempt => {
  const plan = planOf({ ...score, markings: [] });
  const changes =
    score.markings.length === 0
      ? listUnwritten(score, plan)
      : joinFaults(score, judgeMarkings(score, options, plan));
  const unread = listUnread(score, score.unreadWords);
  return { harp: 'pedal', changes, unread, points: countPoints(changes) };
};

/** What a teacher takes for one fault is told as one. */
const joinFaults = (
  score: Score,
  judged: readonly JudgedChange<StatedPedal>[],
): readonly JudgedChange<StatedPedal>[] => joinSlips(joinSettings(joinWithOpening(inOrder(judged), score)));

/** The opening setting and every move of the plan, where nothing was written. */
const listUnwritten = (score: Score, { initial, moves }: Plan): readonly JudgedChange<StatedPedal>[] => [
  missing('opening', placeAt(score, 0, score.bars[0]!.onset), pedalsOf(initial)),
  ...moves.map(({ letter, to, at, bar }) =>
    missing('change', placeAt(score, bar, at), [{ letter, position: to }]),
  ),
];

const pedalsOf = (setting: Setting): readonly StatedPedal[] =>
  LETTERS.map((letter) => ({ letter, position: setting[letter] }));

/** What is known of each pedal that a marking states, under its key. */
interface Judgement {
  readonly score: Score;
  readonly fixes: ReadonlyMap<string, MarkingFix>;
  /** Pedals that the repair puts right: what of them goes wrong is told with the edits. */
  readonly repairedLetters: ReadonlySet<Letter>;
  readonly uneasy: ReadonlyMap<string, JudgedChange['better']>;
  readonly needless: ReadonlyMap<string, Needless>;
  readonly tooQuick: ReadonlySet<string>;
  readonly failures: FailureSearch;
  /** What a pedal of a marking spoils once all else is put right, and only this fix is not made. */
  readonly spoiltWithout: (fix: MarkingFix, marking: number, letter: Letter) => readonly WrongSound[];
  readonly hasChanged: (marking: number, letter: Letter) => boolean;
}

const judgeMarkings = (
  score: Score,
  options: ProofOptions,
  plan: Plan,
): readonly JudgedChange<StatedPedal>[] => {
  const proof = proofreadScore(score, options, () => plan);
  const part = listPartEvents(score, options.profile);
  const playback = playByMarkings(score, placeMarkings(score, part), options.marksAt);
  const search = (marked: Score, played: MarkingPlayback): FailureSearch =>
    searchFailures(marked, played, plan, ({ letter, octave }, alter) => ({ letter, alter, octave }));
  const failures = search(score, playback);
  const repair = (fixes: readonly MarkingFix[]): RepairedPart =>
    playRepaired(score, part, fixes, options.marksAt);
  const made = pairSlips(
    proof.repair.edits.flatMap(({ fixes }) => fixes),
    { score, plan, playback, failures, repair },
  );
  const repaired = repair(made);
  const judgement: Judgement = {
    score,
    fixes: fixesByPedal(score, made),
    repairedLetters: new Set(made.flatMap((fix) => lettersIn(score, fix))),
    uneasy: uneasyByPedal(proof),
    needless: findNeedless(score, playback, {
      repaired,
      part,
      marksAt: options.marksAt,
      redundant: listRedundantMarkings(repaired.score, repaired.playback),
      letters: LETTERS,
      isExempt: () => false,
    }),
    tooQuick: new Set(
      findLateChanges(playback.tasks, options.weights.footRestSeconds).map(({ task }) =>
        keyOf(task.marking, task.letter),
      ),
    ),
    failures,
    spoiltWithout: (fix, marking, letter) => {
      const others = repair(made.filter((each) => each !== fix));
      const [index] = [...others.originOf].find(([, origin]) => origin === marking) ?? [];
      return index === undefined ? [] : search(others.score, others.playback).blamedOn(index, letter);
    },
    hasChanged: repaired.hasChanged,
  };
  return [
    ...score.markings.flatMap((_, marking) => judgeMarking(marking, judgement)),
    ...made.flatMap((fix) => judgeAddition(fix, judgement)),
  ];
};

/** What the repair changes of a pedal in a marking; a marking that goes as a whole goes for each of its pedals. */
const fixesByPedal = (score: Score, fixes: readonly MarkingFix[]): ReadonlyMap<string, MarkingFix> =>
  new Map(
    fixes.flatMap((fix) => {
      if (!('marking' in fix)) return [];
      const letters = 'letter' in fix ? [fix.letter] : lettersIn(score, fix);
      return letters.map((letter) => [keyOf(fix.marking, letter), fix] as const);
    }),
  );

/** The pedals that a change to the markings concerns. */
const lettersIn = (score: Score, fix: MarkingFix): readonly Letter[] => {
  if (fix.kind === 'add-setting') return LETTERS;
  if (fix.kind === 'rename') return [fix.letter, fix.to];
  if ('letter' in fix) return [fix.letter];
  return statedIn(score, fix.marking).map(({ letter }) => letter);
};

const UNEASE = {
  'marking-bends-string': 'bends',
  'marking-late': 'late',
  'marking-early': 'early',
} as const;

const uneasyByPedal = ({ findings }: Proof): Judgement['uneasy'] =>
  new Map(
    findings.flatMap(({ code, fix }) => {
      if (fix?.kind !== 'move' || !Object.hasOwn(UNEASE, code)) return [];
      const { marking, letter, at, bar, beat } = fix;
      return [[keyOf(marking, letter), { to: { at, bar, beat }, why: UNEASE[code as keyof typeof UNEASE] }]];
    }),
  );

const statedIn = ({ markings }: Score, marking: number): readonly StatedPedal[] => {
  const { positions } = markings[marking]!;
  return LETTERS.flatMap((letter) => {
    const position: Position | undefined = positions[letter];
    return position === undefined ? [] : [{ letter, position }];
  });
};

/** The opening setting is one thing, of any other marking each pedal that it changes. */
const judgeMarking = (marking: number, judgement: Judgement): readonly JudgedChange<StatedPedal>[] => {
  const stated = statedIn(judgement.score, marking);
  const judged = stated.flatMap((pedal) => judgePedal(marking, pedal, judgement));
  const { positions, bar, at } = judgement.score.markings[marking]!;
  const isOpening =
    isSetting(positions) &&
    judgement.score.markings.findIndex((each) => isSetting(each.positions)) === marking &&
    LETTERS.every((letter) => judgement.hasChanged(marking, letter));
  if (!isOpening) return judged;
  const wrong = judged.filter(({ verdict }) => verdict === 'wrong');
  const corrections = wrong.flatMap(({ correction }) =>
    correction?.kind === 'write' ? correction.stated : [],
  );
  return [
    {
      ...{ kind: 'opening', ...placeAt(judgement.score, bar, at), stated, ...UNJUDGED, marking },
      verdict: wrong.length > 0 ? 'wrong' : 'right',
      sounds: joinSounds(...wrong.map(({ sounds }) => sounds.slice(0, 1))),
      correction:
        corrections.length > 0 ? { kind: 'write', stated: corrections } : (wrong[0]?.correction ?? null),
    },
  ];
};

/** One pedal of a marking; nothing where it only says again how the pedal stands, as a reminder in a full setting. */
const judgePedal = (
  marking: number,
  pedal: StatedPedal,
  judgement: Judgement,
): readonly JudgedChange<StatedPedal>[] => {
  const { score, fixes, repairedLetters, uneasy, needless, tooQuick, failures, hasChanged } = judgement;
  const key = keyOf(marking, pedal.letter);
  const { bar, at } = score.markings[marking]!;
  const base: JudgedChange<StatedPedal> = {
    ...{ kind: 'change', ...placeAt(score, bar, at), stated: [pedal], verdict: 'right', ...UNJUDGED },
    marking,
  };
  const fix = fixes.get(key);
  const because = needless.get(key) ?? null;
  if (because !== null && (fix === undefined || fix.kind === 'remove'))
    return [{ ...base, verdict: 'needless', needless: because }];
  const blamed = failures.blamedOn(marking, pedal.letter);
  const isLeft = blamed.length > 0 && !repairedLetters.has(pedal.letter);
  if (fix !== undefined || isLeft) {
    const correction =
      fix === undefined ? null : correctionOf(fix, pedal, contradicted(score, marking, pedal));
    const wanted = wantedBy(score, fix, pedal);
    const heard = joinSounds(blamed, wanted === null ? [] : failures.wanting(wanted));
    const sounds =
      heard.length > 0 || fix === undefined ? heard : judgement.spoiltWithout(fix, marking, pedal.letter);
    return [{ ...base, verdict: 'wrong', sounds, correction, tooQuick: tooQuick.has(key) }];
  }
  if (!hasChanged(marking, pedal.letter)) return [];
  const better = uneasy.get(key) ?? null;
  return [better === null ? base : { ...base, verdict: 'better-place', better }];
};

/** What the other markings of that moment say of this pedal, where it is not the same. */
const contradicted = (
  { markings }: Score,
  marking: number,
  { letter, position }: StatedPedal,
): readonly StatedPedal[] =>
  markings.flatMap((other, i) => {
    const said = other.positions[letter];
    const isOther = i !== marking && equals(other.at, markings[marking]!.at);
    return isOther && said !== undefined && said !== position ? [{ letter, position: said }] : [];
  });

const correctionOf = (
  fix: MarkingFix,
  { position }: StatedPedal,
  against: readonly StatedPedal[],
): Correction<StatedPedal> => {
  switch (fix.kind) {
    case 'alter':
      return { kind: 'write', stated: [{ letter: fix.letter, position: fix.position }] };
    case 'rename':
      return { kind: 'write', stated: [{ letter: fix.to, position: fix.position ?? position }] };
    case 'move':
    case 'move-marking':
      return { kind: 'move', to: { at: fix.at, bar: fix.bar, beat: fix.beat } };
    default:
      return { kind: 'strike', against };
  }
};

/** What the repair writes that is not there; not what no note has missed so far, which only follows from a correction. */
const judgeAddition = (fix: MarkingFix, { failures }: Judgement): readonly JudgedChange<StatedPedal>[] => {
  if (fix.kind !== 'add' && fix.kind !== 'add-setting') return [];
  const { at, bar, beat } = fix;
  const place = { at, bar, beat };
  if (fix.kind === 'add-setting') return [missing('opening', place, pedalsOf(fix.setting))];
  const pedal = { letter: fix.letter, position: fix.position };
  const sounds = failures.wanting({ ...pedal, from: fix.at });
  return sounds.length === 0 ? [] : [{ ...missing('change', place, [pedal]), sounds }];
};
