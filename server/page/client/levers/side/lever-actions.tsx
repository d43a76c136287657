import { callNotes, type Decisions, type Place, type Side } from '../../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { SmallStepButton } from '../../controls/step-button.tsx';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { describeDecision } from '../../decisions/decision-words.ts';
import { EarlierOrLater, removePins } from '../../decisions/move-actions.tsx';
import { StringActions } from '../../decisions/string-actions.tsx';
import type { ReadPart } from '../../planner/planned-part.ts';
import {
  boundsOfChange,
  type LeverMoves,
  makeChange,
  pinOfChange,
  placeOfChange,
  stepChange,
} from '../lever-moves.ts';

const words = LEVER_STRINGS.decisions;

export interface ChangeProps {
  readonly part: ReadPart;
  readonly moves: LeverMoves;
  readonly actions: DecisionActions;
  /** Index into the moves. */
  readonly at: number;
}

type Changing = Omit<ChangeProps, 'at'>;

interface Wanted {
  readonly at: Place;
  readonly hand?: Side;
}

/** The decisions by which changes are made together at another place, or by another hand, and their names. */
const decideChanges = (
  { part, moves, actions }: Changing,
  changes: readonly number[],
  wanted: Wanted,
): { readonly name: string; readonly decisions: Decisions } => {
  let { decisions } = actions;
  const names = changes.map((at) => {
    const made = makeChange(decisions, moves[at]!, wanted);
    decisions = made.decisions;
    return describeDecision(part, { kind: 'pin', pin: made.pin });
  });
  return { name: names.join(', '), decisions };
};

/** Makes changes together at another place, or by another hand. */
export const makeChangesAt = (changing: Changing, changes: readonly number[], wanted: Wanted): void => {
  const { name, decisions } = decideChanges(changing, changes, wanted);
  changing.actions.change(name, decisions);
};

/** Tells what could not be played if changes were made at another place, in sentences. */
export const tryChangesAt = (
  changing: Changing,
  changes: readonly number[],
  at: Place,
  onTold: (trouble: readonly string[]) => void,
): void => changing.actions.tryOut?.(decideChanges(changing, changes, { at }).decisions, onTold);

/** Makes a change at another place, or by another hand. */
export const makeChangeAt = ({ at, ...changing }: ChangeProps, wanted: Wanted): void =>
  makeChangesAt(changing, [at], wanted);

/** Lets changes go that the user fixed; nothing where they are free. */
export const letChangesGo = ({ part, moves, actions }: Changing, changes: readonly number[]): void => {
  const pins = changes.flatMap((at) => pinOfChange(actions.decisions, moves[at]!) ?? []);
  removePins(part, actions, pins);
};

/** Lets a change go that the user fixed; nothing where it is free. */
export const letChangeGo = ({ at, ...changing }: ChangeProps): void => letChangesGo(changing, [at]);

const Placing = (props: ChangeProps) => {
  const { part, moves, actions, at } = props;
  const move = moves[at]!;
  const [earlier, later] = [stepChange(part, moves, at, 'earlier'), stepChange(part, moves, at, 'later')];
  const place = placeOfChange(move);
  const pinned = pinOfChange(actions.decisions, move) !== null;
  const other = move.hand === 'left' ? 'right' : 'left';
  return (
    <div class="buttons">
      <EarlierOrLater
        part={part}
        bounds={boundsOfChange(moves, at)}
        earlier={earlier}
        later={later}
        onPlace={(wanted) => makeChangeAt(props, { at: wanted })}
      />
      {pinned && (
        <SmallStepButton onClick={() => letChangeGo(props)}>{STRINGS.decisions.unpin}</SmallStepButton>
      )}
      {!pinned && move.graceNote === null && (
        <SmallStepButton onClick={() => makeChangeAt(props, { at: place })}>
          {STRINGS.decisions.keepHere}
        </SmallStepButton>
      )}
      {move.graceNote === null && (
        <SmallStepButton onClick={() => makeChangeAt(props, { at: place, hand: other })}>
          {words.giveTo(other)}
        </SmallStepButton>
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
      {next !== undefined && (
        <SmallStepButton onClick={keep(placeOfChange(next))}>{words.untilNext}</SmallStepButton>
      )}
      <SmallStepButton onClick={keep(null)}>{STRINGS.decisions.untilEnd}</SmallStepButton>
    </p>
  );
};

/** The other strings of the note that asks for the change. */
const Respelling = ({ part, moves, actions, at }: ChangeProps) => {
  const { neededBy } = moves[at]!;
  const note = neededBy === null ? undefined : part.notes.get(neededBy);
  if (note === undefined) return null;
  return <StringActions note={note} actions={actions} leaveOut={words.leaveOut(callNotes(note.notes))} />;
};

/** What can be decided about a change of a lever. */
export const ChangeActions = (props: ChangeProps) => (
  <div class="actions">
    <Placing {...props} />
    <Keeping {...props} />
    <Respelling {...props} />
  </div>
);
