import { FINDINGS } from '../findings/catalogue.ts';
import { pedalAt } from '../findings/note-names.ts';
import { orderByPlace } from '../findings/order-findings.ts';
import { group } from '../group.ts';
import type { Position } from '../harp/setting.ts';
import { LETTERS } from '../music/pitch.ts';
import { isNonEmpty, mapNonEmpty } from '../non-empty.ts';
import type { Score } from '../score/model/score.ts';
import { quoteWords } from '../score/words/pedal-words.ts';
import { type Need, otherStrings } from '../sounding/needs.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { type Advice, describeAdvice } from './advice.ts';
import type { UneasyMarking } from './comfort.ts';
import { describeFixes, placeOfMarking } from './describe-fixes.ts';
import { type Contradiction, contradictionKey } from './marking-faults.ts';
import type { Failure, MarkingPlayback, PedalTask } from './marking-playback.ts';
import type { MarkingFix, ProofFinding } from './model.ts';
import type { NeedlessMarking } from './needless.ts';
import { describingWith, type ProofContext } from './proof-finding.ts';
import type { EditsFor } from './repair/assign-edits.ts';
import { lateKey } from './trials.ts';

/** What the findings of a proof are told from. */
export interface ProofFacts {
  readonly score: Score;
  readonly performance: MarkingPlayback;
  /** Changes that come too late for their foot. */
  readonly late: readonly { readonly task: PedalTask; readonly lateSeconds: number }[];
  readonly contradictions: readonly Contradiction[];
  readonly needless: readonly NeedlessMarking[];
  readonly uneasy: readonly UneasyMarking[];
  readonly editsFor: EditsFor;
  /** Changes that the repair adds. */
  readonly additions: readonly MarkingFix[];
  /** So much is wrong that not everything was tried. */
  readonly hasGivenUp: boolean;
  /** Another note that needs the pedal elsewhere at the same time. */
  readonly rivalOf: (need: Need) => Need | undefined;
}

/** All findings in order of place. */
export const listProofFindings = (facts: ProofFacts): ProofFinding[] =>
  orderByPlace([
    ...listUnreadFindings(facts.score, facts.additions),
    ...unstatedFindings(facts),
    ...facts.performance.failures.map((failure) => failureFinding(failure, facts)),
    ...lateFindings(facts),
    ...contradictionFindings(facts),
    ...needlessFindings(facts),
    ...uneasyFindings(facts),
    ...sweepFindings(facts),
  ]).map((finding) => adviseWhereGivenUp(finding, facts));

/** Where the search for fixes has ended early, what has none says so. */
const adviseWhereGivenUp = (finding: ProofFinding, { hasGivenUp }: ProofFacts): ProofFinding =>
  finding.fix === null && hasGivenUp && FINDINGS[finding.code].fixSought
    ? withAdvice(finding, { kind: 'too-many-mistakes', facts: {} })
    : finding;

const withAdvice = (finding: ProofFinding, advice: Advice): ProofFinding => ({
  ...finding,
  advice: [...finding.advice, advice],
  suggestions: [...finding.suggestions, describeAdvice(advice)],
});

export const describeProofFinding = describingWith(describeFixes);

/** Words that may be meant as a marking; where one is missing near them, what they may have to say. */
export const listUnreadFindings = (
  score: Score,
  additions: readonly MarkingFix[] = [],
): readonly ProofFinding[] =>
  score.unreadWords.map((words) => {
    const changes = additions.flatMap((fix) =>
      fix.kind === 'add' && fix.bar === words.bar ? [pedalAt(fix)] : [],
    );
    const advice: Advice =
      changes.length === 0
        ? { kind: 'name-pedals', facts: {} }
        : { kind: 'print-missing', facts: { changes } };
    return describeProofFinding(
      score,
      'words-not-understood',
      { words: quoteWords(words.text) },
      { place: words, fixes: [], advice: [advice] },
    );
  });

const unstatedFindings = ({ score, performance, editsFor }: ProofFacts): ProofFinding[] => {
  const { unstated } = performance;
  if (!isNonEmpty(unstated)) return [];
  const faults = [...performance.needFaults]
    .filter(([, { need }]) => unstated.includes(need))
    .map(([key]) => key);
  const letters = LETTERS.filter((letter) => unstated.some((need) => need.letter === letter));
  return [
    describeProofFinding(
      score,
      'notes-before-marking',
      { letters },
      { needs: unstated, fixes: editsFor(faults, unstated[0].onset) },
    ),
  ];
};

