import type { FixesReport } from '../../../api/answers/fixes.ts';
import { STRINGS } from '../../strings/strings.ts';
import { AskedSection } from '../controls/asked-section.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { addDecisions, type Decision } from '../decisions/decision-edits.ts';
import type { Order } from '../service/annotate-request.ts';
import { fetchFixes } from '../service/report-request.ts';
import { SECOND_HARP } from './second-harp.tsx';
import { TempoGraph } from './tempo-graph.tsx';

const words = STRINGS.offers;

type Place = FixesReport['places'][number];
type Offer = Place['fixes'][number];

/**
 * The smallest changes for what cannot be played, asked for on request: some thirty plans for each place. What is tried is a
 * decision like any other, planned with at once, and can be undone.
 */
export const OfferedFixes = ({
  order,
  actions,
  isAsked,
  onTry,
}: {
  readonly order: Order;
  readonly actions: DecisionActions;
  /** One was tried of an earlier plan: what is left is looked for without being asked again. */
  readonly isAsked: boolean;
  /** One is tried: the bar as an index. */
  readonly onTry: (bar: number) => void;
}) => (
  <AskedSection
    name="offers"
    words={words}
    fetchAnswer={(signal) => fetchFixes(order, signal)}
    begin={isAsked ? 'asking' : 'no'}
  >
    {({ places, untried, tempo }) => (
      <>
        {places.map((place) => (
          <section key={`${place.code} ${place.notes.join(' ')}`}>
            <h3>{words.place(place.bar, place.beat)}</h3>
            <p>{place.sentence}</p>
            {place.fixes.length === 0 ? (
              <p>{words.none}</p>
            ) : (
              <ol class="fixes">
                {place.fixes.map((offer) => (
                  <OfferItem
                    key={offer.sentence}
                    offer={offer}
                    actions={actions}
                    onTry={() => onTry(place.barIndex)}
                  />
                ))}
              </ol>
            )}
          </section>
        ))}
        {untried > 0 && <p>{words.untried(untried)}</p>}
        <TempoGraph tempo={tempo} />
      </>
    )}
  </AskedSection>
);

const OfferItem = ({
  offer,
  actions,
  onTry,
}: {
  readonly offer: Offer;
  readonly actions: DecisionActions;
  readonly onTry: () => void;
}) => (
  <li>
    <span>
      {offer.sentence} {words.heard(offer.heard)} {words.costs(offer.moreMoves)}{' '}
      {words.alsoFixes(offer.alsoFixes)}
    </span>
    {offer.kind === 'second-harp' ? (
      <a href={`#${SECOND_HARP}`}>{words.secondHarp}</a>
    ) : (
      <button
        type="button"
        class="small"
        aria-label={words.tryWhat(offer.sentence)}
        onClick={() => {
          actions.change(words.tried(offer.sentence), addDecisions(actions.decisions, decisionsOf(offer)));
          onTry();
        }}
      >
        {words.tryIt}
      </button>
    )}
  </li>
);

const decisionsOf = ({ decisions: { respell, omit, delays, tempos } }: Offer): readonly Decision[] => [
  ...respell.map((notes): Decision => ({ kind: 'respell', notes })),
  ...omit.map((notes): Decision => ({ kind: 'omit', notes })),
  ...delays.map((notes): Decision => ({ kind: 'delay', notes })),
  ...tempos.map((tempo): Decision => ({ kind: 'tempo', tempo })),
];
