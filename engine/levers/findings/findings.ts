import { tell, withoutMends } from '../../findings/describe-finding.ts';
import { guessedSweeps } from '../../findings/guessed-sweeps.ts';
import { handFindings } from '../../findings/hand-findings.ts';
import { openAlter, retunedLetters, tuningName } from '../../harp/open-tuning.ts';
import { formatChange } from '../../harp/setting.ts';
import { type Pitch, pitchName, stepOf } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import type { Finding } from '../../pedals/model.ts';
import { createRivalSearch } from '../../sounding/rivals.ts';
import type { LeverSolution } from '../course/solve.ts';
import type { HandFindingCode, LeverFinding, TuningCost } from '../model.ts';
import type { LeverProblem } from '../problem.ts';
import type { LeverStage } from '../stage.ts';
import type { AskedPitch } from '../strings/asked.ts';
import { type LeverNeed, leverFor, neighbouringStrings, playedElsewhere } from '../strings/strings.ts';
import { changeFindings, type OtherTuning } from './change-findings.ts';
import { respellingFindings } from './respelling-findings.ts';

/** What the planner knows when it tells its findings. */
export interface LeverFacts {
  readonly stage: LeverStage;
  readonly problem: LeverProblem;
  readonly solution: LeverSolution;
  /** The chosen tuning first. */
  readonly tunings: readonly TuningCost[];
  /** A tuning in which nothing stops the player, where changes lack time in the one that the user chose. */
  readonly unhindered: OtherTuning | null;
}

/** Everything the player, engraver or composer should know about the levers, in order of place. */
export const leverFindings = (facts: LeverFacts): LeverFinding[] =>
  [
    ...tuningFindings(facts),
    ...missingPitches(facts),
    ...respellingFindings(facts.stage.score, facts.problem.chosen),
    ...clashFindings(facts),
    ...facts.solution.changes.flatMap((change) => changeFindings(facts, change)),
    ...octaveFindings(facts),
    ...sweepFindings(facts),
    ...playingFindings(facts),
  ].sort((a, b) => a.bar - b.bar || compare(a.beat, b.beat));

const tuningFindings = ({ stage, problem }: LeverFacts): LeverFinding[] => {
  const { profile } = stage.options;
  const strings = problem.strings.filter(
    ({ string }) => openAlter(profile.tuning, string) !== openAlter(problem.tuning, string),
  );
  if (strings.length === 0) return [];
  const letters = retunedLetters(profile.tuning, problem.tuning).filter((letter) =>
    strings.some(({ string }) => string.letter === letter),
  );
  const names = letters.map((letter) => formatChange(letter, problem.tuning.letters[letter]));
  return [
    tell(stage.score, {
      code: 'strings-to-retune',
      severity: 'note',
      notes: [],
      sentence: `Tune the open strings to ${tuningName(problem.tuning)} before the piece: ${names.join(', ')} instead of ${tuningName(profile.tuning)}.`,
      suggestions: [],
    }),
  ];
};

const missingPitches = (facts: LeverFacts): LeverFinding[] => {
  const { score } = facts.stage;
  const { outOfRange, microtones, notInTuning } = facts.problem.chosen;
  return [
    ...groupByName(notInTuning).map((group) => missingInTuning(facts, group)),
    ...outOfRange.map(({ note, pitch }) =>
      tell(score, {
        code: 'out-of-range',
        severity: 'stop',
        notes: [note],
        sentence: `${pitchName(pitch)} lies outside the range of this lever harp.`,
        suggestions: ['Play it an octave nearer.'],
      }),
    ),
    ...microtones.map(({ note, pitch }) =>
      tell(score, {
        code: 'quarter-tone',
        severity: 'stop',
        notes: [note],
        sentence: `${pitchName(pitch)} lies between the semitones: no lever gives it.`,
        suggestions: ['Replace the note.'],
      }),
    ),
  ];
};

const spelledName = ({ pitch: { letter, alter } }: AskedPitch): string =>
  pitchName({ letter, alter, octave: 0 }).replace(/0$/, '');

const groupByName = (asked: readonly AskedPitch[]): AskedPitch[][] => {
  const groups = new Map<string, AskedPitch[]>();
  for (const each of asked) {
    const group = groups.get(spelledName(each)) ?? [];
    group.push(each);
    groups.set(spelledName(each), group);
  }
  return [...groups.values()];
};

