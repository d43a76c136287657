import { type NumberedBars, nameBarIn } from '../../words/bar-names.ts';

/** Every kind of remark, and what it says of a score: about reading it first, then about printing it. */
export const REMARK_KINDS = {
  'harp-chosen': 'which part was taken for the harp’s',
  'movement-chosen': 'which movement of several was read',
  'alternative-chosen': 'which of several ways of reading was taken',
  'text-encoding': 'that text which is not UTF-8 was read as ISO-8859-1',
  'title-cut': 'that a title was cut',
  'tempo-assumed': 'that a tempo was assumed where none is written',
  'harmonic-assumed': 'at which pitch harmonics were read',
  'lever-signs-read': 'what was read as a sign for a lever',
  'bar-overfull': 'that a bar is longer than its time signature',
  'repeat-ill-formed': 'that repeats do not fit together',
  skipped: 'what was not read',
  'saved-decisions': 'that decisions saved in the file cannot be read',
  'page-turn': 'at which page turns there is no time, or good time',
  'page-crowded': 'that markings touch on a page',
  'many-ledger-lines': 'where notes stand far from the staff',
  cues: 'which cues are printed, or could be',
  'accidentals-added': 'accidentals that were added to match the sound',
  'accidentals-left-out': 'accidentals in words that were left out',
  'letters-left-out': 'coloured letters of an analysis that were left out',
  'letter-not-in-font': 'characters that no font of the pages has',
  'fingering-left-out': 'fingerings that were left out',
  'moves-not-printed': 'how many moves are not printed',
  'mark-before-note': 'letters that stand before the note that needs them',
  'changes-by-name': 'lever changes that are printed by name',
  'names-in-english': 'that note names in the file are English',
  'file-markings-replaced': 'markings of the file that were replaced',
  'omitted-note-not-marked': 'notes left out that have no brackets in the file',
  'breaks-not-kept': 'that the breaks of the file were not kept',
  'laid-out-whole': 'that the part was laid out as one piece',
} as const;

/** The name of a kind of remark. */
export type RemarkCode = keyof typeof REMARK_KINDS;

/** What a remark is about. */
export interface Remarked {
  readonly code: RemarkCode;
  /** Index of the bar it is about; null for the whole score. */
  readonly bar: number | null;
  readonly message: string;
}

/** One thing the user should know about how the file was read, or is printed. */
export interface Remark extends Pick<Remarked, 'code' | 'message'> {
  /** The printed number of the bar it is about; empty for the whole score. */
  readonly barNumber: string;
  /** How people are told of that bar (`nameBarIn`); empty for the whole score. */
  readonly barName: string;
}

/** A remark on the whole score. */
export const remarkOnAll = (code: Remark['code'], message: string): Remark => ({
  code,
  barNumber: '',
  barName: '',
  message,
});

/** A remark as the user is told it, once the bars of its score have their numbers and movements. */
export const remarkIn = (score: NumberedBars, { code, bar, message }: Remarked): Remark => {
  const number = bar === null ? undefined : score.bars[bar]?.number;
  if (bar === null || number === undefined) return remarkOnAll(code, message);
  return { code, barNumber: number, barName: nameBarIn(score)(bar), message };
};