const failureFinding = (failure: Failure, facts: ProofFacts): ProofFinding => {
  const { score, performance, editsFor } = facts;
  const { letter, wanted, needs, stands, marking, landedIn, whileHeld } = failure;
  const [need] = needs;
  const context: ProofContext<MarkingFix> = {
    needs,
    fixes: editsFor(failure.faults, need.onset),
    advice: adviceFor(need, wanted, facts),
  };
  const told = {
    pitch: need.note.pitch,
    isOfOrnament: need.kind === 'implied',
    needed: { letter, position: wanted },
    stands: { letter, position: stands },
    markingPlace: placeOfMarking(score, marking),
  };
  if (whileHeld) {
    const { bar, at } = score.markings[marking]!;
    return describeProofFinding(
      score,
      'note-not-served',
      { ...told, isHeld: true, passes: [] },
      { ...context, place: { bar, at } },
    );
  }
  if (landedIn !== null && performance.wasMet(need)) {
    const landingBar = nameBarIn(score)(landedIn);
    return describeProofFinding(score, 'repeat-lands-wrong', { ...told, landingBar }, context);
  }
  const passes = passesOf(failure, score);
  return describeProofFinding(score, 'note-not-served', { ...told, isHeld: false, passes }, context);
};

/** Which passes, where the bar is played more than once; none where it is all of them. */
const passesOf = ({ needs, passes }: Failure, score: Score): readonly number[] => {
  const { bar } = needs[0]!.note;
  const played = score.playOrder.filter((each) => each === bar).length;
  return played < 2 || passes.length === played ? [] : passes;
};

const adviceFor = (need: Need, wanted: Position, { rivalOf }: ProofFacts): readonly Advice[] => {
  const rival = rivalOf(need);
  if (rival === undefined) return [];
  const [other = null] = otherStrings({ letter: need.letter, octave: need.octave, alter: wanted });
  return [{ kind: 'note-against-note', facts: { rival: pedalAt(rival), other } }];
};

const lateFindings = ({ score, late, editsFor }: ProofFacts): ProofFinding[] => {
  const seen = new Set<string>();
  return late.flatMap(({ task, lateSeconds }) => {
    const { marking, letter, foot, to, before } = task;
    const key = `${marking} ${letter}`;
    if (seen.has(key)) return [];
    seen.add(key);
    const { bar, at } = score.markings[marking]!;
    return [
      describeProofFinding(
        score,
        'change-too-quick',
        {
          foot,
          change: { letter, position: to },
          pitch: before.note.pitch,
          barName: nameBarIn(score)(before.note.bar),
          lateSeconds,
        },
        {
          needs: [before],
          place: { bar, at },
          fixes: editsFor([lateKey(task)], before.onset),
          advice: [{ kind: 'respell-or-wait', facts: {} }],
        },
      ),
    ];
  });
};

const contradictionFindings = ({
  score,
  performance,
  contradictions,
  editsFor,
}: ProofFacts): ProofFinding[] =>
  contradictions.map((contradiction) => {
    const { letter, first, second } = contradiction;
    const statedBy = (index: number) => ({ letter, position: score.markings[index]!.positions[letter]! });
    const { at } = score.markings[first]!;
    const blamed = performance.failures.filter(
      (failure) => failure.letter === letter && (failure.marking === first || failure.marking === second),
    );
    const faults = [contradictionKey(letter, at), ...blamed.flatMap((failure) => failure.faults)];
    return describeProofFinding(
      score,
      'markings-contradict',
      { first: statedBy(first), second: statedBy(second) },
      { place: score.markings[second]!, fixes: editsFor(faults, at) },
    );
  });

const needlessFindings = ({ score, needless }: ProofFacts): ProofFinding[] =>
  needless.map(({ marking: index, letter, why, fixes }) => {
    const marking = score.markings[index]!;
    return describeProofFinding(
      score,
      'marking-needless',
      { change: { letter, position: marking.positions[letter]! }, why },
      { place: marking, fixes },
    );
  });

const UNEASE_CODES = {
  bends: 'marking-bends-string',
  late: 'marking-late',
  early: 'marking-early',
} as const;

const uneasyFindings = ({ score, uneasy }: ProofFacts): ProofFinding[] =>
  uneasy.map(({ task: { letter, to, marking, before }, why, note, fix }) =>
    describeProofFinding(
      score,
      UNEASE_CODES[why],
      { change: { letter, position: to }, pitch: note.note.pitch },
      { needs: [before], place: score.markings[marking]!, fixes: [fix] },
    ),
  );

const sweepFindings = ({ score, performance }: ProofFacts): ProofFinding[] => {
  const bySweep = group(performance.againstKey, ([{ note }]) => note.id);
  return [...bySweep.values()].map((strings) =>
    describeProofFinding(
      score,
      'glissando-unlike-key',
      {
        sounding: strings.map(([{ letter }, position]) => ({ letter, position })),
        expected: strings.map(([need]) => need),
      },
      { needs: mapNonEmpty(strings, ([need]) => need), fixes: [] },
    ),
  );
};
