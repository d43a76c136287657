import type { Rational } from '../music/rational.ts';
import type { Finding, Mend, NoteChange, Severity } from '../pedals/model.ts';
import type { Note, Score } from '../score/model.ts';
import { beatAt } from '../time/moments.ts';

/** A finding before its place in the score is worked out. */
export interface Told<Code extends string> {
  readonly code: Code;
  readonly severity: Severity;
  readonly notes: readonly Note[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  readonly sentence: string;
  readonly suggestions: readonly string[];
  readonly mends?: readonly Mend[];
}

export const tell = <Code extends string>(
  score: Score,
  { code, severity, notes, place, sentence, suggestions, mends = [] }: Told<Code>,
): Omit<Finding, 'code'> & { readonly code: Code } => {
  const first = notes[0];
  const bar = score.bars[place?.bar ?? first?.bar ?? 0]!;
  return {
    code,
    severity,
    bar: bar.index,
    barNumber: bar.number,
    beat: beatAt(bar, place?.at ?? first?.onset ?? bar.onset),
    staff: first?.staff ?? null,
    notes: notes.map((note) => note.id),
    sentence,
    suggestions: suggestions.filter((suggestion) => suggestion !== ''),
    mends,
  };
};

/** The finding without the mends that hold a change of some kind; what they say is no longer suggested either. */
export const withoutMends = <Told extends Pick<Finding, 'mends' | 'suggestions'>>(
  finding: Told,
  isOff: (change: NoteChange) => boolean,
): Told => {
  const off = finding.mends.filter(({ changes }) => changes.some(isOff));
  const sentences = new Set(off.map(({ sentence }) => sentence));
  return {
    ...finding,
    mends: finding.mends.filter((mend) => !off.includes(mend)),
    suggestions: finding.suggestions.filter((suggestion) => !sentences.has(suggestion)),
  };
};
