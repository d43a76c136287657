import {
  extentOf,
  formatChange,
  type Move,
  type PedalFinding,
  rationalKey,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { MusicWords } from '../controls/music-words.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { pinOfMove } from '../decisions/decision-edits.ts';
import { MoveActions } from '../decisions/move-actions.tsx';
import { describeBeginning, describeEnding } from '../decisions/window-words.ts';
import { askingNotes } from '../planner/asking-notes.ts';
import { boundsOf, isMadeInPause } from '../planner/move-bounds.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { PageIndex, PageMarking } from '../score/drawn/page-markings.ts';
import { DetailSection } from '../selection/detail-section.tsx';
import { markingOf, movesOf } from '../selection/selected-moves.ts';
import type { Spot } from '../selection/spot.ts';
import { Fixes } from './fixes/fixes.tsx';
import { NoteCard } from './note-card.tsx';

const words = STRINGS.detail;

/** The first note that asks for a move, which leads to it, and how many more. */
const Asking = ({
  part,
  move,
  onGo,
}: {
  readonly part: PlannedPart;
  readonly move: Move;
  readonly onGo: (spot: Spot) => void;
}) => {
  const [first, ...others] = askingNotes(part, move);
  const note = first === undefined ? undefined : part.notes.get(first);
  if (note === undefined) return null;
  return (
    <>
      <dt>{words.asks}</dt>
      <dd>
        <button type="button" class="plain" onClick={() => onGo({ kind: 'note', id: first! })}>
          {words.askedBy(note.name, part.bars[note.bar]!.name, others.length)}
        </button>
      </dd>
    </>
  );
};

const Reasons = ({ drawbacks }: { readonly drawbacks: readonly string[] }) =>
  drawbacks.length === 0 ? (
    <span>{words.nothingAgainst}</span>
  ) : (
    <ul>
      {drawbacks.map((name) => (
        <li key={name}>{words.reason(name)}</li>
      ))}
    </ul>
  );

/** A move that is made elsewhere is still the one for its note: its buttons keep the focus. */
const keyOf = ({ letter, to, window: { before } }: Move): string =>
  `${letter} ${to} ${before === null ? '' : rationalKey(before.onset)}`;

const nameMove = ({ letter, to, foot }: Move): string => words.move(formatChange(letter, to), foot);

const MoveCard = ({
  part,
  actions,
  at,
  isNamed,
  onGo,
}: {
  readonly part: PlannedPart;
  readonly actions: DecisionActions;
  readonly onGo: (spot: Spot) => void;
  readonly at: number;
  /** The heading above names it. */
  readonly isNamed: boolean;
}) => {
  const move = part.plan.moves[at]!;
  const bounds = boundsOf(part, at);
  const place = words.at(part.bars[move.bar]!.name, rationalKey(move.beat));
  return (
    <article class={`move ${move.foot}`}>
      {!isNamed && <h3>{nameMove(move)}</h3>}
      <p>
        {words.from(move.from, move.to)}. {place}
        {move.graceNote === null ? '' : `, ${words.beforeGrace}`}
        {isMadeInPause(part, bounds) ? `, ${words.inPause}` : ''}.
        {move.restores ? ` ${words.restores(formatChange(move.letter, move.from))}` : ''}
        {pinOfMove(actions.decisions, move) === null ? '' : ` ${STRINGS.decisions.pinned}`}
      </p>
      <MoveActions part={part} actions={actions} at={at} />
      <dl>
        <dt>{words.window}</dt>
        <dd>
          {describeBeginning(part, bounds) ?? words.anyTimeBefore};{' '}
          {describeEnding(part, bounds) ?? words.afterJump}
        </dd>
        <Asking part={part} move={move} onGo={onGo} />
        <dt>{words.against}</dt>
        <dd>
          <Reasons drawbacks={part.drawbacks[at]!} />
        </dd>
      </dl>
    </article>
  );
};

const MarkingCard = ({
  actions,
  marking,
}: {
  readonly actions: DecisionActions;
  readonly marking: PageMarking;
}) => (
  <article>
    <h3 class="names">{marking.pedals}</h3>
    {marking.moves.length === 0 && <p>{words.noMoves}</p>}
    <div class="buttons">
      <button
        type="button"
        class="small"
        onClick={() =>
          actions.decide({
            kind: 'setting',
            setting: { barIndex: marking.bar, beat: marking.beat, print: false },
          })
        }
      >
        {STRINGS.decisions.doNotPrintHere}
      </button>
    </div>
  </article>
);

/** What goes wrong at each place of a passage. */
const Places = ({ finding: { places } }: { readonly finding: PedalFinding }) => (
  <details>
    <summary>{STRINGS.findings.everyPlace(places.length)}</summary>
    <ul>
      {places.map(({ barName, beat, sentence }, i) => (
        <li key={i}>
          {words.at(barName, rationalKey(beat))}. <MusicWords>{sentence}</MusicWords>
        </li>
      ))}
    </ul>
  </details>
);

const FindingCard = ({
  finding,
  actions,
  part,
}: {
  readonly finding: PedalFinding;
  readonly actions: DecisionActions;
  readonly part: PlannedPart;
}) => (
  <article class={finding.severity}>
    <h3>{STRINGS.findings.title(finding.code)}</h3>
    <p>
      {STRINGS.findings.at(extentOf(finding))}. <MusicWords>{finding.sentence}</MusicWords>
    </p>
    {finding.places.length > 1 && <Places finding={finding} />}
    {/* On a wide screen they stand in the list of findings alone: see the styles. */}
    <div class="listed-fixes">
      {finding.suggestions.length > 0 && <h4>{words.suggestions}</h4>}
      <Fixes part={part} finding={finding} actions={actions} />
    </div>
  </article>
);

/** What is looked at, in a few words. */
const nameSpot = (part: PlannedPart, spot: Spot | null, index: PageIndex | null): string => {
  if (spot?.kind === 'finding') {
    const finding = part.plan.findings[spot.finding];
    return finding === undefined ? words.panel : words.heading.finding(finding.severity, finding.barName);
  }
  if (spot?.kind === 'note') return words.heading.note(part.notes.get(spot.id)?.name ?? '');
  const marking = markingOf(spot, index);
  const moves = movesOf(spot, index);
  if (spot?.kind === 'marking' && marking?.kind === 'setting') {
    return words.heading.setting(part.bars[marking.bar]!.name);
  }
  const [move] = moves;
  if (move === undefined) return words.panel;
  const first = part.plan.moves[move]!;
  return moves.length === 1 ? nameMove(first) : words.heading.changes(part.bars[first.bar]!.name);
};

/** What the marking, move or finding that the user looks at says, why, and what can be done about it. */
export const DetailPanel = ({
  part,
  index,
  spot,
  actions,
  onGo,
  onLeave,
}: {
  readonly part: PlannedPart;
  readonly index: PageIndex | null;
  readonly spot: Spot | null;
  readonly actions: DecisionActions;
  /** Another thing is to be looked at. */
  readonly onGo: (spot: Spot) => void;
  /** Nothing is to be looked at any more. */
  readonly onLeave: () => void;
}) => {
  const marking = markingOf(spot, index);
  const finding = spot?.kind === 'finding' ? part.plan.findings[spot.finding] : undefined;
  const isEmpty = spot === null || spot.kind === 'place';
  const heading = nameSpot(part, spot, index);
  return (
    <DetailSection heading={heading} onLeave={isEmpty ? null : onLeave}>
      {isEmpty && <p class="aside">{words.nothing}</p>}
      {spot?.kind === 'marking' && marking?.kind === 'setting' && (
        <MarkingCard actions={actions} marking={marking} />
      )}
      {movesOf(spot, index).map((at) => (
        <MoveCard
          key={keyOf(part.plan.moves[at]!)}
          part={part}
          actions={actions}
          at={at}
          onGo={onGo}
          isNamed={nameMove(part.plan.moves[at]!) === heading}
        />
      ))}
      {spot?.kind === 'note' && part.notes.has(spot.id) && (
        <NoteCard part={part} actions={actions} note={spot.id} onGo={onGo} />
      )}
      {finding !== undefined && <FindingCard part={part} finding={finding} actions={actions} />}
    </DetailSection>
  );
};
