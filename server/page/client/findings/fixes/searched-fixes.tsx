import { createContext } from 'preact';
import { useContext, useEffect, useMemo, useRef } from 'preact/hooks';
import type { NonEmpty, PedalFinding } from '../../../../../engine/index.ts';
import type { FixesReport } from '../../../../api/answers/fixes.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { type Asked, useAnswer } from '../../controls/asked-answer.ts';
import { goToSection } from '../../controls/scrolling.ts';
import { windowMemory } from '../../memory/browser-memory.ts';
import { keyOfFile } from '../../memory/kept-decisions.ts';
import { keepOffers, recallOffers } from '../../memory/kept-offers.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import type { Order } from '../../service/annotate-request.ts';
import { fetchFixes } from '../../service/report-request.ts';
import { idOfList, joinQuickFixes, listsOf, type StopList, stopOf } from './stop-fixes.ts';

/** What was searched for the places that cannot be played, with the fixes that their findings had at once. */
export interface SearchedFixes {
  readonly asked: Asked<FixesReport>;
  readonly ask: () => void;
  /** It was searched before something else was decided. */
  readonly isEarlier: boolean;
}

/** What an answer is about. */
const questionOf = ({ choices, decisions }: Order): string => JSON.stringify([choices, decisions]);

/** Searches the smallest changes for what cannot be played when it is asked to: some thirty plans for each place. */
export const useSearchedFixes = (part: PlannedPart, order: Order): SearchedFixes => {
  const key = useMemo(() => keyOfFile(order.file), [order.file]);
  const known = useRef(recallOffers(windowMemory, key)).current;
  const question = useRef(known?.question ?? '');
  const [asked, askNow] = useAnswer(
    async (signal) => {
      const found = await fetchFixes(order, signal);
      if (!found.ok) return found;
      return { ok: true, value: { ...found.value, places: joinQuickFixes(part, found.value.places) } };
    },
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
  return { asked, ask, isEarlier: question.current !== questionOf(order) };
};

/** Leads from a finding to the first list of its fixes, once they were searched. */
export const ToSearched = ({ lists }: { readonly lists: NonEmpty<StopList> }) => (
  <button
    type="button"
    class="plain"
    onClick={() => goToSection(document.getElementById(idOfList(lists[0]))!.querySelector('h3'))}
  >
    {STRINGS.offers.ways(
      lists.reduce((ways, { fixes }) => ways + fixes.length, 0),
      new Set(lists.flatMap(({ places }) => places)).size,
    )}
  </button>
);

const Searched = createContext<SearchedFixes | null>(null);

/** Around everything that tells of findings. */
export const SearchedFixesProvider = Searched.Provider;

/** The lists with fixes for the first place of a finding; none where none were searched. */
export const useSearchedLists = (finding: PedalFinding): readonly StopList[] => {
  const asked = useContext(Searched)?.asked;
  if (asked?.kind !== 'ready') return [];
  const stop = stopOf(asked.answer.places, finding);
  return listsOf(asked.answer).filter(
    ({ places, fixes }) => stop !== undefined && places.includes(stop) && fixes.length > 0,
  );
};
