/** One thing the user should know about how the file was read. `barNumber` is the printed number, empty for the whole score. */
export interface Remark {
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
  readonly barNumber: string;
  readonly message: string;
}
