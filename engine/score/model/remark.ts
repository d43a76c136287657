import { type NumberedBars, nameBarIn } from '../../words/bar-names.ts';

/** What a remark is about. */
export interface Remarked {
  readonly code:
    | 'harp-chosen'
    | 'tempo-assumed'
    | 'harmonic-assumed'
    | 'lever-signs-read'
    | 'repeat-ill-formed'
    | 'bar-overfull'
    | 'alternative-chosen'
    | 'movement-chosen'
    | 'letter-not-in-font'
    | 'page-turn'
    | 'page-crowded'
    | 'file-markings-replaced'
    | 'accidentals-added'
    | 'fingering-left-out'
    | 'many-ledger-lines'
    | 'letters-left-out'
    | 'accidentals-left-out'
    | 'cues'
    | 'moves-not-printed'
    | 'mark-before-note'
    | 'changes-by-name'
    | 'names-in-english'
    | 'breaks-not-kept'
    | 'laid-out-whole'
    | 'saved-decisions'
    | 'title-cut'
    | 'text-encoding'
    | 'omitted-note-not-marked'
    | 'skipped';
  /** Index of the bar it is about; null for the whole score. */
  readonly bar: number | null;
  readonly message: string;
}

/** One thing the user should know about how the file was read. */
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
