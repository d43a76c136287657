import { formatChange } from '../../../engine/harp/setting.ts';
import { rationalKey, toNumber } from '../../../engine/music/rational.ts';
import type { Finding, Move, Window } from '../../../engine/plan/model.ts';
import { STRINGS } from '../strings.ts';
import { askingNotes } from './asking-notes.ts';
import type { PageIndex, PageMarking } from './page-markings.ts';
import type { PlannedPart } from './planned-part.ts';
import { markingOf, movesOf } from './selected-moves.ts';
import type { Spot } from './spot.ts';

const words = STRINGS.detail;

const tellEnd = (
  part: PlannedPart,
  end: Window['after'],
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

const MoveCard = ({ part, move }: { readonly part: PlannedPart; readonly move: Move }) => {
  const asking = tellAsking(part, move);
  const place = words.at(part.bars[move.bar]!.number, rationalKey(move.beat));
  return (
    <article class={`move ${move.foot}`}>
      <h3>{words.move(formatChange(move.letter, move.to), move.foot)}</h3>
      <p>
        {words.from(move.from, move.to)}. {place}
        {move.graceNote === null ? '' : `, ${words.beforeGrace}`}.{move.restores ? ` ${words.restores}` : ''}
      </p>
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

const MarkingCard = ({ part, marking }: { readonly part: PlannedPart; readonly marking: PageMarking }) => (
  <article>
    <h3 class="names">{marking.pedals}</h3>
    <p>{STRINGS.score.settingLabel(part.bars[marking.bar]!.number, marking.pedals)}</p>
    {marking.moves.length === 0 && <p>{words.noMoves}</p>}
  </article>
);

const FindingCard = ({ finding }: { readonly finding: Finding }) => (
  <article class={finding.severity}>
    <h3>{STRINGS.findings.severity[finding.severity]}</h3>
    <p>
      {words.at(finding.barNumber, rationalKey(finding.beat))}. {finding.sentence}
    </p>
    {finding.suggestions.length > 0 && (
      <>
        <h4>{words.suggestions}</h4>
        <ul>
          {finding.suggestions.map((each) => (
            <li key={each}>{each}</li>
          ))}
        </ul>
      </>
    )}
  </article>
);

/** What the marking, move or finding that the user looks at says, and why. */
export const DetailPanel = ({
  part,
  index,
  spot,
}: {
  readonly part: PlannedPart;
  readonly index: PageIndex | null;
  readonly spot: Spot | null;
}) => {
  const marking = markingOf(spot, index);
  const moves = movesOf(spot, index).map((i) => part.plan.moves[i]!);
  const finding = spot?.kind === 'finding' ? part.plan.findings[spot.finding] : undefined;
  return (
    <section class={spot === null ? 'detail' : 'detail filled'}>
      <h2>{words.heading}</h2>
      {spot === null && <p class="aside">{words.nothing}</p>}
      {spot?.kind === 'marking' && marking?.kind === 'setting' && (
        <MarkingCard part={part} marking={marking} />
      )}
      {moves.map((move) => (
        <MoveCard key={`${move.letter}${toNumber(move.at)}`} part={part} move={move} />
      ))}
      {finding !== undefined && <FindingCard finding={finding} />}
    </section>
  );
};
