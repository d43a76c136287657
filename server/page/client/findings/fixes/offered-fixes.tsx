import { countPlaces, rationalKey, stopPlaces, warningsBeside } from '../../../../../engine/index.ts';
import type { FixesReport } from '../../../../api/answers/fixes.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { AskedSection } from '../../controls/asked-section.tsx';
import { MusicWords } from '../../controls/music-words.tsx';
import { goToSection } from '../../controls/scrolling.ts';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { addDecisions, dropDecisions } from '../../decisions/decision-edits.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { SECOND_HARP } from '../second-harp.tsx';
import { TempoGraph } from '../tempo-graph.tsx';
import type { SearchedFixes } from './searched-fixes.tsx';
import {
  decisionsOfFix,
  idOfList,
  listsOf,
  type StopFix,
  type StopList,
  type StopPlace,
} from './stop-fixes.ts';
import { triedFixes } from './tried-fixes.ts';

const words = STRINGS.offers;

interface OfferedFixesProps {
  readonly part: PlannedPart;
  readonly searched: SearchedFixes;
  readonly actions: DecisionActions;
  /** A bar is gone to: its index. */
  readonly onGo: (bar: number) => void;
}

/**
 * The smallest changes for what cannot be played, in a list for each place. What is tried is a decision like any other,
 * planned with at once. The list stays while this and that is tried, each with a way back, until it is asked for anew.
 */
export const OfferedFixes = (props: OfferedFixesProps) => {
  const { playable } = props.part.plan.summary;
  const { asked, ask, isEarlier } = props.searched;
  if (playable && asked.kind !== 'ready') return null;
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
          {isEarlier && (
            <p>
              {playable
                ? words.nowPlayable
                : `${words.left(countPlaces(props.part.plan.findings, 'stop'))} ${words.earlier}`}
            </p>
          )}
        </>
      )}
    </AskedSection>
  );
};

/** Whether a place that could not be played still cannot be: its notes at its beat, or all of them at another. */
const isLeft = (part: PlannedPart, { barIndex, beat, notes }: StopPlace): boolean =>
  stopPlaces(part.plan.findings).some(
    ({ place }) =>
      place.bar === barIndex &&
      (`${place.notes}` === `${notes}` ||
        (rationalKey(place.beat) === beat && place.notes.some((note) => notes.includes(note)))),
  );

const Answered = ({
  report: { places, passages, untried, tempo, freeSpelling },
  part,
  searched,
  actions,
  onGo,
}: OfferedFixesProps & { readonly report: FixesReport }) => (
  <>
    {!searched.isEarlier && freeSpelling !== null && <p>{words.freeSpelling(freeSpelling)}</p>}
    {listsOf({ places, passages }).map((list) => (
      <OfferList key={idOfList(list)} {...{ list, part, actions, onGo }} />
    ))}
    {untried > 0 && <p>{words.untried(untried)}</p>}
    {/* A tempo holds for the plan that it was searched with. */}
    {!searched.isEarlier && <TempoGraph tempo={tempo} />}
  </>
);

/** The fixes of a place, or of a passage for several of its places. */
const OfferList = ({
  list,
  part,
  actions,
  onGo,
}: Omit<OfferedFixesProps, 'searched'> & { readonly list: StopList }) => {
  const { passage, inPassage, places, fixes } = list;
  const [first] = places as [StopPlace];
  const tried = triedFixes(fixes, actions.decisions);
  return (
    <section id={idOfList(list)}>
      <h3>
        {passage === null ? words.place(first.barName, first.beat) : words.passage(passage.bars)}
        {!places.some((place) => isLeft(part, place)) && <span class="done"> {words.solved}</span>}
      </h3>
      <p>
        <MusicWords>{(passage ?? first).sentence}</MusicWords>
      </p>
      {inPassage !== null && <p>{words.fixedBefore(inPassage.bars)}</p>}
      {fixes.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <ol class="fixes">
          {fixes.map((offer) => (
            <OfferItem
              key={offer.sentence}
              offer={offer}
              isTried={tried.has(offer)}
              forWhich={words.forSomePlaces(offer.places?.length, places.length)}
              actions={actions}
              onTurn={() => onGo(first.barIndex)}
            />
          ))}
        </ol>
      )}
    </section>
  );
};

const OfferItem = ({
  offer,
  isTried,
  forWhich,
  actions,
  onTurn,
}: {
  readonly offer: StopFix;
  readonly isTried: boolean;
  readonly forWhich: string;
  readonly actions: DecisionActions;
  /** It is tried, or taken back. */
  readonly onTurn: () => void;
}) => {
  const { sentence } = offer;
  const made = decisionsOfFix(offer);
  const turn = (): void => {
    if (isTried) actions.change(words.takenBack(sentence), dropDecisions(actions.decisions, made));
    else actions.change(words.tried(sentence), addDecisions(actions.decisions, made));
    onTurn();
  };
  return (
    <li class={isTried ? 'tried' : ''}>
      <span>
        {isTried && <strong>{words.isTried} </strong>}
        {forWhich}
        <MusicWords>{sentence}</MusicWords> {offer.heard !== '' && words.heard(offer.heard)}{' '}
        {words.costs(offer.moreMoves, offer.warningsThen)} {words.alsoFixes(offer.alsoFixes)}{' '}
        {offer.kind === 'tempo' && words.warningsLeft(warningsBeside(offer.tempo.left, offer.warningsThen))}
      </span>
      {offer.kind === 'second-harp' ? (
        <button
          type="button"
          class="plain"
          onClick={() => goToSection(document.getElementById(SECOND_HARP)!.querySelector('h2, h3'))}
        >
          {words.secondHarp}
        </button>
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
