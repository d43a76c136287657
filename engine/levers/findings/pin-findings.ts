import type { LeverPinFacts } from '../../findings/catalogue/levers.ts';
import { describeFinding } from '../../findings/describe-finding.ts';
import { help } from '../../findings/help/help.ts';
import type { LeverFinding } from '../../findings/model.ts';
import { compare } from '../../music/rational.ts';
import { nameBarIn } from '../../words/bar-names.ts';
import type { LeverContext } from '../context.ts';
import type { LeverSolution } from '../course/solve.ts';
import type { LeverProblem } from '../problem.ts';
import type { LeverPinConflict } from '../strings/pinned-levers.ts';

/** Pins that could not be honoured, each with what it runs into, and changes where none are allowed. */
export const leverPinFindings = (
  context: LeverContext,
  { strings, pinned }: LeverProblem,
  { changes }: LeverSolution,
): LeverFinding[] => [
  ...pinned.conflicts.map((conflict) => conflictFinding(context, conflict)),
  ...changes
    .filter(({ moment }) => pinned.isForbidden(moment))
    .map(({ string, moment, to }) => {
      const { bar, at } = context.moments.all[moment]!;
      const note = strings[string]!.needs.find((each) => each.moment >= moment)?.need.note;
      return describeFinding(
        context.score,
        'lever-pin-not-honoured',
        {
          string: strings[string]!.string,
          to: to === 1 ? 'up' : 'down',
          why: 'no-changes-here',
        },
        {
          notes: note === undefined ? [] : [note],
          place: { bar, at },
          help: [help('shorten-quiet-passage', { without: 'changes' })],
        },
      );
    }),
];

const conflictFinding = ({ score }: LeverContext, { pin, reason }: LeverPinConflict): LeverFinding => {
  const at = pin.kind === 'lever-move' ? pin.at : pin.from;
  const bar = score.bars.findLast((each) => compare(each.onset, at) <= 0) ?? score.bars[0]!;
  const aim = { string: pin.string, to: pin.to };
  const facts: LeverPinFacts =
    reason.kind === 'note'
      ? { ...aim, why: 'note', bar: nameBarIn(score)(reason.need.note.bar) }
      : { ...aim, why: reason.kind };
  return describeFinding(score, 'lever-pin-not-honoured', facts, {
    notes: reason.kind === 'note' ? [reason.need.note] : [],
    place: { bar: bar.index, at },
    help: [help('move-pin', {})],
  });
};
