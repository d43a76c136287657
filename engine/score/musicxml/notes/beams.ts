import { firstChild, type XmlElement } from '../../../xml/tree.ts';
import type { Note } from '../../model/note.ts';

export const readStem = (note: XmlElement): Note['stem'] => {
  const stem = firstChild(note, 'stem')?.text.trim();
  return stem === 'up' || stem === 'down' ? stem : null;
};

/** The beams that are open in each voice: grace notes have their own. */
export class OpenBeams {
  readonly #open = new Map<string, string>();

  /**
   * The name of the beam that a note stands under: of its first, longest line (MusicXML 4.0, `beam`, number 1).
   *
   * @param note the first of its chord
   */
  read(note: XmlElement, voice: string): string | null {
    const beam = firstChild(note, 'beam');
    const key = firstChild(note, 'grace') === undefined ? voice : `grace ${voice}`;
    if (beam === undefined) return null;
    switch (beam.text.trim()) {
      case 'begin': {
        const name = `beam${note.span.start}`;
        this.#open.set(key, name);
        return name;
      }
      case 'continue':
        return this.#open.get(key) ?? null;
      case 'end': {
        const name = this.#open.get(key) ?? null;
        this.#open.delete(key);
        return name;
      }
      default:
        return null;
    }
  }
}
