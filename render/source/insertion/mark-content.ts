import { formatSetting, type Score, type Setting } from '../../../engine/index.ts';
import type { FileSettings, MarkingPlacement } from '../../engraving-options.ts';
import { leverName } from '../../levers/lever-words.ts';
import { FIRST_TIME } from '../../markings/markings.ts';
import type { PrintedMarking } from '../../markings/printed-markings.ts';
import { tuningLines } from '../../markings/tuning-note.ts';
import { describeLeverStart } from '../../spoken/describe-levers.ts';
import { changeLines, leverChangeLines } from './change-words.ts';

/** What a marking says in a score file: the positions of all pedals, in words as well where `words` is not null, or lines of words. */
export type MarkContent =
  | {
      readonly kind: 'setting';
      readonly setting: Setting;
      /** The setting in words as well; null where it is not to be. */
      readonly words: string | null;
      /** For which time of playing it holds; null where for all. */
      readonly time: string | null;
      /** As of a change. */
      readonly withNote: boolean;
    }
  | { readonly kind: 'words'; readonly lines: readonly string[] };

export const markContentOf = (marking: PrintedMarking, settings: FileSettings): MarkContent => {
  switch (marking.kind) {
    case 'setting':
      return {
        kind: 'setting',
        setting: marking.setting,
        words: settings === 'both' ? formatSetting(marking.setting) : null,
        time: marking.firstTimeOnly ? FIRST_TIME : null,
        withNote: marking.withNote,
      };
    case 'tuning':
      return { kind: 'words', lines: tuningLines(marking) };
    case 'change':
      return { kind: 'words', lines: changeLines(marking) };
    case 'levers':
      return { kind: 'words', lines: describeLeverStart(marking) };
    case 'lever-change':
      return { kind: 'words', lines: leverChangeLines(marking) };
    case 'lever-notes':
      return { kind: 'words', lines: [marking.changes.map(leverName).join(' ')] };
  }
};

/** By which staff of the harp a marking stands, and on which side of it. */
export interface MarkSide {
  readonly staff: 'highest' | 'lowest';
  readonly place: 'above' | 'below';
}

/** What is tuned before playing stands over the first system, as on the pages; all else as is asked for. */
export const sideOf = ({ kind }: PrintedMarking, side: MarkSide): MarkSide =>
  kind === 'tuning' ? { staff: 'highest', place: 'above' } : side;

/** How markings are written into a file. */
export interface MarkStyle {
  readonly side: MarkSide;
  readonly settings: FileSettings;
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
