import {
  extentOf,
  formatChange,
  type Move,
  type MoveWindow,
  type PedalFinding,
  rationalKey,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { Desk } from '../decisions/desk.ts';
import { MoveActions } from '../decisions/move-actions.tsx';
import { pinOfMove } from '../decisions/work-edits.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { PageIndex, PageMarking } from '../score/page-markings.ts';
import { markingOf, movesOf } from '../score/selected-moves.ts';
import type { Spot } from '../score/spot.ts';
import { askingNotes } from './asking-notes.ts';
import { Mends } from './mends.tsx';

const words = STRINGS.detail;

const tellEnd = (
  part: PlannedPart,
  end: MoveWindow['after'],
  tell: (note: string, bar: string) => string,
  otherwise: string,
): string => {
  const note = end === null ? undefined : part.notes.get(end.note);
  return note === undefined ? otherwise : tell(note.name, part.bars[note.bar]!.number);
};

const tellAsking = (part: PlannedPart, move: Move): string | null => {
  const [first, ...others] = askingNotes(part, move);
  const note = first === undefined ? undefined : part.notes.get(first);
  return note === undefined ? null : words.askedBy(note.name, part.bars[note.bar]!.number, others.length);
};

const Reasons = ({ move }: { readonly move: Move }) => {
  const terms = move.cost.filter(({ amount }) => amount >= 0.05).toSorted((a, b) => b.amount - a.amount);
  if (terms.length === 0) return <>{words.nothingAgainst}</>;
  return (
    <ul>
      {terms.map(({ name, amount }) => (
        <li key={name}>
          {words.reason(name)} <span class="amount">({Math.round(amount * 10) / 10})</span>
        </li>
      ))}
    </ul>
  );
};

const MoveCard = ({
  part,
  desk,
  at,
}: {
  readonly part: PlannedPart;
  readonly desk: Desk;
  readonly at: number;
}) => {
  const move = part.plan.moves[at]!;
  const asking = tellAsking(part, move);
  const place = words.at(part.bars[move.bar]!.number, rationalKey(move.beat));
  return (
    <article class={`move ${move.foot}`}>
      <h3>{words.move(formatChange(move.letter, move.to), move.foot)}</h3>
      <p>
        {words.from(move.from, move.to)}. {place}
        {move.graceNote === null ? '' : `, ${words.beforeGrace}`}.{move.restores ? ` ${words.restores}` : ''}
        {pinOfMove(desk.work, move) === null ? '' : ` ${STRINGS.work.pinned}`}
      </p>
      <MoveActions part={part} desk={desk} at={at} />
      <dl>
        <dt>{words.window}</dt>
        <dd>
          {tellEnd(part, move.window.after, words.after, words.anyTimeBefore)};{' '}
          {tellEnd(part, move.window.before, words.before, words.afterJump)}
        </dd>
        {asking !== null && (
          <>
            <dt>{words.asks}</dt>
            <dd>{asking}</dd>
          </>
        )}
        <dt>{words.against}</dt>
        <dd>
          <Reasons move={move} />
        </dd>
      </dl>
    </article>
  );
};

const MarkingCard = ({
  part,
  desk,
  marking,
}: {
  readonly part: PlannedPart;
  readonly desk: Desk;
  readonly marking: PageMarking;
}) => (
  <article>
    <h3 class="names">{marking.pedals}</h3>
    <p>{STRINGS.score.settingLabel(part.bars[marking.bar]!.number, marking.pedals)}</p>
    {marking.moves.length === 0 && <p>{words.noMoves}</p>}
    <div class="buttons">
      <button
        type="button"
        class="small"
        onClick={() =>
          desk.decide({
            kind: 'setting',
            setting: { bar: marking.bar, beat: marking.beat, print: false },
          })
        }
      >
        {STRINGS.work.doNotPrintHere}
      </button>
    </div>
  </article>
);

/** What goes wrong at each place of a passage. */
const Places = ({ finding: { places } }: { readonly finding: PedalFinding }) => (
  <details>
    <summary>{STRINGS.findings.everyPlace(places.length)}</summary>
    <ul>
      {places.map(({ barNumber, beat, sentence }, i) => (
        <li key={i}>
          {words.at(barNumber, rationalKey(beat))}. {sentence}
        </li>
      ))}
    </ul>
  </details>
);

const FindingCard = ({
  finding,
  desk,
  part,
}: {
  readonly finding: PedalFinding;
  readonly desk: Desk;
  readonly part: PlannedPart;
}) => (
  <article class={finding.severity}>
    <h3>
      {STRINGS.findings.severity(finding.severity)}: {STRINGS.findings.title(finding.code)}
    </h3>
    <p>
      {STRINGS.findings.at(extentOf(finding))}. {finding.sentence}
    </p>
    {finding.places.length > 1 && <Places finding={finding} />}
    {finding.suggestions.length > 0 && <h4>{words.suggestions}</h4>}
    <Mends part={part} finding={finding} desk={desk} />
  </article>
);

/** What the marking, move or finding that the user looks at says, why, and what can be done about it. */
export const DetailPanel = ({
  part,
  index,
  spot,
  desk,
}: {
  readonly part: PlannedPart;
  readonly index: PageIndex | null;
  readonly spot: Spot | null;
  readonly desk: Desk;
}) => {
  const marking = markingOf(spot, index);
  const finding = spot?.kind === 'finding' ? part.plan.findings[spot.finding] : undefined;
  const isEmpty = spot === null || spot.kind === 'place';
  return (
    <section class={isEmpty ? 'detail' : 'detail filled'}>
      <h2>{words.heading}</h2>
      {isEmpty && <p class="aside">{words.nothing}</p>}
      {spot?.kind === 'marking' && marking?.kind === 'setting' && (
        <MarkingCard part={part} desk={desk} marking={marking} />
      )}
      {movesOf(spot, index).map((at) => (
        <MoveCard key={at} part={part} desk={desk} at={at} />
      ))}
      {finding !== undefined && <FindingCard part={part} finding={finding} desk={desk} />}
    </section>
  );
};
