import type { Setting } from '../../engine/harp/setting.ts';
import type { LeverMove } from '../../engine/levers/model.ts';
import type { Letter } from '../../engine/music/pitch.ts';
import type { Art } from '../draw/art.ts';
import type { RowItem } from '../draw/name-items.ts';
import type { LeverChangeMark } from '../levers/lever-change.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { Glyph } from '../text/outline.ts';

/** A look in words. */
export interface LookWords {
  /** As a choice in a list, after “Full settings” or “Changes”. */
  readonly label: string;
  /** What it prints, as a phrase for the documentation. */
  readonly meaning: string;
}

/** What a look draws with. Looks hold no fonts of their own, so that a browser can read their words. */
export interface Pen {
  /** A glyph of the music font by its SMuFL code. */
  readonly glyph: (code: number) => Glyph;
  /** Rows of note names, the upper row first, centred on one another. */
  readonly nameRows: (rows: readonly (readonly RowItem[])[], naming: NoteNaming) => Art;
}

/** A full setting to be drawn. */
export interface SettingToDraw {
  readonly setting: Setting;
  /** Pedals that are ringed. */
  readonly ringed: readonly Letter[];
  readonly naming: NoteNaming;
}

/** One way to print a full setting. What it draws brings its size with it, so that the two cannot differ. */
export interface SettingLook {
  readonly words: LookWords;
  readonly draw: (setting: SettingToDraw, pen: Pen) => Art;
}

/** One way to print the lever changes of a moment. */
export interface LeverLook {
  readonly words: LookWords;
  /** The kind of mark that it prints where it can. */
  readonly kind: LeverChangeMark['kind'];
  /**
   * @param moves of one moment, from the lowest string
   * @param id of the marking
   * @param hostOf what a small note for a move can stand before, by id; null where nothing begins there
   */
  readonly mark: (
    moves: readonly LeverMove[],
    id: string,
    hostOf: (move: LeverMove) => string | null,
  ) => LeverChangeMark;
}
