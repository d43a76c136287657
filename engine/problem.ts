import { nameCount } from './words/counts.ts';

/** One part of a score, as told to a user who has to choose. */
export interface PartSummary {
  readonly id: string;
  readonly name: string;
  readonly staves: number;
  readonly notes: number;
}

/** One tune of a tune book, as told to a user who has to choose. */
export interface TuneSummary {
  readonly number: string;
  readonly title: string;
}

/**
 * Every way in which input can be refused, with the facts a user needs to fix it. One union, so that the server's
 * table of statuses is checked to be complete by the compiler.
 */
export type Problem =
  | { readonly code: 'empty-input' }
  | { readonly code: 'unknown-encoding'; readonly encoding: string }
  | { readonly code: 'bad-characters'; readonly encoding: string; readonly offset: number }
  | { readonly code: 'not-a-score'; readonly found: string }
  | {
      readonly code: 'malformed-xml';
      readonly message: string;
      readonly line: number;
      readonly column: number;
    }
  | {
      readonly code: 'entity-refused';
      readonly entity: string;
      readonly line: number;
      readonly column: number;
    }
  | { readonly code: 'archive-corrupt'; readonly message: string }
  | { readonly code: 'archive-without-score'; readonly entries: readonly string[] }
  | {
      readonly code: 'limit-exceeded';
      readonly what:
        | 'bytes'
        | 'inflated-bytes'
        | 'inflation-ratio'
        | 'archive-entries'
        | 'depth'
        | 'elements'
        | 'tuplet-nesting'
        | 'movements'
        | 'staff-lines'
        | 'page-side'
        | 'bars'
        | 'notes'
        | 'notes-in-bar'
        | 'notes-at-once'
        | 'voices'
        | 'lyrics-on-note'
        | 'text-length'
        | 'expansion-entries'
        | 'tunes'
        | 'tune-length'
        | 'line-length'
        | 'staves'
        | 'pages';
      readonly limit: number;
      readonly found: number;
    }
  | {
      readonly code: 'bad-value';
      readonly what: string;
      readonly value: string;
      readonly line: number;
      readonly column: number;
    }
  | { readonly code: 'unsupported'; readonly feature: string; readonly advice: string }
  | { readonly code: 'no-parts' }
  | { readonly code: 'harp-not-found'; readonly parts: readonly PartSummary[] }
  | {
      readonly code: 'unknown-part';
      /** Which option asks for it. */
      readonly option: 'part' | 'withPart';
      readonly wanted: string;
      readonly parts: readonly PartSummary[];
    }
  | { readonly code: 'no-notes'; readonly part: string; readonly parts: readonly PartSummary[] }
  /** Of several tunes none is named. */
  | { readonly code: 'choose-tune'; readonly tunes: readonly TuneSummary[] }
  | { readonly code: 'unknown-tune'; readonly wanted: string; readonly tunes: readonly TuneSummary[] }
  | { readonly code: 'unknown-movement'; readonly wanted: string; readonly movements: readonly string[] }
  | { readonly code: 'bad-tune'; readonly tune: string; readonly line: number }
  /** `tune` is null where the file has none at all. */
  | { readonly code: 'no-music'; readonly tune: string | null }
  | { readonly code: 'layout-failed' };

/** What can be refused answers with a result; `throw` means a bug. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: Problem };

/** A result that is a value. */
export const ok = <T>(value: T): Result<T> => ({ ok: true, value });

/** A result that is a problem. */
export const fail = (problem: Problem): { readonly ok: false; readonly problem: Problem } => ({
  ok: false,
  problem,
});

const listParts = (parts: readonly PartSummary[]): string =>
  parts
    .map(
      ({ id, name, staves, notes }) =>
        `${id} (${name || 'no name'}, ${nameCount(staves, 'staff', 'staves')}${notes === 0 ? ', no notes' : ''})`,
    )
    .join(', ');

/** More tunes than this are not listed one by one. */
const MOST_LISTED = 12;

const listTunes = (tunes: readonly TuneSummary[]): string => {
  const named = tunes
    .slice(0, MOST_LISTED)
    .map(({ number, title }) => (title === '' ? number : `${number} (${title})`));
  const more = tunes.length - named.length;
  return more > 0 ? `${named.join(', ')} and ${more} more` : named.join(', ');
};

/** What is done about a file with too much of something: there is less to send, or something is wrong in it. */
const SEND_LESS = 'Export the harp part alone, or one movement or tune at a time.';
const CORRECT_IT = 'Correct this in the score and export it again.';

/** What is counted, and what to do where there is too much of it. */
const LIMITS: Readonly<
  Record<Extract<Problem, { code: 'limit-exceeded' }>['what'], readonly [what: string, advice: string]>
