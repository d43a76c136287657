import { formatChange, type Position } from '../harp/setting.ts';
import { LETTERS, pitchName } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Severity } from '../pedals/model.ts';
import type { Score } from '../score/model.ts';
import { type Need, otherStrings } from '../sounding/needs.ts';
import { beatAt } from '../time/moments.ts';
import { describeMends, placeOfMarking } from './describe-mend.ts';
import { type Contradiction, listNeedless } from './marking-faults.ts';
import type { Mender } from './mending.ts';
import type { Mend, ProofCode, ProofFinding } from './model.ts';
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

interface Told {
  readonly code: ProofCode;
  readonly severity: Severity;
  readonly needs?: readonly Need[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  readonly sentence: string;
  /** Made together; none where nothing mends it. */
  readonly mends: readonly Mend[];
  readonly also?: string | null;
}

export const tellProof = (score: Score, told: Told): ProofFinding => {
  const { code, severity, needs = [], sentence, mends, also = null } = told;
  const first = needs[0]?.note;
  const bar = score.bars[told.place?.bar ?? first?.bar ?? 0]!;
  const [mend = null, ...besides] = mends;
  return {
    code,
    severity,
    bar: bar.index,
    barNumber: bar.number,
    beat: beatAt(bar, told.place?.at ?? first?.onset ?? bar.onset),
    staff: first?.staff ?? null,
    notes: [...new Set(needs.map((need) => need.note.id))],
    sentence,
    suggestions: [describeMends(score, mends), also ?? ''].filter((suggestion) => suggestion !== ''),
    mend,
    besides,
  };
};

const unstatedFindings = ({ score, performance, mender }: ProofFacts): ProofFinding[] => {
  const { unstated } = performance;
  const [first] = unstated;
  if (first === undefined) return [];
  const letters = LETTERS.filter((letter) => unstated.some((need) => need.letter === letter));
  const pedals = letters.length === 1 ? `${letters[0]} pedal stands` : `pedals ${letters.join(' ')} stand`;
  return [
    tellProof(score, {
      code: 'notes-before-marking',
      severity: 'warn',
      needs: unstated,
      sentence: `No marking before says where the ${pedals} from here on.`,
      mends: mender.mendStart(),
    }),
  ];
};

const failureFinding = (failure: Failure, facts: ProofFacts): ProofFinding => {
  const { score, performance, mender } = facts;
  const { letter, wanted, needs, stands, marking, landedIn, whileHeld } = failure;
  const [need] = needs as readonly [Need, ...Need[]];
  const name = `${pitchName(need.note.pitch)}${need.kind === 'implied' ? ' (its ornament)' : ''}`;
  const stood = `${formatChange(letter, stands)} by the marking at ${placeOfMarking(score, marking)}`;
  const asked = `asks for ${formatChange(letter, wanted)}`;
  const also = adviceFor(need, wanted, mender);
  const mends = mender.mendFailure(failure);
  if (whileHeld) {
    const place = { bar: score.markings[marking]!.bar, at: score.markings[marking]!.at };
    const sentence = `${formatChange(letter, stands)} is marked while ${name}, which ${asked}, still goes on.`;
    return tellProof(score, {
      code: 'note-not-served',
      severity: 'stop',
      needs,
      place,
      sentence,
      mends,
      also,
    });
  }
  const isLanding = landedIn !== null && performance.wasServed(need);
  const landing = landedIn === null ? '' : (score.bars[landedIn]?.number ?? '');
  const sentence = isLanding
    ? `When the music comes back to bar ${landing}, ${name} ${asked}, but the pedal stands at ${stood}.`
    : `${name} ${asked}${passesOf(failure, score)}, but the pedal stands at ${stood}.`;
  const code = isLanding ? 'repeat-lands-wrong' : 'note-not-served';
  return tellProof(score, { code, severity: 'stop', needs, sentence, mends, also });
};

/** Which passes, where the bar is played more than once. */
const passesOf = ({ needs, passes }: Failure, score: Score): string => {
  const { bar } = needs[0]!.note;
  const played = score.playOrder.filter((each) => each === bar).length;
  if (played < 2 || passes.length === played) return '';
  return ` on pass ${passes.join(' and ')}`;
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
      tellProof(score, {
        code: 'change-too-quick',
        severity: 'stop',
        needs: [before],
        place: { bar, at },
        sentence: `The ${foot} foot cannot make ${formatChange(letter, to)} in time for ${pitchName(before.note.pitch)} in bar ${score.bars[before.note.bar]!.number}: it lacks ${lateSeconds.toFixed(2)} s after its other change.`,
        mends: mender.mendLate(task),
        also: 'Or respell one of the notes, or take more time here.',
      }),
    ];
  });
};

const contradictionFindings = ({ score, contradictions, mender }: ProofFacts): ProofFinding[] =>
  contradictions.map((contradiction) => {
    const { letter, first, second } = contradiction;
    const [one, other] = [first, second].map((index) =>
      formatChange(letter, score.markings[index]!.positions[letter]!),
    );
    return tellProof(score, {
      code: 'markings-contradict',
      severity: 'stop',
      place: score.markings[second]!,
      sentence: `Two markings here ask for ${one} and ${other}.`,
      mends: mender.mendContradiction(contradiction),
    });
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
      const change = formatChange(letter, marking.positions[letter]!);
      return tellProof(score, {
        code: 'marking-needless',
        severity: 'note',
        place: marking,
        sentence:
          why === 'stands'
            ? `${change} is marked, but the pedal stands there already.`
            : `${change} is marked, but no note asks for it before the pedal moves again.`,
        mends: mender.mendNeedless(index, letter),
      });
    });
};

const sweepFindings = ({ score, performance }: ProofFacts): ProofFinding[] => {
  const bySweep = new Map<string, (readonly [Need, Position])[]>();
  for (const entry of performance.unlikeKey) {
    const { id } = entry[0].note;
    bySweep.set(id, [...(bySweep.get(id) ?? []), entry]);
  }
  return [...bySweep.values()].map((strings) => {
    const sounding = strings.map(([{ letter }, stands]) => formatChange(letter, stands)).join(' ');
    const expected = strings.map(([{ letter, position }]) => formatChange(letter, position)).join(' ');
    return tellProof(score, {
      code: 'glissando-unlike-key',
      severity: 'note',
      needs: strings.map(([need]) => need),
      sentence: `The glissando sounds ${sounding} by the markings; its notes and the key signature say ${expected}.`,
      mends: [],
    });
  });
};