/** One finding for all notes of one name: what is amiss is the tuning. */
const missingInTuning = (
  { stage: { score, options }, problem, tunings }: LeverFacts,
  group: readonly AskedPitch[],
): LeverFinding => {
  const isGiven = (pitch: Pitch, { tuning }: TuningCost): boolean =>
    [pitch, ...neighbouringStrings(pitch)].some((each) => leverFor(each, tuning, options.profile) !== null);
  const serving = tunings.find((each) => group.every(({ pitch }) => isGiven(pitch, each)));
  const name = spelledName(group[0]!);
  return tell(score, {
    code: 'no-string-in-tuning',
    severity: 'stop',
    notes: [...new Set(group.map(({ note }) => note))],
    sentence: `No string gives ${name} in ${tuningName(problem.tuning)} tuning, lever up or down${group.length > 1 ? ` (${group.length} times)` : ''}.`,
    suggestions: [
      serving === undefined
        ? `No key tuning gives all of these ${name}.`
        : `In ${serving.name} tuning a string gives it; the piece then has ${serving.unserved} notes without a string and ${serving.changes} changes.`,
      'Or leave the note out.',
    ],
  });
};

const clashFindings = ({ stage: { score, moments }, problem, solution }: LeverFacts): LeverFinding[] => {
  const rivalOf = createRivalSearch(problem.chosen.needs, moments, stepOf);
  return solution.unserved.map((need) => {
    const rival = rivalOf(need);
    const against = rival === undefined ? '' : ` and ${pitchName(rival)}`;
    return tell(score, {
      code: 'string-in-two-pitches',
      severity: 'stop',
      notes: rival === undefined ? [need.note] : [need.note, rival.note],
      sentence: `The string ${need.letter}${need.octave} is asked for ${pitchName(need)}${against} at once.`,
      suggestions: ['Leave one of the notes out.'],
      mends: leaveOut(need),
    });
  });
};

const leaveOut = (need: LeverNeed): Finding['mends'] =>
  need.kind === 'plucked'
    ? [
        {
          sentence: 'Leave one of the notes out.',
          changes: [{ kind: 'leave-out', note: need.note.id, from: need.note.pitch }],
        },
      ]
    : [];

/** Where one letter has two accidentals in two octaves at once: a lever harp can do it, a pedal harp cannot. */
const octaveFindings = ({ stage: { score }, problem }: LeverFacts): LeverFinding[] => {
  const told = new Set<string>();
  const byMoment = new Map<string, LeverNeed[]>();
  for (const need of problem.chosen.needs) {
    if (need.kind === 'swept') continue;
    const key = `${need.onset.num}/${need.onset.den} ${need.letter}`;
    const here = byMoment.get(key) ?? [];
    here.push(need);
    byMoment.set(key, here);
  }
  return [...byMoment.values()].flatMap((needs) => {
    const first = needs[0]!;
    const other = needs.find((need) => need.octave !== first.octave && need.alter !== first.alter);
    const place = `${first.note.bar} ${first.letter}`;
    if (other === undefined || told.has(place)) return [];
    told.add(place);
    return [
      tell(score, {
        code: 'octaves-differ',
        severity: 'note',
        notes: [first.note, other.note],
        sentence: `${pitchName(first)} and ${pitchName(other)} sound together: each string has its own lever, but a pedal harp has one pedal for both.`,
        suggestions: [],
      }),
    ];
  });
};

const sweepFindings = ({ stage: { score, sweeps, options } }: LeverFacts): LeverFinding[] =>
  guessedSweeps(score, sweeps, options.leftOut, 'notes').map((told) => tell(score, told));

const HAND_CODES: ReadonlySet<string> = new Set<HandFindingCode>([
  'string-for-both-hands',
  'too-many-notes-in-hand',
  'stretch-too-wide',
  'string-restruck-fast',
  'harmonic-out-of-range',
  'too-many-harmonics',
]);

const isOfHands = (finding: Finding): finding is Finding & { readonly code: HandFindingCode } =>
  HAND_CODES.has(finding.code);

/** What the hands cannot do on any harp; respelling, which mends it on the pedal harp, is no help here. */
const playingFindings = ({ stage, problem }: LeverFacts): LeverFinding[] =>
  handFindings(
    {
      score: stage.score,
      played: new Map(playedElsewhere(problem.chosen).map(({ note, to }) => [note, to])),
      leftOut: stage.options.leftOut,
    },
    stage,
  )
    .filter(isOfHands)
    .map((finding) => withoutMends(finding, ({ kind }) => kind === 'respell'));
