import type { EngravingOptions } from '../engraving-options.ts';
import { pageLayoutOf, svgUnitsPerVu } from '../layout/breaks/page-layout.ts';
import type { EarlyPage } from '../layout/early/early-pages.ts';
import type { LaidOutScore } from '../layout/lay-out.ts';
import type { LaidOutSystem } from '../layout/lines/laid-out-system.ts';
import { noteSignTags } from '../levers/note-signs.ts';
import { idSeparator } from '../printed/unique-ids.ts';
import { type FinishedLine, finishSystem, type SpaceDrawing } from './finish-system.ts';
import type { PageDrawings } from './page-drawings.ts';
import { type PageWords, setPage } from './set-pages.ts';
import { turnWords } from './words/turn-words.ts';

/** A page that is drawn, while others may not be. */
export interface ReadyPage {
  /** From 1. */
  readonly number: number;
  /** How many pages there will be, as far as that is known. */
  readonly of: number;
  /** An SVG document. */
  readonly svg: string;
}

/** Puts our drawings on the lines of one score. */
export interface PageFinisher {
  /** The lines of each page; null where the layout lost a bar that bears a marking: a page without it would mislead. */
  readonly finishAll: (laidOut: Pick<LaidOutScore, 'pages' | 'reminders'>) => FinishedLine[][] | null;
  /** Pages as they come, in their order: null for one that was drawn before. */
  readonly drawEarly: (page: EarlyPage) => ReadyPage | null;
}

/** What is finished, and with what. */
export interface PagesToFinish {
  readonly engraving: EngravingOptions;
  readonly words: Omit<PageWords, 'turns'>;
  readonly numberOf: (bar: number) => string;
  readonly drawings: Pick<PageDrawings, 'drawings' | 'signs'>;
}

export const createPageFinisher = (task: PagesToFinish): PageFinisher => {
  const { drawings, engraving, numberOf, words } = task;
  const layout = pageLayoutOf(engraving);
  const byId = new Map<string, ReadonlyMap<string, SpaceDrawing>>();
  const drawingsFor = (reminders: readonly number[], until?: number): ReadonlyMap<string, SpaceDrawing> => {
    const key = `${reminders} ${until}`;
    const found =
      byId.get(key) ?? new Map(drawings.drawings(reminders, until).map((each) => [each.id, each]));
    byId.set(key, found);
    return found;
  };
  const signs = noteSignTags(drawings.signs, numberOf, engraving.language);
  const finish = (system: LaidOutSystem, reminders: readonly number[], until?: number): FinishedLine =>
    finishSystem(system, {
      drawings: drawingsFor(reminders, until),
      signs,
      unitsPerVu: svgUnitsPerVu(layout),
      backed: engraving.placement === 'between',
    });
  let told = 0;
  const separateIds = idSeparator();
  return {
    finishAll: ({ pages, reminders }) => {
      const lines = pages.map((held) => held.map((system) => finish(system, reminders)));
      const all = lines.flat();
      const placed = all.reduce((sum, { system }) => sum + system.placed.length, 0);
      const signed = all.reduce((sum, line) => sum + line.signs.length, 0);
      return placed === drawingsFor(reminders).size && signed === signs.size ? lines : null;
    },
    drawEarly: ({ nextBar, of, page, reminders, systems, turn }) => {
      if (page !== told) return null;
      // The first page does not wait until everything is drawn.
      const until = page === 0 ? nextBar : undefined;
      const lines = systems.map((system) => finish(system, reminders, until));
      const turns = turnWords(turn !== null && engraving.turnWords ? [turn] : [], engraving);
      const svg = separateIds(setPage(lines, page, { ...words, turns }, layout), page);
      told += 1;
      return { number: page + 1, of, svg };
    },
  };
};
