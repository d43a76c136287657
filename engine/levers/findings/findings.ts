import type { LeverFindingCode } from '../../findings/catalogue.ts';
import { describeAtEach, describeFinding, withoutFixes } from '../../findings/describe-finding.ts';
import { draftGuessedGlissandi } from '../../findings/guessed-glissandi.ts';
import { handFindings } from '../../findings/hands/hand-findings.ts';
import { type Help, help } from '../../findings/help/help.ts';
import { moveIntoRange } from '../../findings/help/into-range.ts';
import { hurriedPassages } from '../../findings/hurried-passages.ts';
import { joinFindings } from '../../findings/join-findings.ts';
import type { LeverFinding } from '../../findings/model.ts';
import { noteFix } from '../../findings/model.ts';
import type { SpelledNote } from '../../findings/note-names.ts';
import { orderByPlace } from '../../findings/order-findings.ts';
import { ornamentNotesOf } from '../../findings/ornament-notes.ts';
import { sharedPartFindings } from '../../findings/shared-part.ts';
import { group } from '../../group.ts';
import { type OpenTuning, openAlter, retunedLetters } from '../../harp/open-tuning.ts';
import { rangeOf } from '../../harp/profile.ts';
import { type Pitch, spelledName, stepOf } from '../../music/pitch.ts';
import { rationalKey } from '../../music/rational.ts';
import { mapNonEmpty, type NonEmpty } from '../../non-empty.ts';
import { createRivalSearch } from '../../sounding/rival-needs.ts';
import type { LeverContext } from '../context.ts';
import type { LeverSolution } from '../course/solve.ts';
import type { LeverProblem } from '../problem.ts';
import type { PitchNeed } from '../strings/asked.ts';
import { type LeverNeed, leverFor, listRespellings, otherLeverStrings } from '../strings/strings.ts';
import { keyTunings } from '../tuning/tunings.ts';
import { changeFindings, type SolvedTuningSummary } from './change-findings.ts';
import { changesOfHands, HURRY_OF_HANDS } from './hurried-hands.ts';
import { leverPinFindings } from './pin-findings.ts';
import { respellingFindings } from './respelling-findings.ts';

/** What the planner knows when it tells its findings. */
export interface LeverFacts {
  readonly stage: LeverContext;
  readonly problem: LeverProblem;
  readonly solution: LeverSolution;
  /** Tunings with fewer stops than this one, as they were solved, the best first. */
  readonly better: readonly SolvedTuningSummary[];
  /** Whether every tuning that might have fewer was tried. */
  readonly allTried: boolean;
}

/** Everything the player, engraver or composer should know about the levers, in order of place. */
export const leverFindings = (facts: LeverFacts): LeverFinding[] => {
  const told = joinFindings<LeverFindingCode>([
    ...sharedPartFindings(facts.stage.score),
    ...tuningFindings(facts),
    ...missingPitches(facts),
    ...respellingFindings(facts.stage.score, facts.problem.chosen),
    ...clashFindings(facts),
    ...facts.solution.changes.flatMap((change) => changeFindings(facts, change)),
    ...leverPinFindings(facts.stage, facts.problem, facts.solution),
    ...octaveFindings(facts),
    ...sweepFindings(facts),
    ...playingFindings(facts),
  ]);
  const { stage, problem, solution } = facts;
  const changes = changesOfHands(stage, problem, solution.changes);
  return orderByPlace([...told, ...hurriedPassages(stage.score, changes, told, HURRY_OF_HANDS)]);
};

const tuningFindings = ({ stage: context, problem }: LeverFacts): LeverFinding[] => {
  const { profile } = context.options;
  const strings = problem.strings.filter(
    ({ string }) => openAlter(profile.tuning, string) !== openAlter(problem.tuning, string),
  );
  if (strings.length === 0) return [];
  const letters = retunedLetters(profile.tuning, problem.tuning).filter((letter) =>
    strings.some(({ string }) => string.letter === letter),
  );
  const changes = letters.map((letter) => ({ letter, position: problem.tuning.letters[letter] }));
  return [
    describeFinding(
      context.score,
      'strings-to-retune',
      { tuning: problem.tuning, usual: profile.tuning, changes },
      { place: 'start' },
    ),
  ];
};

const missingPitches = (facts: LeverFacts): LeverFinding[] => {
  const { score } = facts.stage;
  const { outOfRange, microtones, notInTuning } = facts.problem.chosen;
  const range = rangeOf(facts.stage.options.profile);
  return [
    ...groupByName(notInTuning).map((group) => missingInTuning(facts, group)),
    ...outOfRange.map((asked) =>
      describeFinding(
        score,
        'out-of-range',
        {
          pitch: asked.pitch,
          range,
          ofOrnaments: ornamentNotesOf([asked]),
        },
        {
          notes: [asked.note],
          help: [help('into-range', { pitch: asked.pitch, to: moveIntoRange(asked.pitch, range) })],
        },
      ),
    ),
    ...microtones.map(({ note, pitch }) =>
      describeFinding(
        score,
        'quarter-tone',
        { pitch, harp: 'lever' },
        { notes: [note], help: [help('replace-note', {})] },
      ),
    ),
  ];
};

