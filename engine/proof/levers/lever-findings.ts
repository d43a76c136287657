import { orderByPlace } from '../../findings/order-findings.ts';
import type { LeverAt } from '../../harp/lever-name.ts';
import type { OpenTuning } from '../../harp/open-tuning.ts';
import type { Rational } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import type { LeverName } from '../../score/words/lever-words.ts';
import { quoteWords } from '../../score/words/pedal-words.ts';
import { nameBarIn } from '../../words/bar-names.ts';
import { listContradictions } from '../marking-faults.ts';
import type { Failure } from '../marking-playback.ts';
import { describingWith } from '../proof-finding.ts';
import { describeLeverFixes, placeOfLeverWords } from './describe-lever-fixes.ts';
import { type HandTrouble, troubleKey } from './hands-in-time.ts';
import type { LeverUnease } from './lever-comfort.ts';
import { alterWith } from './lever-edits.ts';
import type { LeverFix, LeverProofFinding } from './model.ts';
import { listNeedlessLevers } from './needless-levers.ts';
import type { StatedLevers } from './stated-levers.ts';
import type { StringPart } from './string-parts.ts';

/** What the findings of a proof are told from. */
export interface LeverProofFacts {
  readonly score: Score;
  readonly tuning: OpenTuning;
  readonly stated: StatedLevers;
  readonly parts: readonly StringPart[];
  readonly troubles: readonly HandTrouble[];
  readonly uneasy: readonly LeverUnease[];
  /** Fixes that rid a string of faults, by their keys, or the hands of a trouble. */
  readonly fixesFor: (step: number, faults: readonly string[], at: Rational) => readonly LeverFix[];
  /** What becomes of a name that no lever gives. */
  readonly fixesForStray: (marking: number, name: LeverName) => readonly LeverFix[];
  /** What becomes of something that a marking (of its part) says of a string for nothing; none where it had better stay. */
  readonly fixesForNeedless: (part: StringPart, marking: number) => readonly LeverFix[];
}

/** All findings in order of place. */
export const listLeverProofFindings = (facts: LeverProofFacts): readonly LeverProofFinding[] =>
  orderByPlace([
    ...unreadFindings(facts),
    ...strayFindings(facts),
    ...startFindings(facts),
    ...facts.parts.flatMap((part) => [
      ...part.played.failures.map((failure) => failureFinding(failure, part, facts)),
      ...contradictionFindings(part, facts),
      ...needlessFindings(part, facts),
    ]),
    ...troubleFindings(facts),
    ...uneasyFindings(facts),
  ]);

export const describeLeverProofFinding = describingWith(describeLeverFixes);

const unreadFindings = ({ score }: LeverProofFacts): readonly LeverProofFinding[] =>
  score.leverWords
    .filter(({ says }) => says === null)
    .map((words) =>
      describeLeverProofFinding(
        score,
        'lever-words-not-understood',
        { words: quoteWords(words.text) },
        {
          place: words,
          fixes: [],
          advice: [{ kind: 'name-levers', facts: {} }],
        },
      ),
    );

const strayFindings = ({
  score,
  stated,
  tuning,
  fixesForStray,
}: LeverProofFacts): readonly LeverProofFinding[] =>
  stated.strays.map(({ marking, name, why }) =>
    describeLeverProofFinding(
      score,
      'lever-name-not-on-harp',
      { name: { letter: name.letter, octave: name.octave, alter: name.alter }, why, tuning },
      { place: score.leverWords[marking]!, fixes: fixesForStray(marking, name) },
    ),
  );

const startFindings = ({ score, stated }: LeverProofFacts): readonly LeverProofFinding[] => {
  if (stated.hasTable) return [];
  const bar = score.playOrder[0] ?? 0;
  const place = { bar, at: score.bars[bar]!.onset };
  const advice = [{ kind: 'print-levers-up', facts: {} }] as const;
  return [describeLeverProofFinding(score, 'levers-not-told', {}, { place, fixes: [], advice })];
};

/** What a lever is set for, by one of the markings of its part. */
const leverAt = ({ string }: StringPart, { tuning }: LeverProofFacts, position: number): LeverAt => ({
  string,
  alter: alterWith(tuning, string, position),
});

