import { tell } from '../../findings/describe-finding.ts';
import { guessedSweeps } from '../../findings/guessed-sweeps.ts';
import type { HandPart, handFindings } from '../../findings/hand-findings.ts';
import { formatChange } from '../../harp/setting.ts';
import { LETTERS } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import { createRivalSearch } from '../../sounding/rivals.ts';
import type { PlacedMove } from '../course/foot.ts';
import type { Solution } from '../course/solve.ts';
import type { FixedTuning } from '../fixed-string-tuning.ts';
import type { Finding, Mend } from '../model.ts';
import type { FeetProblem, PreparedScore } from '../prepared.ts';
import { type findMends, needsAroundMove } from './mending.ts';
import { pinFindings } from './pin-findings.ts';
import { scordaturaFindings, withoutRetunedStrings } from './scordatura-findings.ts';
import { stringFindings } from './string-findings.ts';

/** What the planner knows when it tells its findings. */
export interface PlanFacts {
  readonly prepared: PreparedScore;
  readonly problem: FeetProblem;
  readonly solution: Solution;
  readonly fixed: FixedTuning;
  /** How mends and the findings about the hands are found. */
  readonly findMends: typeof findMends;
  readonly handFindings: typeof handFindings;
}

/** Everything the player, engraver or composer should know, in order of place. */
export const findingsOf = (facts: PlanFacts): Finding[] =>
  [
    ...clashFindings(facts),
    ...moveFindings(facts),
    ...stringFindings(facts.prepared, facts.problem.listed, facts.fixed),
    ...sweepFindings(facts),
    ...pinFindings(facts.prepared, facts.problem, facts.solution),
    ...facts.handFindings(handPart(facts), timeOf(facts)),
    ...markingFindings(facts),
    ...keyFindings(facts),
    ...scordaturaFindings(facts.prepared, facts.problem.listed),
  ]
    .map((finding) => withoutRetunedStrings(finding, facts.prepared.options.scordatura))
    .sort((a, b) => a.bar - b.bar || compare(a.beat, b.beat));

/** What the hands play: the strings that the plan chose, without the notes left out. */
const handPart = ({ prepared: { score, options }, problem }: PlanFacts): HandPart => ({
  score,
  played: new Map(problem.listed.respellings.map(({ note, to }) => [note, to])),
  leftOut: options.leftOut,
});

/** Nothing but what the hands go by, so that other choices leave it alike. */
const timeOf = ({ prepared: { moments, secondsAt } }: PlanFacts) => ({ moments, secondsAt });

const clashFindings = ({ prepared, problem, solution, findMends }: PlanFacts): Finding[] => {
  const rivalOf = createRivalSearch(problem.listed.needs, prepared.moments);
  return solution.unserved.map((need) => {
    const { score, moments } = prepared;
    const rival = rivalOf(need);
    const oneString = rival?.octave === need.octave;
    const wanted = formatChange(need.letter, need.position);
    const against = rival === undefined ? '' : ` and ${formatChange(rival.letter, rival.position)}`;
    const about = rival === undefined ? [need] : [need, rival];
    const mends = findMends(problem, about, moments.ofNote(need.first), score);
    return tell(score, {
      code: oneString ? 'string-in-two-pitches' : 'pedal-in-two-positions',
      severity: 'stop',
      notes: about.map((each) => each.note),
      sentence: oneString
        ? `The string ${need.letter}${need.octave} is asked for ${wanted}${against} at once.`
        : `The ${need.letter} pedal is asked for ${wanted}${against} at once; it moves every ${need.letter} string.`,
      suggestions: [...sentencesOf(mends), 'Or give one of the notes to a second harp.'],
      mends,
    });
  });
};

const sentencesOf = (mends: readonly Mend[]): string[] => mends.map(({ sentence }) => sentence);

const moveFindings = (facts: PlanFacts): Finding[] =>
  facts.solution.moves.flatMap((move) => [
    ...footFindings(facts, move),
    ...ringingFindings(facts, move),
    ...restoringFindings(facts, move),
  ]);

/** What all findings about a move share. */
const aboutMove = ({ prepared }: PlanFacts, move: PlacedMove) => {
  const { bar, at } = prepared.moments.all[move.moment]!;
  return { notes: move.before === null ? [] : [move.before.note], place: { bar, at } };
};