const spelledNote = ({ pitch: { letter, alter } }: PitchNeed): SpelledNote => ({ letter, alter });

const nameNeed = (need: PitchNeed): string => spelledName(spelledNote(need));

const groupByName = (asked: readonly PitchNeed[]): NonEmpty<PitchNeed>[] => [
  ...group(asked, nameNeed).values(),
];

/** One finding for all notes of one name: what is amiss is the tuning. */
const missingInTuning = (facts: LeverFacts, alike: NonEmpty<PitchNeed>): LeverFinding => {
  const { stage, problem } = facts;
  return describeAtEach(
    stage.score,
    'no-string-in-tuning',
    { note: spelledNote(alike[0]), tuning: problem.tuning, notes: alike.length },
    {
      notes: mapNonEmpty(alike, ({ note }) => note),
      help: helpInTuning(facts, alike),
    },
  );
};

/** Another tuning for notes that this one lacks, where it leaves less that cannot be played on the whole. */
const helpInTuning = (
  { stage, better, allTried }: LeverFacts,
  alike: NonEmpty<PitchNeed>,
): readonly Help[] => {
  const isGiven = (pitch: Pitch, tuning: OpenTuning): boolean =>
    [pitch, ...otherLeverStrings(pitch)].some(
      (each) => leverFor(each, tuning, stage.options.profile) !== null,
    );
  const serves = (tuning: OpenTuning): boolean => alike.every(({ pitch }) => isGiven(pitch, tuning));
  const note = spelledNote(alike[0]);
  const serving = better.find(({ cost }) => serves(cost.tuning));
  if (serving !== undefined) {
    const { cost, stops, solution } = serving;
    const { tuning, missingNotes } = cost;
    const changes = solution.changes.length;
    const facts = { tuning, missingNotes, changes, withoutTime: stops - missingNotes };
    return [help('tune-to-play', facts), help('or-leave-out', {})];
  }
  const inSome = keyTunings(stage).some(serves);
  // Of a search that was ended nothing is known; and what is better without these notes does not help them.
  if (inSome && (!allTried || better.length > 0)) return [help('leave-note-out', {})];
  return [help('no-tuning-helps', { note, isGiven: inSome }), help('or-leave-out', {})];
};

const pitchOf = ({ letter, octave, alter }: LeverNeed): Pitch => ({ letter, octave, alter });

const clashFindings = ({ stage: { score, moments }, problem, solution }: LeverFacts): LeverFinding[] => {
  const rivalOf = createRivalSearch(problem.chosen.needs, moments, stepOf);
  return solution.unmet.map((need) => {
    const rival = rivalOf(need);
    const about: NonEmpty<LeverNeed> = rival === undefined ? [need] : [need, rival];
    return describeFinding(
      score,
      'string-in-two-pitches',
      {
        string: { letter: need.letter, octave: need.octave },
        rivals: about.map(pitchOf),
        ofOrnaments: ornamentNotesOf(about.map((each) => ({ ...each, pitch: pitchOf(each) }))),
      },
      {
        notes: mapNonEmpty(about, ({ note }) => note),
        fixes: omitNoteFix(need),
        help: [help(LEAVE_ONE_OUT.kind, LEAVE_ONE_OUT.facts)],
      },
    );
  });
};

/** A fix where it is a note of its own; of a glissando no string can be left out. */
const LEAVE_ONE_OUT = { kind: 'leave-one-out', facts: {} } as const;

const omitNoteFix = (need: LeverNeed): LeverFinding['fixes'] =>
  need.kind === 'plucked'
    ? [noteFix(LEAVE_ONE_OUT, [{ kind: 'omit', note: need.note.id, from: need.note.pitch }])]
    : [];

/** Where one letter has two accidentals in two octaves at once: a lever harp can do it, a pedal harp cannot. */
const octaveFindings = ({ stage: { score }, problem }: LeverFacts): LeverFinding[] => {
  const told = new Set<string>();
  const plucked = problem.chosen.needs.filter(({ kind }) => kind !== 'swept');
  const byMoment = group(plucked, ({ onset, letter }) => `${rationalKey(onset)} ${letter}`);
  return [...byMoment.values()].flatMap((needs) => {
    const [first] = needs;
    const other = needs.find((need) => need.octave !== first.octave && need.alter !== first.alter);
    const place = `${first.note.bar} ${first.letter}`;
    if (other === undefined || told.has(place)) return [];
    told.add(place);
    return [
      describeFinding(
        score,
        'octaves-differ',
        { pitches: [first, other] },
        { notes: [first.note, other.note] },
      ),
    ];
  });
};

const sweepFindings = ({ stage: { score, sweeps, options } }: LeverFacts): LeverFinding[] =>
  draftGuessedGlissandi(score, sweeps, options.omitted, 'notes');

/** What the hands cannot do on any harp; respelling, which fixes it on the pedal harp, is no help here. */
const playingFindings = ({ stage: context, problem }: LeverFacts): LeverFinding[] =>
  handFindings(
    {
      score: context.score,
      played: new Map(listRespellings(problem.chosen).map(({ note, to }) => [note, to])),
      omitted: context.options.omitted,
    },
    context,
  ).map((finding) => withoutFixes(finding, ({ kind }) => kind === 'respell'));
