/** SMuFL 1.4, range “Metronome marks”. */
const NOTE_SIGNS: ReadonlyMap<string, string> = new Map([
  ['breve', '\uECA0'],
  ['whole', '\uECA2'],
  ['half', '\uECA3'],
  ['quarter', '\uECA5'],
  ['eighth', '\uECA7'],
  ['16th', '\uECA9'],
  ['32nd', '\uECAB'],
  ['64th', '\uECAD'],
]);

const DOT = '\uECB7';

/**
 * A metronome mark as a line of text.
 *
 * @param parts in order: `note` and a value by MusicXML's name, `dot`, `=` and what stands behind the sign
 * @returns an empty text where a note value has no sign
 * @example describeMetronome(['note quarter', 'dot', '= 66']) // '\uECA5\uECB7 = 66'
 */
export const describeMetronome = (parts: readonly string[]): string => {
  let text = '';
  let equals = false;
  for (const part of parts) {
    if (part === 'dot') text += DOT;
    else if (part.startsWith('=')) {
      text += ` ${part === '=' ? '= ' : part}`;
      equals = true;
    } else {
      const sign = NOTE_SIGNS.get(part.slice('note '.length));
      if (sign === undefined) return '';
      // The second of two values, where the file writes no sign between them.
      if (text !== '' && !equals) text += ' = ';
      text += sign;
    }
  }
  return text;
};

/** Texts side by side on one line, with a space where words or notes would run into each other. */
export const joinTexts = (texts: readonly string[]): string => {
  let joined = '';
  for (const each of texts) {
    const next = each.replace(/\s+/gu, ' ');
    const meets = /[\p{L}\p{N}.,;:!)\]]$/u.test(joined) && /^[\p{L}\p{N}\p{Co}([]/u.test(next);
    joined += (meets ? ' ' : '') + next;
  }
  return joined.replace(/\s+/gu, ' ').trim();
};
