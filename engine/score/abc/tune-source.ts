import { readAbcText } from './book/abc-text.ts';
import type { BookTune } from './book/tune-book.ts';
import { Losses } from './losses.ts';
import type { TuneField } from './tune.ts';
import { type AccidentalReach, isReach } from './voice/voice-pitches.ts';

/** A tune as text for the parser, with what is read from its lines without it. */
export interface TuneSource {
  readonly text: string;
  /** The line of the file in which a character of the text stands. */
  readonly lineAt: (char: number) => number;
  readonly titles: readonly string[];
  readonly composer: string;
  readonly fields: readonly TuneField[];
  readonly reach: AccidentalReach;
}

/** Fields that the parser reads, or that are titles. */
const READ = /^[XTCKLMPQVUw]:/u;
/** A letter and a colon, but for the note before a repeat sign. */
const FIELD = /^([A-Za-z+]):(?![|:])/u;
/** Instructions that the parser follows. */
const FOLLOWED = /^%%(?:score|staves)\b/u;
/** Instructions about the look of pages, about sound, and about the file: a page of ours has its own look. */
const DIRECTIVE = /^%%([A-Za-z-]+)/u;

/** What becomes of the lines that are not for the parser; they are blanked, so that places stay. */
const LOST_FIELDS: Readonly<Record<string, string>> = {
  s: 'Lines of symbols (s:) are left out',
  W: 'Words after the tune (W:) are not printed',
  m: 'Macros (m:) are not carried out',
  I: 'Instructions in fields (I:) are not followed',
  '+': 'Fields that go on (+:) are left out',
};

const content = (line: string): string => readAbcText(line.slice(2).replace(/(?<!\\)%.*$/u, ''));

/**
 * Gets one tune ready for the parser. Only what the parser is needed for is handed to it; each other line is kept in
 * the head of the file or told.
 */
export const readTuneSource = (
  header: readonly string[],
  tune: BookTune,
): { readonly source: TuneSource; readonly losses: Losses } => {
  const common = header.filter((line) => !/^[XTK]:/u.test(line));
  // The field `X:` comes first.
  const lines = [tune.lines[0]!, ...common, ...tune.lines.slice(1)];
  const numbers = [
    tune.line,
    ...common.map(() => 1),
    ...tune.lines.slice(1).map((_, index) => tune.line + 1 + index),
  ];
  const lineAt = lineFinder(lines, numbers);
  const losses = new Losses(lineAt);
  const composers: string[] = [];
  const fields: TuneField[] = [];
  let reach: AccidentalReach = 'octave';
  const handed = lines.map((line, index) => {
    const asked = /^(?:%%|I:)\s*propagate-accidentals\s+(\w+)/u.exec(line)?.[1];
    if (asked !== undefined && isReach(asked)) {
      reach = asked;
      return blank(line);
    }
    if (line.startsWith('C:')) composers.push(content(line));
    const field = FIELD.exec(line);
    if (line.startsWith('%')) return readDirective(line, numbers[index]!, losses);
    if (field === null || READ.test(line)) return line;
    const letter = field[1]!;
    const lost = LOST_FIELDS[letter];
    if (lost !== undefined) losses.inLine(lost, numbers[index]!);
    else if (letter !== 'r') fields.push({ letter, text: content(line) });
    return blank(line);
  });
  for (const line of tune.strayLines) losses.inLine('Lines after an empty line belong to no tune', line);
  const titles = tune.lines
    .filter((line) => line.startsWith('T:'))
    .map(content)
    .filter((title) => title !== '');
  const text = handed.join('\n');
  return {
    source: { text, lineAt, titles, composer: composers.join(', '), fields, reach },
    losses,
  };
};

const blank = (line: string): string => `%${' '.repeat(Math.max(0, line.length - 1))}`;

const readDirective = (line: string, number: number, losses: Losses): string => {
  if (FOLLOWED.test(line)) return line;
  const name = DIRECTIVE.exec(line)?.[1];
  if (name !== undefined && !name.startsWith('abc'))
    losses.inLine(`The instruction %%${name} is not followed`, number);
  return blank(line);
};

/** Finds the line of a character by halves. */
const lineFinder = (lines: readonly string[], numbers: readonly number[]): ((char: number) => number) => {
  const starts: number[] = [];
  let start = 0;
  for (const line of lines) {
    starts.push(start);
    start += line.length + 1;
  }
  return (char) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (starts[middle]! <= char) low = middle;
      else high = middle - 1;
    }
    return numbers[low] ?? 1;
  };
};
