import type { EngravingOptions } from '../engraving-options.ts';
import { pageLayoutOf, svgUnitsPerVu } from '../layout/breaks/page-layout.ts';
import type { EarlyPage } from '../layout/early-pages.ts';
import type { LaidOutSystem } from '../layout/laid-out-system.ts';
import { noteSignReplacements } from '../levers/note-signs.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';
import { finishSystem, type SpaceDrawing } from './finish-system.ts';
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
  /** @param reminders bars (indices) at whose start a setting is printed in any case */
  readonly drawings: (reminders: readonly number[]) => ReadonlyMap<string, SpaceDrawing>;
  readonly finish: (system: LaidOutSystem, reminders: readonly number[]) => FinishedLine;
  /** Pages as they come, in their order: null for one that was drawn before. */
  readonly drawEarly: (page: EarlyPage) => ReadyPage | null;
}

/** What is finished, and with what. */
export interface PagesToFinish {
  readonly engraving: EngravingOptions;
  readonly words: Omit<PageWords, 'turns'>;
  /** Markings that the layout itself draws, as notes. */
  readonly signs: readonly (PrintedMarking & { readonly kind: 'lever-notes' })[];
  readonly numberOf: (bar: number) => string;
  readonly drawingsFor: (reminders: readonly number[]) => readonly SpaceDrawing[];
}

export const createPageFinisher = (task: PagesToFinish): PageFinisher => {
  const { drawingsFor, engraving, numberOf, signs, words } = task;
  const layout = pageLayoutOf(engraving);
  const known = new Map<string, ReadonlyMap<string, SpaceDrawing>>();
  const drawings = (reminders: readonly number[]): ReadonlyMap<string, SpaceDrawing> => {
    const key = `${reminders}`;
    const found = known.get(key) ?? new Map(drawingsFor(reminders).map((drawing) => [drawing.id, drawing]));
    known.set(key, found);
    return found;
  };
  const finished = new Map<LaidOutSystem, FinishedLine>();
  const finish: PageFinisher['finish'] = (system, reminders) => {
    const done = finished.get(system);
    if (done !== undefined) return done;
    const named = noteSignReplacements(system.root, signs, numberOf);
    const backed = engraving.placement === 'between';
    const made = finishSystem(system, drawings(reminders), named, svgUnitsPerVu(layout), backed);
    const line = { ...made, system, named: named.length };
    finished.set(system, line);
    return line;
  };
  let told = 0;
  const separateIds = idSeparator();
  return {
    drawings,
    finish,
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
