import type { FactsOf, ProofFindingCode } from '../findings/catalogue.ts';
import { describeFinding } from '../findings/describe-finding.ts';
import { formatChange, type Position } from '../harp/setting.ts';
import { LETTERS, pitchName } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Score } from '../score/model.ts';
import { type Need, otherStrings } from '../sounding/needs.ts';
import { describeMends, placeOfMarking } from './describe-mend.ts';
import { type Contradiction, listNeedless } from './marking-faults.ts';
import type { Mender } from './mending.ts';
import type { Mend, ProofFinding } from './model.ts';
import type { Failure, PedalTask, Performance } from './played.ts';

/** What the findings of a proof are told from. */
export interface ProofFacts {
  readonly score: Score;
  readonly performance: Performance;
  /** Changes that come too late for their foot. */
  readonly late: readonly { readonly task: PedalTask; readonly lateSeconds: number }[];
  readonly contradictions: readonly Contradiction[];
  readonly mender: Mender;
}

/** All findings in order of place. */
export const listProofFindings = (facts: ProofFacts): ProofFinding[] =>
  [
    ...unstatedFindings(facts),
    ...facts.performance.failures.map((failure) => failureFinding(failure, facts)),
    ...lateFindings(facts),
    ...contradictionFindings(facts),
    ...needlessFindings(facts),
    ...sweepFindings(facts),
  ]
    .map((finding) => adviseWhereGivenUp(finding, facts))
    .sort((a, b) => a.bar - b.bar || compare(a.beat, b.beat));

/** Where the search for mends has ended early, what has none says so. */
const adviseWhereGivenUp = (finding: ProofFinding, { mender }: ProofFacts): ProofFinding =>
  finding.mend === null && mender.hasGivenUp() && finding.code !== 'glissando-unlike-key'
    ? { ...finding, suggestions: [...finding.suggestions, GIVEN_UP] }
    : finding;

const GIVEN_UP =
  'So much is wrong that not every mend was tried: mend what is told with one, then proofread again.';

/** Where a finding is, and how to fix it. */
interface ProofContext {
  readonly needs?: readonly Need[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  /** Made together; none where nothing mends it. */
  readonly mends: readonly Mend[];
  readonly also?: string | null;
}

export const describeProofFinding = <Code extends ProofFindingCode>(
  score: Score,
  code: Code,
  facts: FactsOf<Code>,
  { needs = [], place, mends, also = null }: ProofContext,
): ProofFinding => {
  const [mend = null, ...besides] = mends;
  const { mends: _, ...finding } = describeFinding(score, code, facts, {
    notes: needs.map(({ note }) => note),
    ...(place === undefined ? {} : { place }),
    suggestions: [describeMends(score, mends), also ?? ''],
  });
  return { ...finding, mend, besides };
};

const unstatedFindings = ({ score, performance, mender }: ProofFacts): ProofFinding[] => {
  const { unstated } = performance;
  const [first] = unstated;
  if (first === undefined) return [];
  const letters = LETTERS.filter((letter) => unstated.some((need) => need.letter === letter));
  return [
    describeProofFinding(
      score,
      'notes-before-marking',
      { letters },
      { needs: unstated, mends: mender.mendStart() },
    ),
  ];
};

const failureFinding = (failure: Failure, { score, performance, mender }: ProofFacts): ProofFinding => {
  const { letter, wanted, needs, stands, marking, landedIn, whileHeld } = failure;
  const [need] = needs as readonly [Need, ...Need[]];
  const context: ProofContext = {
    needs,
    mends: mender.mendFailure(failure),
    also: adviceFor(need, wanted, mender),
  };
  const facts = {
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
      { ...facts, isHeld: true, passes: [] },
      { ...context, place: { bar, at } },
    );
  }
  if (landedIn !== null && performance.wasServed(need)) {
    const landingBar = score.bars[landedIn]?.number ?? '';
    return describeProofFinding(score, 'repeat-lands-wrong', { ...facts, landingBar }, context);
  }
  const passes = passesOf(failure, score);
  return describeProofFinding(score, 'note-not-served', { ...facts, isHeld: false, passes }, context);
};

/** Which passes, where the bar is played more than once; none where it is all of them. */
const passesOf = ({ needs, passes }: Failure, score: Score): readonly number[] => {
  const { bar } = needs[0]!.note;
  const played = score.playOrder.filter((each) => each === bar).length;
  return played < 2 || passes.length === played ? [] : passes;
};

const adviceFor = (need: Need, wanted: Position, mender: Mender): string | null => {
  const rival = mender.rivalOf(need);
  if (rival === undefined) return null;
  const other = otherStrings({ letter: need.letter, octave: need.octave, alter: wanted })[0];
  const against = formatChange(rival.letter, rival.position);
  const way = other === undefined ? 'leave it out' : `play it as ${pitchName(other)}`;
  return `No marking can serve it beside ${against} at the same time: ${way}, or give it to a second harp.`;
};

const lateFindings = ({ score, late, mender }: ProofFacts): ProofFinding[] => {
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
          bar: score.bars[before.note.bar]!.number,
          lateSeconds,
        },
        {
          needs: [before],
          place: { bar, at },
          mends: mender.mendLate(task),
          also: 'Or respell one of the notes, or take more time here.',
        },
      ),
    ];
  });
};

const contradictionFindings = ({ score, contradictions, mender }: ProofFacts): ProofFinding[] =>
  contradictions.map((contradiction) => {
    const { letter, first, second } = contradiction;
    const statedBy = (index: number) => ({ letter, position: score.markings[index]!.positions[letter]! });
    return describeProofFinding(
      score,
      'markings-contradict',
      { first: statedBy(first), second: statedBy(second) },
      { place: score.markings[second]!, mends: mender.mendContradiction(contradiction) },
    );
  });

/** What a contradiction tells already is not told again as needless. */
const needlessFindings = ({ score, performance, contradictions, mender }: ProofFacts): ProofFinding[] => {
  const disputed = new Set(
    contradictions.flatMap(({ letter, first, second }) => [`${first} ${letter}`, `${second} ${letter}`]),
  );
  return listNeedless(score, performance)
    .filter(({ marking, letter }) => !disputed.has(`${marking} ${letter}`))
    .map(({ marking: index, letter, why }) => {
      const marking = score.markings[index]!;
      return describeProofFinding(
        score,
        'marking-needless',
        { change: { letter, position: marking.positions[letter]! }, why },
        { place: marking, mends: mender.mendNeedless(index, letter) },
      );
    });
};

const sweepFindings = ({ score, performance }: ProofFacts): ProofFinding[] => {
  const bySweep = new Map<string, (readonly [Need, Position])[]>();
  for (const entry of performance.unlikeKey) {
    const { id } = entry[0].note;
    bySweep.set(id, [...(bySweep.get(id) ?? []), entry]);
  }
  return [...bySweep.values()].map((strings) =>
    describeProofFinding(
      score,
      'glissando-unlike-key',
      {
        sounding: strings.map(([{ letter }, position]) => ({ letter, position })),
        expected: strings.map(([need]) => need),
      },
      { needs: strings.map(([need]) => need), mends: [] },
    ),
  );
};
