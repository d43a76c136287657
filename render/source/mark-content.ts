import type { Setting } from '../../engine/harp/setting.ts';
import type { Score } from '../../engine/score/model.ts';
import { leverName, startLines } from '../levers/lever-words.ts';
import type { PrintedMarking } from '../printed-markings.ts';
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

/** On which side of the harp's lowest staff it stands: what tells of levers between the staves, where there are two. */
export const sideOfLowestStaff = ({ kind }: PrintedMarking, { harp }: Score): 'above' | 'below' =>
  kind === 'setting' || kind === 'change' || harp.staves === 1 ? 'below' : 'above';
