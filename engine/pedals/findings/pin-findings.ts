import { tell } from '../../findings/describe-finding.ts';
import type { MovePin, Pin } from '../../harp/pin.ts';
import { formatChange } from '../../harp/setting.ts';
import { compare } from '../../music/rational.ts';
import type { Score } from '../../score/model.ts';
import type { Solution } from '../course/solve.ts';
import type { Finding } from '../model.ts';
import { momentOfPin, type PinConflict } from '../pins.ts';
import type { FeetProblem, PreparedScore } from '../prepared.ts';

/** Pins that could not be honoured, each with what it runs into. */
export const pinFindings = (prepared: PreparedScore, problem: FeetProblem, solution: Solution): Finding[] => [
  ...problem.pinConflicts.map((conflict) => conflictFinding(prepared.score, conflict)),
  ...displacedPins(prepared, problem, solution),
  ...movesInForbiddenSpans(prepared, problem, solution),
];

const movesInForbiddenSpans = (
  { score, moments }: PreparedScore,
  { stage }: FeetProblem,
  solution: Solution,
): Finding[] =>
  solution.moves
    .filter((move) => stage.isForbidden(move.moment))
    .map((move) => {
      const { bar, at } = moments.all[move.moment]!;
      const note = move.before?.note;
      return tell(score, {
        code: 'pin-not-honoured',
        severity: 'warn',
        notes: note === undefined ? [] : [note],
        place: { bar, at },
        sentence: `${formatChange(move.letter, move.to)} must be set within the span where moves were forbidden.`,
        suggestions: ['Shorten the span.'],
      });
    });

/** Moves that are made earlier than where they were fixed: for a note, or since the foot is busy there with another pedal. */
const displacedPins = (
  { score, moments, pins, options }: PreparedScore,
  { needs, pinConflicts }: FeetProblem,
  solution: Solution,
): Finding[] => {
  const fixed = pins
    .filter((pin): pin is MovePin => pin.kind === 'move')
    .map((pin) => ({ pin, wanted: momentOfPin(pin, moments) }));
  const fixedAt = new Set(fixed.map(({ pin, wanted }) => `${pin.letter} ${wanted}`));
  const chosen = new Set<Pin>(options.pins);
  const conflicting = new Set<Pin>(pinConflicts.map(({ pin }) => pin));
  return fixed.flatMap(({ pin, wanted }) => {
    if (conflicting.has(pin)) return [];
    const last = solution.moves.findLast(({ letter, moment }) => letter === pin.letter && moment <= wanted);
    if (last === undefined || last.moment === wanted || last.to !== pin.position) return [];
    const isRepeated = fixedAt.has(`${pin.letter} ${last.moment}`);
    const isNeeded = needs.get(pin.letter)!.some(({ moment }) => moment >= last.moment && moment < wanted);
    // What a file marks again where the pedal stands is a help to the player.
    if (isRepeated || (isNeeded && !chosen.has(pin))) return [];
    const made = moments.all[last.moment]!;
    const why = isNeeded ? 'a note needs it in between' : `the ${last.foot} foot makes another move there`;
    return [
      tell(score, {
        code: 'pin-not-honoured',
        severity: 'warn',
        notes: [],
        place: { bar: made.bar, at: made.at },
        sentence: `${formatChange(pin.letter, pin.position)} is set here, before the place where it was fixed: ${why}.`,
        suggestions: [
          isNeeded ? 'Move or drop what was fixed.' : 'Fix one of the two moves at another moment.',
        ],
      }),
    ];
  });
};

const conflictFinding = (score: Score, { pin, reason }: PinConflict): Finding => {
  const wanted = formatChange(pin.letter, pin.position);
  const at = pin.kind === 'move' ? pin.at : pin.from;
  const bar = score.bars.findLast((each) => compare(each.onset, at) <= 0) ?? score.bars[0]!;
  const because = {
    note: () =>
      reason.kind === 'note'
        ? `a note needs ${formatChange(reason.need.letter, reason.need.position)} there (bar ${score.bars[reason.need.note.bar]!.number})`
        : '',
    pin: () =>
      reason.kind === 'pin' ? `${formatChange(pin.letter, reason.position)} is fixed there already` : '',
    'no-moment': () => 'no note and no beat falls there',
  }[reason.kind]();
  return tell(score, {
    code: 'pin-not-honoured',
    severity: 'warn',
    notes: reason.kind === 'note' ? [reason.need.note] : [],
    place: { bar: bar.index, at },
    sentence: `${wanted} could not be fixed at this place: ${because}.`,
    suggestions: ['Move or drop what was fixed.'],
  });
};
