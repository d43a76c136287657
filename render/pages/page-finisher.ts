import type { EngravingOptions } from '../engraving-options.ts';
import { pageLayoutOf, svgUnitsPerVu } from '../layout/breaks/page-layout.ts';
import type { EarlyPage } from '../layout/early-pages.ts';
import type { LaidOutSystem } from '../layout/laid-out-system.ts';
import type { LaidOutScore } from '../layout/lay-out.ts';
import { noteSignReplacements } from '../levers/note-signs.ts';
import { finishSystem, type SpaceDrawing } from './finish-system.ts';
import type { PageDrawings } from './page-drawings.ts';
import { type PageWords, type SystemToSet, setPage } from './set-pages.ts';
import { turnWords } from './turn-words.ts';
import { idSeparator } from './unique-ids.ts';

/** A page that is drawn, while others may not be. */
export interface ReadyPage {
  /** From 1. */
  readonly number: number;
  /** How many pages there will be, as far as that is known. */
  readonly of: number;
  /** An SVG document. */
  readonly svg: string;
}

/** A finished system of the layout. */
export interface FinishedLine extends SystemToSet {
  readonly system: LaidOutSystem;
  /** How many signs of the layout were named as ours. */
  readonly named: number;
}

/** Puts our drawings on the lines of one score; a line that was finished before is not finished again. */
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
  const drawingsFor = (reminders: readonly number[]): ReadonlyMap<string, SpaceDrawing> => {
    const key = `${reminders}`;
    const found = byId.get(key) ?? new Map(drawings.drawings(reminders).map((each) => [each.id, each]));
    byId.set(key, found);
    return found;
  };
  const finished = new Map<LaidOutSystem, FinishedLine>();
  const finish = (system: LaidOutSystem, reminders: readonly number[]): FinishedLine => {
    const done = finished.get(system);
    if (done !== undefined) return done;
    const named = noteSignReplacements(system.root, drawings.signs, numberOf);
    const backed = engraving.placement === 'between';
    const made = finishSystem(system, drawingsFor(reminders), named, svgUnitsPerVu(layout), backed);
    const line = { ...made, system, named: named.length };
    finished.set(system, line);
    return line;
  };
  let told = 0;
  const separateIds = idSeparator();
  return {
    finishAll: ({ pages, reminders }) => {
      const lines = pages.map((held) => held.map((system) => finish(system, reminders)));
      const all = lines.flat();
      const placed = all.reduce((sum, { system }) => sum + system.placed.length, 0);
      const named = all.reduce((sum, line) => sum + line.named, 0);
      const signed = drawings.signs.reduce((sum, { changes }) => sum + changes.length, 0);
      return placed === drawingsFor(reminders).size && named === signed ? lines : null;
    },
    drawEarly: ({ of, page, reminders, systems, turn }) => {
      if (page !== told) return null;
      const lines = systems.map((system) => finish(system, reminders));
      const turns = turnWords(turn !== null && engraving.turnWords ? [turn] : []);
      const svg = separateIds(setPage(lines, page, { ...words, turns }, layout).svg, page);
      told += 1;
      return { number: page + 1, of, svg };
    },
  };
};
