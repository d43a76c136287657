import { checkDecisions, type Decisions } from '../../../../engine/index.ts';
import { fingerprintOf } from './fingerprint.ts';
import { type Memory, putOnShelf, takeFromShelf } from './shelf.ts';

const SHELF = 'tringle-decisions';

/** A score file as it was chosen: its bytes, the part, the tune and the movement where the user chose one, and whether it is followed. */
interface FileBytes {
  readonly bytes: Uint8Array;
  readonly part: string | null;
  readonly tune?: string;
  readonly movement?: string;
  readonly followed?: string;
}

/** Where all movements are chosen, the first is worked on, as where it is chosen alone. */
export const workedOn = (movement: string | undefined): string | undefined =>
  movement === '1' ? undefined : movement;

/** By what a score is known again: its bytes, or its place where it is followed, and what was chosen in it. */
export const keyOfFile = ({ bytes, followed, movement, part, tune }: FileBytes): string =>
  [
    followed === undefined ? fingerprintOf(bytes) : `followed ${followed}`,
    ...(part === null ? [] : [part]),
    ...(tune === undefined ? [] : [`tune ${tune}`]),
    ...(workedOn(movement) === undefined ? [] : [`movement ${movement}`]),
  ].join(' ');

/** The decisions kept for a score; null where there are none. */
export const recallDecisions = (memory: Memory, key: string): Decisions | null => {
  const checked = checkDecisions(takeFromShelf(memory, SHELF, key));
  return checked.ok ? checked.decisions : null;
};

/** Keeps the decisions on a score. @returns whether it could be done */
export const keepDecisions = (memory: Memory, key: string, decisions: Decisions): boolean =>
  putOnShelf(memory, SHELF, key, decisions);
