import type { Side } from '../harp/side.ts';
import type { Rational } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import type { NoteChange } from '../sounding/changed-needs.ts';
import { type FactsOf, FINDINGS, type FindingCode } from './catalogue.ts';
import type { Finding, FindingPlace, NoteFix } from './model.ts';

/** Where a finding is, and how to fix it. */
export interface FindingContext {
  readonly notes?: readonly Note[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  /** The hand that it is about. */
  readonly hand?: Side;
  readonly suggestions?: readonly string[];
  readonly fixes?: readonly NoteFix[];
}

/** A finding in words: its severity and its sentence come from the catalogue, its place from the score. */
export const describeFinding = <Code extends FindingCode>(
  score: Score,
  code: Code,
  facts: FactsOf<Code>,
  { notes = [], place, hand, suggestions = [], fixes = [] }: FindingContext,
): Finding<Code> => {
  const { severity, sentence, isGuess } = FINDINGS[code];
  const first = notes[0];
  const bar = score.bars[place?.bar ?? first?.bar ?? 0]!;
  const foundAt: FindingPlace = {
    bar: bar.index,
    barNumber: bar.number,
    beat: beatAt(bar, place?.at ?? first?.onset ?? bar.onset),
    staff: first?.staff ?? null,
    hand: hand ?? null,
    notes: [...new Set(notes.map((note) => note.id))],
    sentence: sentence(facts),
  };
  return {
    code,
    severity,
    ...foundAt,
    told: { kind: 'place', facts, guessed: isGuess?.(facts) ?? false },
    places: [foundAt],
    suggestions: suggestions.filter((suggestion) => suggestion !== ''),
    fixes,
  };
};

/** The finding without the fixes that hold a change of some kind; what they say is no longer suggested either. */
export const withoutFixes = <Described extends Pick<Finding<string>, 'fixes' | 'suggestions'>>(
  finding: Described,
  isOff: (change: NoteChange) => boolean,
): Described => {
  const off = finding.fixes.filter(({ changes }) => changes.some(isOff));
  const sentences = new Set(off.map(({ sentence }) => sentence));
  return {
    ...finding,
    fixes: finding.fixes.filter((fix) => !off.includes(fix)),
    suggestions: finding.suggestions.filter((suggestion) => !sentences.has(suggestion)),
  };
};
