import type { FactsOf } from '../../findings/catalogue.ts';
import { describeFinding } from '../../findings/describe-finding.ts';
import { help } from '../../findings/help/help.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { pedalAt } from '../../findings/note-names.ts';
import type { MovePin, Pin } from '../../harp/pin.ts';
import { compare } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import { nameBarIn } from '../../words/bar-names.ts';
import type { PedalSolution } from '../course/solve.ts';
import type { PedalProblem, PreparedScore } from '../pedal-problem.ts';
import { momentOfPin, type PinConflict } from '../pins.ts';

/** Pins that could not be honoured, each with what it runs into. */
export const pinFindings = (
  prepared: PreparedScore,
  problem: PedalProblem,
  solution: PedalSolution,
): PedalFinding[] => [
  ...problem.pinConflicts.map((conflict) => conflictFinding(prepared.score, conflict)),
  ...displacedPins(prepared, problem, solution),
  ...movesInForbiddenSpans(prepared, problem, solution),
];

const movesInForbiddenSpans = (
  { score, moments }: PreparedScore,
  { context }: PedalProblem,
  solution: PedalSolution,
): PedalFinding[] =>
  solution.moves
    .filter((move) => context.forbidden.has(move.moment))
    .map((move) => {
      const { bar, at } = moments.all[move.moment]!;
      const note = move.before?.note;
      const change = { letter: move.letter, position: move.to };
      return describeFinding(
        score,
        'pin-not-honoured',
        { change, why: 'no-moves-here' },
        {
          notes: note === undefined ? [] : [note],
          place: { bar, at },
          help: [help('shorten-quiet-passage', { without: 'moves' })],
        },
      );
    });

/** Moves that are made earlier than where they were fixed: for a note, or since the foot is busy there with another pedal. */
const displacedPins = (
  { score, moments, pins, options }: PreparedScore,
  { needs, pinConflicts }: PedalProblem,
  solution: PedalSolution,
): PedalFinding[] => {
  const fixed = pins
    .filter((pin): pin is MovePin => pin.kind === 'move')
    .map((pin) => ({ pin, wanted: momentOfPin(pin, moments) }));
  const fixedAt = new Set(fixed.map(({ pin, wanted }) => `${pin.letter} ${wanted}`));
  const chosen = new Set<Pin>(options.pins);
  const conflicting = new Set<Pin>(pinConflicts.map(({ pin }) => pin));
  return fixed.flatMap(({ pin, wanted }): PedalFinding | [] => {
    if (conflicting.has(pin)) return [];
    const last = solution.moves.findLast(({ letter, moment }) => letter === pin.letter && moment <= wanted);
    if (last === undefined || last.moment === wanted || last.to !== pin.position) return [];
    const isRepeated = fixedAt.has(`${pin.letter} ${last.moment}`);
    const isNeeded = needs.get(pin.letter)!.some(({ moment }) => moment >= last.moment && moment < wanted);
    // What a file marks again where the pedal stands is a help to the player.
    if (isRepeated || (isNeeded && !chosen.has(pin))) return [];
    const made = moments.all[last.moment]!;
    const context = { place: { bar: made.bar, at: made.at } };
    return isNeeded
      ? describeFinding(
          score,
          'pin-not-honoured',
          { change: pedalAt(pin), why: 'needed-earlier' },
          { ...context, help: [help('move-pin', {})] },
        )
      : describeFinding(
          score,
          'pin-not-honoured',
          { change: pedalAt(pin), why: 'foot-busy', foot: last.foot },
          { ...context, help: [help('pin-elsewhere', {})] },
        );
  });
};

const conflictFinding = (score: Score, conflict: PinConflict): PedalFinding => {
  const { pin, reason } = conflict;
  const at = pin.kind === 'move' ? pin.at : pin.from;
  const bar = score.bars.findLast((each) => compare(each.onset, at) <= 0) ?? score.bars[0]!;
  return describeFinding(score, 'pin-not-honoured', factsOfConflict(score, conflict), {
    notes: reason.kind === 'note' ? [reason.need.note] : [],
    place: { bar: bar.index, at },
    help: [help('move-pin', {})],
  });
};

const factsOfConflict = (score: Score, { pin, reason }: PinConflict): FactsOf<'pin-not-honoured'> => {
  switch (reason.kind) {
    case 'note': {
      const bar = nameBarIn(score)(reason.need.note.bar);
      return { change: pedalAt(pin), why: 'note', needed: pedalAt(reason.need), bar };
    }
    case 'pin':
      return {
        change: pedalAt(pin),
        why: 'fixed-already',
        fixed: { letter: pin.letter, position: reason.position },
      };
    case 'no-moment':
      return { change: pedalAt(pin), why: 'no-moment' };
  }
};
