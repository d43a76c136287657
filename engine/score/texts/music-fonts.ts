/**
 * Signs by their codes in the music fonts of notation programs that came before SMuFL: where the letters of a text font
 * would be, they have notes, accidentals and dynamics. Most of these fonts share the order of the first (from memory).
 */
const SIGNS: ReadonlyMap<string, string> = new Map([
  // Notes of metronome marks (SMuFL 1.4, “Metronome marks”), stems up and down.
  ['w', '\uECA2'],
  ['h', '\uECA3'],
  ['H', '\uECA4'],
  ['q', '\uECA5'],
  ['Q', '\uECA6'],
  ['e', '\uECA7'],
  ['E', '\uECA8'],
  ['x', '\uECA9'],
  ['X', '\uECAA'],
  ['.', '\uECB7'],
  ['k', '\uECB7'],
  ['b', '♭'],
  ['n', '♮'],
  ['#', '♯'],
  // Metre figures are figures; the two signs are those of SMuFL's “Time signatures”.
  ...Array.from('0123456789', (figure) => [figure, figure] as const),
  ['c', '\uE08A'],
  ['C', '\uE08B'],
  // SMuFL's “Dynamics”: letters, and the joined ones of the upper half.
  ['p', '\uE520'],
  ['m', '\uE521'],
  ['f', '\uE522'],
  ['r', '\uE523'],
  ['s', '\uE524'],
  ['z', '\uE525'],
  ['P', '\uE52C'],
  ['F', '\uE52D'],
  ['S', '\uE536'],
  ['Z', '\uE535'],
  ['¹', '\uE52B'],
  ['¸', '\uE52A'],
  ['Ä', '\uE52F'],
  ['ì', '\uE530'],
  ['§', '\uE539'],
  ['ê', '\uE534'],
  ['%', '\uE047'],
  ['U', '\uE4C0'],
  ['=', '='],
  ['+', '+'],
  ['(', '('],
  [')', ')'],
  ['[', '['],
  [']', ']'],
  ['/', '/'],
]);

/** Families whose letters are signs; text fonts that go with them, and fonts by SMuFL, are none. */
const FAMILY =
  /^["']?(?:maestro|petrucci|sonata|opus|helsinki|inkpen2|reprise|engraver|ash ?music|chaconne)(?: std| wide)?["']?$/iu;

/** Where Windows puts the codes of a font that is no text font. */
const SYMBOL_PAGE = /[\uF020-\uF0FF]/gu;

/**
 * Words with the signs of a notation program's own font as characters that every reader knows: SMuFL's, or Unicode's. What is
 * not known stays as it is.
 *
 * @param family the font that the file names for the words; empty for none
 * @example readMusicFont('q = 66', 'Maestro') // '\uECA5 = 66'
 */
export const readMusicFont = (text: string, family: string): string => {
  const first = family.split(',')[0]!.trim();
  const whole = [...text];
  const isSigns = FAMILY.test(first) && whole.every((each) => /\s/u.test(each) || SIGNS.has(each));
  if (isSigns) return whole.map((each) => SIGNS.get(each) ?? each).join('');
  return text.replace(
    SYMBOL_PAGE,
    (each) => SIGNS.get(String.fromCodePoint(each.codePointAt(0)! - 0xf000)) ?? each,
  );
};
