import { descendantsNamed, escapeText, readMusicFont, type XmlElement } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';

/** Elements of MusicXML whose text may be set in a font of signs. */
const WORDS = [
  'words',
  'rehearsal',
  'per-minute',
  'dynamics',
  'other-dynamics',
  'fingering',
  'text',
] as const;

/** Edits that turn the private characters of a notation program's font into SMuFL's or Unicode's, in MusicXML. */
export const musicGlyphEdits = (bars: readonly XmlElement[]): Edit[] =>
  bars
    .flatMap((bar) => descendantsNamed(bar, ...WORDS))
    .filter(({ children }) => children.length === 0)
    .flatMap((element) => rewritten(element, element.attributes['font-family'] ?? ''));

/** The same in MEI, where a `rend` names the font. */
export const meiGlyphEdits = (root: XmlElement): Edit[] => {
  const tempi = descendantsNamed(root, 'tempo');
  const figures = new Set(tempi.flatMap(notesOfFigures));
  const inTempo = new Set(tempi.flatMap((tempo) => descendantsNamed(tempo, 'rend')));
  return descendantsNamed(root, 'dir', 'tempo', 'dynam', 'reh', 'rend', 'harm', 'syl')
    .filter(({ children }) => children.length === 0)
    .flatMap((element) => {
      const family = figures.has(element) ? NOTE_FONT : (element.attributes.fontfam ?? '');
      return rewritten(element, family, inTempo.has(element));
    });
};

/** A family whose letters are notes. */
const NOTE_FONT = 'Maestro';

/**
 * Letters of such a font that a program has written with the name of a text font: alone before an equals sign and a figure
 * they are the note of a metronome mark (`q` ` = 116`, as in the CollabScore data set).
 */
const notesOfFigures = (tempo: XmlElement): readonly XmlElement[] => {
  const rends = descendantsNamed(tempo, 'rend').filter(({ children }) => children.length === 0);
  return rends.filter(
    ({ text }, i) => /^\s*[whqex]\s*$/iu.test(text) && /^\s*=\s*\d/u.test(rends[i + 1]?.text ?? ''),
  );
};

const EDGE_SPACE = /^ | $/gu;

/** @param keepsSpaces at the ends of a stretch of words, which the layout would drop */
const rewritten = ({ text, inner }: XmlElement, family: string, keepsSpaces = false): Edit[] => {
  const read = readMusicFont(text, family);
  const put = keepsSpaces ? read.replace(EDGE_SPACE, '\u00a0') : read;
  return put === text || inner.end === inner.start ? [] : [{ ...inner, put: escapeText(put) }];
};
