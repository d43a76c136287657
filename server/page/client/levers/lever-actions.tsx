import type { Place, Side } from '../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../lever-strings.ts';
import { STRINGS } from '../../strings.ts';
import { StepButton } from '../controls/step-button.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { describeDecision } from '../decisions/decision-words.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import { type LeverMoves, makeChange, pinOfChange, placeOfChange, stepChange } from './lever-moves.ts';

const words = LEVER_STRINGS.decisions;

export interface ChangeProps {
  readonly part: ReadPart;
  readonly moves: LeverMoves;
  readonly actions: DecisionActions;
  /** Index into the moves. */
  readonly at: number;
}

/** Makes a change at another place, or by another hand. */
export const makeChangeAt = (
  { part, moves, actions, at }: ChangeProps,
  wanted: { readonly at: Place; readonly hand?: Side },
): void => {
  const { pin, decisions } = makeChange(actions.decisions, moves[at]!, wanted);
  actions.change(describeDecision(part, { kind: 'pin', pin }), decisions);
};

/** Lets a change go that the user fixed; nothing where it is free. */
export const letChangeGo = ({ moves, actions, at }: ChangeProps): void => {
  const pin = pinOfChange(actions.decisions, moves[at]!);
  if (pin !== null) actions.remove({ kind: 'pin', pin });
};

const Act = ({
  children,
  atEnd = false,
  onClick,
}: {
  readonly children: string;
  readonly atEnd?: boolean;
  readonly onClick: () => void;
}) => (
  <StepButton small atEnd={atEnd} onClick={onClick}>
    {children}
  </StepButton>
);

const Placing = (props: ChangeProps) => {
  const { part, moves, actions, at } = props;
  const move = moves[at]!;
  const [earlier, later] = [stepChange(part, moves, at, 'earlier'), stepChange(part, moves, at, 'later')];
  const place = placeOfChange(move);
  const pinned = pinOfChange(actions.decisions, move) !== null;
  const other = move.hand === 'left' ? 'right' : 'left';
  return (
    <div class="buttons">
      <Act atEnd={earlier === null} onClick={() => makeChangeAt(props, { at: earlier! })}>
        {STRINGS.decisions.earlier}
      </Act>
      <Act atEnd={later === null} onClick={() => makeChangeAt(props, { at: later! })}>
        {STRINGS.decisions.later}
      </Act>
      {pinned && <Act onClick={() => letChangeGo(props)}>{STRINGS.decisions.unpin}</Act>}
      {!pinned && move.graceNote === null && (
        <Act onClick={() => makeChangeAt(props, { at: place })}>{STRINGS.decisions.keepHere}</Act>
      )}
      {move.graceNote === null && (
        <Act onClick={() => makeChangeAt(props, { at: place, hand: other })}>{words.giveTo(other)}</Act>
      )}
    </div>
  );
};

const Keeping = ({ moves, actions, at }: ChangeProps) => {
  const move = moves[at]!;
  const next = moves.find(({ string }, i) => i > at && string === move.string);
  const keep = (until: Place | null) => () =>
    actions.decide({
      kind: 'pin',
      pin: {
        kind: 'lever-position',
        lever: move.string,
        to: move.to,
        from: placeOfChange(move),
        until,
      },
    });
  return (
    <p class="buttons">
      <span>{words.keepPosition(LEVER_STRINGS.detail.to(move.string, move.to))}</span>
      {next !== undefined && <Act onClick={keep(placeOfChange(next))}>{words.untilNext}</Act>}
      <Act onClick={keep(null)}>{STRINGS.decisions.untilEnd}</Act>
    </p>
  );
};

/** The other strings of the note that asks for the change. */
const Respelling = ({ part, moves, actions, at }: ChangeProps) => {
  const { neededBy } = moves[at]!;
  const note = neededBy === null ? undefined : part.notes.get(neededBy);
  if (note === undefined) return null;
  return (
    <div class="buttons">
      {note.others.map((to) => (
        <Act key={to} onClick={() => actions.decide({ kind: 'respell', notes: { ...note.notes, to } })}>
          {STRINGS.decisions.playAs(note.notes.pitch, to)}
        </Act>
      ))}
      <Act onClick={() => actions.decide({ kind: 'omit', notes: note.notes })}>
        {words.leaveOut(note.notes.pitch)}
      </Act>
    </div>
  );
};

/** What can be decided about a change of a lever. */
export const ChangeActions = (props: ChangeProps) => (
  <div class="actions">
    <Placing {...props} />
    <Keeping {...props} />
    <Respelling {...props} />
  </div>
);
