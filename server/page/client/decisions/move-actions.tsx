import {
  callNotes,
  compare,
  type DecisionPin,
  formatChange,
  nameOfPosition,
  type Place,
  rationalKey,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { SmallStepButton } from '../controls/step-button.tsx';
import { askingNotes } from '../planner/asking-notes.ts';
import { boundsOf, type MoveBounds } from '../planner/move-bounds.ts';
import { stepMoment } from '../planner/moved-moment.ts';
import type { NotePlace, PlannedPart, ReadPart } from '../planner/planned-part.ts';
import type { DecisionActions } from './decision-actions.ts';
import { dropDecision, moveTo, pinOfMove, pinTo } from './decision-edits.ts';
import { describeDecision } from './decision-words.ts';
import { whyNotEarlier, whyNotLater } from './window-words.ts';

const words = STRINGS.decisions;

interface MoveProps {
  readonly part: PlannedPart;
  readonly actions: DecisionActions;
  /** Index into the plan's moves. */
  readonly at: number;
}

/** Moves that are made together at another moment, as undoing tells of them. */
export const describeMoved = (part: PlannedPart, moves: readonly number[], place: Place): string =>
  moves
    .map((at) => {
      const { letter, to } = part.plan.moves[at]!;
      return describeDecision(part, { kind: 'pin', pin: pinTo(letter, to, place) });
    })
    .join(', ');

/** Makes moves together at another moment. */
export const makeAllAt = (
  { part, actions }: Omit<MoveProps, 'at'>,
  moves: readonly number[],
  place: Place,
): void =>
  actions.change(
    describeMoved(part, moves, place),
    moves.reduce((now, at) => moveTo(now, part.plan.moves[at]!, place), actions.decisions),
  );

/** Makes a move at another moment. */
export const makeAt = ({ at, ...props }: MoveProps, place: Place): void => makeAllAt(props, [at], place);

/** Drops pins as one step; no step where there are none. */
export const removePins = (
  part: Pick<PlannedPart, 'bars'>,
  actions: DecisionActions,
  pins: readonly DecisionPin[],
): void => {
  const decisions = pins.map((pin) => ({ kind: 'pin', pin }) as const);
  if (decisions.length === 0) return;
  actions.change(
    STRINGS.decisions.removed(decisions.map((each) => describeDecision(part, each)).join(', ')),
    decisions.reduce(dropDecision, actions.decisions),
  );
};

/** Lets moves go that the user fixed; nothing where they are free. */
export const letAllGo = ({ part, actions }: Omit<MoveProps, 'at'>, moves: readonly number[]): void => {
  const pins = moves.flatMap((at) => pinOfMove(actions.decisions, part.plan.moves[at]!) ?? []);
  removePins(part, actions, pins);
};

/** Lets a move go that the user fixed; nothing where it is free. */
export const letGo = ({ at, ...props }: MoveProps): void => letAllGo(props, [at]);

/** Makes a move of either harp a moment earlier or later; a button that cannot says why. */
export const EarlierOrLater = ({
  part,
  bounds,
  earlier,
  later,
  onPlace,
}: {
  readonly part: ReadPart;
  readonly bounds: MoveBounds;
  /** Where it goes; null where it goes no further. */
  readonly earlier: Place | null;
  readonly later: Place | null;
  readonly onPlace: (place: Place) => void;
}) => (
  <>
    <SmallStepButton
      atEnd={earlier === null}
      title={earlier === null ? whyNotEarlier(part, bounds) : undefined}
      onClick={() => onPlace(earlier!)}
    >
      {words.earlier}
    </SmallStepButton>
    <SmallStepButton
      atEnd={later === null}
      title={later === null ? whyNotLater(part, bounds) : undefined}
      onClick={() => onPlace(later!)}
    >
      {words.later}
    </SmallStepButton>
  </>
);

const Placing = (props: MoveProps) => {
  const { part, actions, at } = props;
  const move = part.plan.moves[at]!;
  const place = { barIndex: move.bar, beat: rationalKey(move.beat) };
  const isPinned = pinOfMove(actions.decisions, move) !== null;
  const [earlier, later] = [stepMoment(part, at, 'earlier'), stepMoment(part, at, 'later')];
  return (
    <>
      <EarlierOrLater
        part={part}
        bounds={boundsOf(part, at)}
        earlier={earlier}
        later={later}
        onPlace={(place) => makeAt(props, place)}
      />
      {isPinned ? (
        <SmallStepButton onClick={() => letGo(props)}>{words.unpin}</SmallStepButton>
      ) : (
        move.graceNote === null && (
          <SmallStepButton onClick={() => makeAt(props, place)}>{words.keepHere}</SmallStepButton>
        )
      )}
    </>
  );
};

/** The next move of the same pedal, where a kept position may end. */
const nextPlace = ({ plan }: PlannedPart, at: number): Place | null => {
  const move = plan.moves[at]!;
  const next = plan.moves.find(
    ({ letter, at: when }) => letter === move.letter && compare(when, move.at) > 0,
  );
  return next === undefined ? null : { barIndex: next.bar, beat: rationalKey(next.beat) };
};

const Keeping = ({ part, actions, at }: MoveProps) => {
  const move = part.plan.moves[at]!;
  const next = nextPlace(part, at);
  const keep = (until: Place | null) => () =>
    actions.decide({
      kind: 'pin',
      pin: {
        kind: 'position',
        pedal: move.letter,
        position: nameOfPosition(move.to),
        from: { barIndex: move.bar, beat: rationalKey(move.beat) },
        until,
      },
    });
  return (
    <p class="buttons">
      <span>{words.keepPosition(formatChange(move.letter, move.to))}</span>
      {next !== null && <SmallStepButton onClick={keep(next)}>{words.untilNext}</SmallStepButton>}
      <SmallStepButton onClick={keep(null)}>{words.untilEnd}</SmallStepButton>
    </p>
  );
};

/** Respellings of the notes that ask for the move, each pitch once. */
const respellable = (part: PlannedPart, at: number): readonly NotePlace[] => {
  const notes = askingNotes(part, part.plan.moves[at]!).flatMap((id) => part.notes.get(id) ?? []);
  const first = notes[0];
  return first === undefined ? [] : [first];
};

/** What can be decided about a move. */
export const MoveActions = (props: MoveProps) => {
  const { part, actions, at } = props;
  const move = part.plan.moves[at]!;
  return (
    <div class="actions">
      <div class="buttons">
        <Placing {...props} />
      </div>
      <Keeping {...props} />
      <div class="buttons">
        {respellable(part, at).flatMap(({ notes, others }) =>
          others.map((to) => (
            <SmallStepButton
              key={to}
              onClick={() => actions.decide({ kind: 'respell', notes: { ...notes, to } })}
            >
              {words.playAs(callNotes(notes), to)}
            </SmallStepButton>
          )),
        )}
        <SmallStepButton
          onClick={() =>
            actions.decide({
              kind: 'setting',
              setting: { barIndex: move.bar, beat: rationalKey(move.beat), print: true },
            })
          }
        >
          {words.printHere}
        </SmallStepButton>
      </div>
    </div>
  );
};
