import type { Score, Setting } from '../../engine/index.ts';
import type { MarkingPlacement } from '../engraving-options.ts';
import { describeLeverStart, leverName } from '../levers/lever-words.ts';
import { FIRST_TIME } from '../markings/markings.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';
import { tuningLines } from '../markings/tuning-note.ts';
import { changeLines } from './change-words.ts';

/** What a marking says in a score file: the positions of all pedals, or lines of words. */
export type MarkContent =
  | {
      readonly kind: 'setting';
      readonly setting: Setting /** Words beside it, or none. */;
      readonly words: string;
    }
  | { readonly kind: 'words'; readonly lines: readonly string[] };

export const markContentOf = (marking: PrintedMarking): MarkContent => {
  switch (marking.kind) {
    case 'setting':
      return {
        kind: 'setting',
        setting: marking.setting,
        words: marking.firstTimeOnly ? FIRST_TIME : '',
      };
    case 'tuning':
      return { kind: 'words', lines: tuningLines(marking) };
    case 'change':
      return { kind: 'words', lines: changeLines(marking) };
    case 'levers':
      return { kind: 'words', lines: describeLeverStart(marking) };
    case 'lever-change':
    case 'lever-notes':
      return { kind: 'words', lines: [marking.changes.map(leverName).join(' ')] };
  }
};

/** By which staff of the harp a marking stands, and on which side of it. */
export interface MarkSide {
  readonly staff: 'highest' | 'lowest';
  readonly place: 'above' | 'below';
}

/** Between the staves, where there are two, is above the lowest. */
export const markSideOf = (placement: MarkingPlacement, { harp }: Score): MarkSide => {
  switch (placement) {
    case 'above':
      return { staff: 'highest', place: 'above' };
    case 'below':
      return { staff: 'lowest', place: 'below' };
    case 'between':
      return { staff: 'lowest', place: harp.staves === 1 ? 'below' : 'above' };
  }
};