> = {
  bytes: ['bytes', SEND_LESS],
  'inflated-bytes': ['bytes after unpacking', SEND_LESS],
  'inflation-ratio': ['times its compressed size once unpacked', CORRECT_IT],
  'archive-entries': ['files in the archive', SEND_LESS],
  depth: ['levels of nested elements', CORRECT_IT],
  elements: ['elements', SEND_LESS],
  'tuplet-nesting': ['tuplets nested inside one another', CORRECT_IT],
  movements: ['movements', SEND_LESS],
  'staff-lines': ['lines in a staff', CORRECT_IT],
  'page-side': ['layout units along one side of the page', CORRECT_IT],
  bars: ['bars', SEND_LESS],
  notes: ['notes in the harp part', SEND_LESS],
  'notes-in-bar': ['notes in one bar', CORRECT_IT],
  'notes-at-once': ['notes at one moment', CORRECT_IT],
  voices: ['voices in one bar of a staff', CORRECT_IT],
  'lyrics-on-note': ['lines of lyrics under one note', CORRECT_IT],
  'text-length': ['characters in one text that is printed', CORRECT_IT],
  'expansion-entries': ['entries in an expansion', CORRECT_IT],
  tunes: ['tunes', SEND_LESS],
  'tune-length': ['characters in one tune', CORRECT_IT],
  'line-length': ['characters in one line', CORRECT_IT],
  staves: ['staves', SEND_LESS],
  pages: ['pages', SEND_LESS],
};

/** The sentence for a person: what is wrong, where, and what to do. */
export const problemMessage = (problem: Problem): string => {
  switch (problem.code) {
    case 'empty-input':
      return 'The file is empty. Send a MusicXML, MEI or ABC file.';
    case 'unknown-encoding':
      return `The text encoding “${problem.encoding}” is not supported. Save the file as UTF-8.`;
    case 'bad-characters':
      return `The file is not valid ${problem.encoding} at byte ${problem.offset}. Save it again as UTF-8.`;
    case 'not-a-score':
      return `This is ${problem.found}, not a MusicXML, MEI or ABC score. Export the part as MusicXML or MEI.`;
    case 'malformed-xml':
      return `The XML is broken at line ${problem.line}, column ${problem.column}: ${problem.message}. Export the file again.`;
    case 'entity-refused':
      return `The entity “${problem.entity}” at line ${problem.line}, column ${problem.column} is not allowed. Write the character itself.`;
    case 'archive-corrupt':
      return `The compressed file cannot be unpacked: ${problem.message}. Export it again.`;
    case 'archive-without-score':
      return `${
        problem.entries.length === 0
          ? 'The archive is empty: there is no score in it.'
          : `There is no MusicXML score in the archive, only ${problem.entries.join(', ')}.`
      } Send the score itself, as MusicXML, MEI or ABC.`;
    case 'limit-exceeded': {
      const [what, advice] = LIMITS[problem.what];
      return `The file has ${problem.found} ${what}; at most ${problem.limit} are accepted. ${advice}`;
    }
    case 'bad-value':
      return `“${problem.value}” at line ${problem.line}, column ${problem.column} is not a valid ${problem.what}. Correct it there, or export the score again.`;
    case 'unsupported':
      return `${problem.feature} is not supported. ${problem.advice}`;
    case 'no-parts':
      return 'The score has no parts. Export it again, with the harp part in it.';
    case 'harp-not-found':
      return `No part is named or marked as a harp. Choose the part to use: ${listParts(problem.parts)}.`;
    case 'unknown-part':
      return `There is no part “${problem.wanted}”. The parts are ${listParts(problem.parts)}.`;
    case 'no-notes':
      return `The part ${problem.part} has no notes. ${adviceWithoutNotes(problem.parts)}`;
    case 'choose-tune':
      return `The file has ${problem.tunes.length} tunes. Choose one by its number or title: ${listTunes(problem.tunes)}.`;
    case 'unknown-tune':
      return problem.tunes.length === 0
        ? `There is no tune “${problem.wanted}”: only an ABC file has tunes to choose from.`
        : `“${problem.wanted}” is not the number or title of exactly one tune. The tunes are ${listTunes(problem.tunes)}.`;
    case 'unknown-movement':
      return problem.movements.length === 0
        ? `There is no movement “${problem.wanted}” to choose: only MEI files have movements that are read one by one.`
        : `“${problem.wanted}” is not the number or title of exactly one movement. The movements are ${problem.movements.join(', ')}.`;
    case 'bad-tune':
      return `The tune ${problem.tune}, which begins at line ${problem.line}, is too broken to be read. Correct its ABC.`;
    case 'no-music':
      return problem.tune === null
        ? 'The ABC file has no tune: a tune begins with a line such as X:1 and has a key such as K:G.'
        : `The tune ${problem.tune} has no notes. Choose another tune.`;
    case 'layout-failed':
      return 'The score was read, but its pages could not be laid out. Export it again, if you can from another program.';
  }
};

const adviceWithoutNotes = (parts: readonly PartSummary[]): string => {
  const others = parts.filter(({ notes }) => notes > 0);
  return others.length === 0
    ? 'No other part of the score has any either. Export the score again.'
    : `Choose another part: ${listParts(others)}.`;
};