const footFindings = (facts: PlanFacts, move: PlacedMove): Finding[] => {
  const { score } = facts.prepared;
  const change = formatChange(move.letter, move.to);
  const about = aboutMove(facts, move);
  if (move.manner === 'alone') return [];
  const mends = mendsOfMove(facts, move);
  switch (move.manner) {
    case 'too-soon':
      return [
        tell(score, {
          ...about,
          code: 'foot-too-busy',
          severity: 'stop',
          sentence: `The ${move.foot} foot has no time for ${change}: it moves ${pedalBefore(facts, move)} too shortly before.`,
          suggestions: [...sentencesOf(mends), 'Or take more time here, or give a note to a second harp.'],
          mends,
        }),
      ];
    case 'together':
      return [
        tell(score, {
          ...about,
          code: 'pedals-together',
          severity: 'warn',
          sentence: `The ${move.foot} foot takes ${change} together with the pedal beside it.`,
          suggestions: [...sentencesOf(mends), 'Or take more time here.'],
          mends,
        }),
      ];
    case 'crossed':
      return [
        tell(score, {
          ...about,
          code: 'foot-crossed',
          severity: 'warn',
          sentence: `The ${move.foot} foot crosses over for ${change}, since the other foot has no time.`,
          suggestions: [...sentencesOf(mends), 'Or take more time here.'],
          mends,
        }),
      ];
  }
};

/** What the foot moved last, in printed order. */
const pedalBefore = ({ solution }: PlanFacts, move: PlacedMove): string => {
  const last = solution.moves.findLast(({ foot, moment }) => foot === move.foot && moment < move.moment);
  return last?.letter === move.letter ? 'the same pedal' : 'another pedal';
};

/** What would spare the foot its trouble: the place is judged as if no last resort could be taken. */
const mendsOfMove = ({ prepared, problem, solution, findMends }: PlanFacts, move: PlacedMove): Mend[] => {
  const strict = { ...problem, stage: { ...problem.stage, together: false } };
  return findMends(strict, needsAroundMove(solution, move, problem.stage), move.moment, prepared.score);
};

const ringingFindings = (facts: PlanFacts, move: PlacedMove): Finding[] => {
  if (!move.cost.some((term) => term.name === 'stringSounding')) return [];
  const { notes, place } = aboutMove(facts, move);
  return [
    tell(facts.prepared.score, {
      code: 'ringing-string-moved',
      severity: 'warn',
      notes: move.after === null ? notes : [move.after.note, ...notes],
      place,
      sentence: `${formatChange(move.letter, move.to)} must be set while a ${move.letter} string still sounds.`,
      suggestions: [`Damp or shorten the ${move.letter} before the change.`],
    }),
  ];
};

const restoringFindings = (facts: PlanFacts, move: PlacedMove): Finding[] =>
  move.restores
    ? [
        tell(facts.prepared.score, {
          ...aboutMove(facts, move),
          code: 'repeat-restored',
          severity: 'note',
          sentence: `${formatChange(move.letter, move.to)} is set again for the music that comes back to this bar with the pedal elsewhere.`,
          suggestions: [],
        }),
      ]
    : [];

const sweepFindings = ({ prepared: { score, sweeps, options } }: PlanFacts): Finding[] =>
  guessedSweeps(score, sweeps, options.leftOut, 'setting').map((told) => tell(score, told));

const FLAT_TWIN: Readonly<Record<number, string>> = { 5: 'C♭ major', 6: 'G♭ major', 7: 'D♭ major' };

/** Pedals up leave the strings longest: flat keys ring fuller (H. Berlioz, *Traité d'instrumentation*, La Harpe: B major as C flat major). */
const keyFindings = ({ prepared: { score } }: PlanFacts): Finding[] =>
  score.bars.flatMap((bar, i) => {
    const twin = FLAT_TWIN[bar.keyFifths];
    if (twin === undefined || (i > 0 && score.bars[i - 1]!.keyFifths === bar.keyFifths)) return [];
    return [
      tell(score, {
        code: 'flat-key-rings-fuller',
        severity: 'note',
        notes: [],
        place: { bar: bar.index, at: bar.onset },
        sentence: `With ${bar.keyFifths} sharps in the key signature from here the strings are at their shortest; ${twin} sounds the same and rings fuller.`,
        suggestions: [`Write the harp in ${twin}, or its relative minor.`],
      }),
    ];
  });

/** Markings in the file that the next note of their letter contradicts. */
const markingFindings = ({ prepared: { score }, problem }: PlanFacts): Finding[] =>
  score.markings.flatMap((marking, i) =>
    LETTERS.flatMap((letter) => {
      const stated = marking.positions[letter];
      if (stated === undefined) return [];
      const following = score.markings.slice(i + 1).find((each) => each.positions[letter] !== undefined);
      const next = problem.needs.get(letter)!.find(({ need }) => compare(need.onset, marking.at) >= 0)?.need;
      if (next === undefined || next.position === stated) return [];
      if (following !== undefined && compare(following.at, next.onset) <= 0) return [];
      return [
        tell(score, {
          code: 'marking-contradicts-notes',
          severity: 'warn',
          notes: [next.note],
          place: { bar: marking.bar, at: marking.at },
          sentence: `The file marks ${formatChange(letter, stated)}, but the next ${letter} (bar ${score.bars[next.note.bar]!.number}) is ${formatChange(letter, next.position)}.`,
          suggestions: [`Mark ${formatChange(letter, next.position)}.`],
        }),
      ];
    }),
  );
