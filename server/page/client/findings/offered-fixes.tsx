import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { FixesReport } from '../../../api/answers/fixes.ts';
import { STRINGS } from '../../strings/strings.ts';
import { useAnswer } from '../controls/asked-answer.ts';
import { AskedSection } from '../controls/asked-section.tsx';
import { MusicWords } from '../controls/music-words.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { addDecisions, areDecided, type Decision, dropDecisions } from '../decisions/decision-edits.ts';
import { windowMemory } from '../memory/browser-memory.ts';
import { keyOfFile } from '../memory/kept-decisions.ts';
import { keepOffers, recallOffers } from '../memory/kept-offers.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Order } from '../service/annotate-request.ts';
import { fetchFixes } from '../service/report-request.ts';
import { SECOND_HARP } from './second-harp.tsx';
import { TempoGraph } from './tempo-graph.tsx';

const words = STRINGS.offers;

type Place = FixesReport['places'][number];
type Offer = Place['fixes'][number];

interface OfferedFixesProps {
  readonly part: PlannedPart;
  readonly order: Order;
  readonly actions: DecisionActions;
  /** A bar is gone to: its index. */
  readonly onGo: (bar: number) => void;
}

/** What an answer is about. */
const questionOf = ({ choices, decisions }: Order): string => JSON.stringify([choices, decisions]);

/**
 * The smallest changes for what cannot be played, asked for on request: some thirty plans for each place. What is tried is a
 * decision like any other, planned with at once. The list stays while this and that is tried, each with a way back, until
 * it is asked for anew.
 */
export const OfferedFixes = (props: OfferedFixesProps) => {
  const { part, order } = props;
  const { playable } = part.plan.summary;
  const key = useMemo(() => keyOfFile(order.file), [order.file]);
  const known = useRef(recallOffers(windowMemory, key)).current;
  const question = useRef(known?.question ?? '');
  const [asked, askNow] = useAnswer(
    (signal) => fetchFixes(order, signal),
    known === null ? { kind: 'no' } : { kind: 'ready', answer: known.report },
  );
  useEffect(() => {
    if (asked.kind === 'ready')
      keepOffers(windowMemory, key, { question: question.current, report: asked.answer });
  }, [asked]);
  const ask = (): void => {
    question.current = questionOf(order);
    askNow();
  };
  if (playable && asked.kind !== 'ready') return null;
  const isEarlier = question.current !== questionOf(order);
  return (
    <AskedSection
      name="offers"
      words={words}
      asked={asked}
      onAsk={ask}
      askAgain={isEarlier && !playable ? words.askAgain : null}
    >
      {(report) => (
        <>
          <Answered {...props} report={report} />
          {isEarlier && <p>{playable ? words.nowPlayable : words.earlier}</p>}
        </>
      )}
    </AskedSection>
  );
};

/** Whether a place that could not be played still cannot be. */
const isLeft = ({ plan }: PlannedPart, { barIndex, code }: Place): boolean =>
  plan.findings.some(
    (finding) => finding.code === code && finding.places.some(({ bar }) => bar === barIndex),
  );

const Answered = ({
  report: { places, untried, tempo },
  part,
  actions,
  onGo,
}: OfferedFixesProps & { readonly report: FixesReport }) => (
  <>
    {places.map((place) => (
      <section key={`${place.code} ${place.notes.join(' ')}`}>
        <h3>
          {words.place(place.bar, place.beat)}
          {!isLeft(part, place) && <span class="done"> {words.solved}</span>}
        </h3>
        <p>
          <MusicWords>{place.sentence}</MusicWords>
        </p>
        {place.fixes.length === 0 ? (
          <p>{words.none}</p>
        ) : (
          <ol class="fixes">
            {place.fixes.map((offer) => (
              <OfferItem
                key={offer.sentence}
                offer={offer}
                actions={actions}
                onTurn={() => onGo(place.barIndex)}
              />
            ))}
          </ol>
        )}
      </section>
    ))}
    {untried > 0 && <p>{words.untried(untried)}</p>}
    <TempoGraph tempo={tempo} />
  </>
);

const OfferItem = ({
  offer,
  actions,
  onTurn,
}: {
  readonly offer: Offer;
  readonly actions: DecisionActions;
  /** It is tried, or taken back. */
  readonly onTurn: () => void;
}) => {
  const { sentence } = offer;
  const made = decisionsOf(offer);
  const isTried = made.length > 0 && areDecided(actions.decisions, made);
  const turn = (): void => {
    if (isTried) actions.change(words.takenBack(sentence), dropDecisions(actions.decisions, made));
    else actions.change(words.tried(sentence), addDecisions(actions.decisions, made));
    onTurn();
  };
  return (
    <li class={isTried ? 'tried' : ''}>
      <span>
        {isTried && <strong>{words.isTried} </strong>}
        <MusicWords>{sentence}</MusicWords> {words.heard(offer.heard)} {words.costs(offer.moreMoves)}{' '}
        {words.alsoFixes(offer.alsoFixes)}
      </span>
      {offer.kind === 'second-harp' ? (
        <a href={`#${SECOND_HARP}`}>{words.secondHarp}</a>
      ) : (
        <button
          type="button"
          class="small"
          aria-label={STRINGS.spokenDoubles((isTried ? words.takeBackWhat : words.tryWhat)(sentence))}
          onClick={turn}
        >
          {isTried ? words.takeBack : words.tryIt}
        </button>
      )}
    </li>
  );
};

const decisionsOf = ({ decisions: { respell, omit, delays, tempos } }: Offer): readonly Decision[] => [
  ...respell.map((notes): Decision => ({ kind: 'respell', notes })),
  ...omit.map((notes): Decision => ({ kind: 'omit', notes })),
  ...delays.map((notes): Decision => ({ kind: 'delay', notes })),
  ...tempos.map((tempo): Decision => ({ kind: 'tempo', tempo })),
];