const failureFinding = (failure: Failure, part: StringPart, facts: LeverProofFacts): LeverProofFinding => {
  const { score, fixesFor } = facts;
  const { wanted, needs, stands, marking, landedIn, whileHeld, faults } = failure;
  const [need] = needs;
  const rival = part.rivalOf(need);
  const isHeld = whileHeld && marking > 0;
  const isLanding = !whileHeld && landedIn !== null && part.played.wasMet(need);
  return describeLeverProofFinding(
    score,
    'lever-note-not-served',
    {
      pitch: need.note.pitch,
      isOfOrnament: need.kind === 'implied',
      isHeld,
      needed: leverAt(part, facts, wanted),
      stands: leverAt(part, facts, stands),
      markingPlace: marking === 0 ? null : placeOfLeverWords(score, marking - 1),
      landingBar: isLanding ? nameBarIn(score)(landedIn) : null,
      passes: isHeld || isLanding ? [] : passesOf(failure, score),
    },
    {
      needs,
      ...(isHeld ? { place: score.leverWords[marking - 1]! } : {}),
      fixes: fixesFor(part.step, faults, need.onset),
      advice:
        rival === undefined
          ? []
          : [{ kind: 'lever-against-lever', facts: { rival: leverAt(part, facts, rival.position) } }],
    },
  );
};

const passesOf = ({ needs, passes }: Failure, { playOrder }: Score): readonly number[] => {
  const { bar } = needs[0]!.note;
  const played = playOrder.filter((each) => each === bar).length;
  return played < 2 || passes.length === played ? [] : passes;
};

const contradictionFindings = (part: StringPart, facts: LeverProofFacts): readonly LeverProofFinding[] => {
  const { letter } = part.string;
  return listContradictions(part.score, [letter])
    .filter(({ first }) => first > 0)
    .map(({ first, second }) => {
      const said = (index: number): LeverAt =>
        leverAt(part, facts, part.score.markings[index]!.positions[letter]!);
      const words = facts.score.leverWords[second - 1]!;
      const keys = [...part.trials.before(null).faults.keys()].filter((key) =>
        key.startsWith('two markings'),
      );
      return describeLeverProofFinding(
        facts.score,
        'lever-markings-contradict',
        { first: said(first), second: said(second) },
        { place: words, fixes: facts.fixesFor(part.step, keys, words.at) },
      );
    });
};

const needlessFindings = (part: StringPart, facts: LeverProofFacts): readonly LeverProofFinding[] =>
  listNeedlessLevers(part, facts.stated).map(({ marking, why }) => {
    const position = part.score.markings[marking]!.positions[part.string.letter]!;
    return describeLeverProofFinding(
      facts.score,
      'lever-marking-needless',
      { change: leverAt(part, facts, position), why },
      { place: facts.score.leverWords[marking - 1]!, fixes: facts.fixesForNeedless(part, marking) },
    );
  });

const troubleFindings = (facts: LeverProofFacts): readonly LeverProofFinding[] => {
  const seen = new Set<string>();
  return facts.troubles.flatMap((trouble) => {
    const { step, task, why } = trouble;
    const key = `${step} ${task.marking}`;
    if (seen.has(key)) return [];
    seen.add(key);
    const part = facts.parts.find((each) => each.step === step)!;
    const { note, onset } = task.before;
    return [
      describeLeverProofFinding(
        facts.score,
        'lever-marking-without-time',
        {
          change: leverAt(part, facts, task.to),
          pitch: note.pitch,
          barName: nameBarIn(facts.score)(note.bar),
          why,
        },
        {
          needs: [task.before],
          place:
            task.marking === 0 ? { bar: note.bar, at: onset } : facts.score.leverWords[task.marking - 1]!,
          fixes: facts.fixesFor(step, [troubleKey(trouble)], onset),
          advice: [{ kind: 'omit-or-wait', facts: {} }],
        },
      ),
    ];
  });
};

const UNEASE_CODES = {
  bends: 'lever-marking-bends-string',
  late: 'lever-marking-late',
  early: 'lever-marking-early',
} as const;

/** While hands play, who reads the part sets a lever as soon as one is free: that it could be written there is no finding. */
const uneasyFindings = (facts: LeverProofFacts): readonly LeverProofFinding[] =>
  facts.uneasy.flatMap(({ part, task, why, note, fix }) =>
    why === 'busy'
      ? []
      : [
          describeLeverProofFinding(
            facts.score,
            UNEASE_CODES[why],
            { change: leverAt(part, facts, task.to), pitch: note.note.pitch },
            { needs: [task.before], place: facts.score.leverWords[task.marking - 1]!, fixes: [fix] },
          ),
        ],
  );
