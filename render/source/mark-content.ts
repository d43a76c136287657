import type { Setting } from '../../engine/harp/setting.ts';
import type { Score } from '../../engine/score/model.ts';
import type { MarkingPlacement } from '../engraving-options.ts';
import { leverName, startLines } from '../levers/lever-words.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';
import { changeLines } from './change-lines.ts';

/** What a marking says in a score file: the positions of all pedals, or lines of words. */
export type MarkContent =
  | { readonly kind: 'setting'; readonly setting: Setting }
  | { readonly kind: 'words'; readonly lines: readonly string[] };

export const contentOf = (marking: PrintedMarking): MarkContent => {
  switch (marking.kind) {
    case 'setting':
      return { kind: 'setting', setting: marking.setting };
    case 'change':
      return { kind: 'words', lines: changeLines(marking) };
    case 'levers':
      return { kind: 'words', lines: startLines(marking) };
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
