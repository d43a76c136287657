import type { Titles } from '../../engine/index.ts';
import type { RehearsalMark } from '../geometry/rehearsal-marks.ts';
import { type PageLayout, SVG_UNITS_PER_MM, svgUnitsPerVu } from '../layout/breaks/page-layout.ts';
import { headingLoss, pageSpaceOf, RUNNING_HEAD_VU } from '../layout/breaks/page-space.ts';
import type { LaidOutSystem } from '../layout/lines/laid-out-system.ts';
import { mergeCharacters } from '../text/embed-fonts.ts';
import { type FinishedPage, finishPage } from '../text/finish-page.ts';
import type { Language } from '../words/language.ts';
import { composePage } from './compose-page.ts';
import { type FinishedSystem, haveSameItems } from './finish-system.ts';
import { systemGap, systemGaps } from './stack-systems.ts';
import { runningFoot } from './words/running-foot.ts';
import { runningHead } from './words/running-head.ts';

/** A system that is to be set on a page. */
export interface SystemToSet extends FinishedSystem {
  readonly system: Pick<LaidOutSystem, 'firstBar' | 'top' | 'bottom' | 'heading' | 'origin'>;
}

/** Where a line of music stands. */
export interface LinePlace {
  /** Index of its first bar. */
  readonly firstBar: number;
  /** Index of the page. */
  readonly page: number;
  /** Of its upper edge, from that of the page as it is printed, in the page's units. */
  readonly y: number;
}

export interface SetPages {
  readonly pages: readonly FinishedPage[];
  /** Their heights on the page as it is printed. */
  readonly rehearsals: readonly RehearsalMark[];
  readonly lines: readonly LinePlace[];
  /** Where the music of the last page ends, from its upper edge in the page's units. */
  readonly end: number;
}

/** Words about the pages, and around their music. */
export interface PageWords extends Pick<Titles, 'rights'> {
  /** Over every page but the first. */
  readonly head: string;
  /** How a page (from 1) is turned, where that is to be said. */
  readonly turns: ReadonlyMap<number, string>;
  /** How many pages stand before these in what is bound; null where that has page numbers of its own. */
  readonly pagesBefore: number | null;
  /** Of what is said to those who do not see the pages. */
  readonly language: Language;
}

/**
 * Sets systems on pages, one below the other.
 *
 * @param under height of what is to stand under the music of the last page, in the page's units
 */
export const setPages = (
  pages: readonly (readonly SystemToSet[])[],
  words: PageWords,
  layout: PageLayout,
  under = 0,
): SetPages => {
  const unitsPerVu = svgUnitsPerVu(layout);
  const gaps = systemGaps(
    pages.map((systems, page) => ({
      heights: heightsOf(systems, layout),
      room: roomOf(systems, layout),
      under: page === pages.length - 1 ? under / unitsPerVu : 0,
    })),
  );
  const downs = pages.map((systems, page) => moveDown(systems, gaps[page]! * unitsPerVu, layout));
  return {
    pages: pages.map((systems, page) => setSystems(systems, page, downs[page]!, words, layout)),
    end: pages.at(-1)!.at(-1)!.system.bottom + downs.at(-1)!.at(-1)!,
    lines: pages.flatMap((systems, page) =>
      systems.map(({ system: { firstBar, top } }, i) => ({
        firstBar,
        page,
        y: (top + downs[page]![i]!) * layout.enlarged,
      })),
    ),
    rehearsals: pages.flatMap((systems, page) =>
      systems.flatMap(({ rehearsals, system }, i) =>
        rehearsals.map(({ text, y }) => ({
          text,
          page,
          y: (system.origin.y + downs[page]![i]! + y) * layout.enlarged,
        })),
      ),
    ),
  };
};

/** Sets a page that another follows. @param page from 0 */
export const setPage = (
  systems: readonly SystemToSet[],
  page: number,
  words: PageWords,
  layout: PageLayout,
): FinishedPage => {
  const unitsPerVu = svgUnitsPerVu(layout);
  const gap = systemGap({ heights: heightsOf(systems, layout), room: roomOf(systems, layout), under: 0 });
  return setSystems(systems, page, moveDown(systems, gap * unitsPerVu, layout), words, layout);
};

/** A page as it was last set under its first system. */
interface KnownPage {
  readonly key: string;
  readonly systems: readonly SystemToSet[];
  readonly page: FinishedPage;
}

const KNOWN = new WeakMap<SystemToSet, KnownPage>();

/**
 * A page of the same systems as it was last set is the same object.
 *
 * @param downs how far each system is moved from where its own drawing has it
 */
const setSystems = (
  systems: readonly SystemToSet[],
  page: number,
  downs: readonly number[],
  words: PageWords,
  layout: PageLayout,
): FinishedPage => {
  const turn = words.turns.get(page + 1) ?? '';
  const { head, language, pagesBefore, rights } = words;
  const key = JSON.stringify([pagesBefore, page, downs, head, rights, language, turn, layout]);
  const known = KNOWN.get(systems[0]!);
  if (known?.key === key && haveSameItems(known.systems, systems)) return known.page;
  const made = setAnew(systems, page, downs, { ...words, turn }, layout);
  KNOWN.set(systems[0]!, { key, systems, page: made });
  return made;
};

const setAnew = (
  systems: readonly SystemToSet[],
  page: number,
  downs: readonly number[],
  { language, pagesBefore, head: words, rights, turn }: Omit<PageWords, 'turns'> & { readonly turn: string },
  layout: PageLayout,
): FinishedPage => {
  const number = (pagesBefore ?? 0) + page + 1;
  const shown = pagesBefore === null ? '' : `${number}`;
  const head = page === 0 ? null : finishPage(runningHead(words, shown, layout));
  const atFoot = { rights: number === 1 ? rights : '', turn, hasFootBelow: pagesBefore === null };
  const foot = atFoot.rights === '' && atFoot.turn === '' ? null : finishPage(runningFoot(atFoot, layout));
  const parts = [...systems, ...(head === null ? [] : [head]), ...(foot === null ? [] : [foot])];
  const svg = composePage(
    {
      number,
      head: head?.svg ?? systems[0]!.heading,
      foot: foot?.svg ?? '',
      language,
      systems: systems.map((system, i) => ({ system, down: downs[i]! })),
    },
    layout,
  );
  return {
    svg,
    characters: mergeCharacters(parts.map(({ characters }) => characters)),
    missing: [...new Set(parts.flatMap(({ missing }) => missing))],
  };
};

const heightsOf = (systems: readonly SystemToSet[], layout: PageLayout): number[] =>
  systems.map(({ system }) => (system.bottom - system.top) / svgUnitsPerVu(layout));

const roomOf = ([first]: readonly SystemToSet[], layout: PageLayout): number => {
  const { heading, origin } = first!.system;
  const loss = heading === null ? 0 : headingLoss((heading.bottom - origin.y) / svgUnitsPerVu(layout));
  return pageSpaceOf(layout).room - loss;
};

/** How far each system is moved from where its own drawing has it. */
const moveDown = (systems: readonly SystemToSet[], gap: number, layout: PageLayout): number[] => {
  const { heading } = systems[0]!.system;
  let next = heading?.bottom ?? layout.marginMm * SVG_UNITS_PER_MM + RUNNING_HEAD_VU * svgUnitsPerVu(layout);
  return systems.map(({ system: { bottom, top } }) => {
    const down = next - top;
    next += bottom - top + gap;
    return down;
  });
};
