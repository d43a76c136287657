import type { Side } from '../harp/side.ts';
import type { Rational } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import type { NoteChange } from '../sounding/changed-needs.ts';
import { toldAtIn } from '../time/told-at.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { type FactsOf, FINDINGS, type FindingCode } from './catalogue.ts';
import type { Help } from './help/help.ts';
import { type Finding, type FindingPlace, type NoteFix, suggestionsOf } from './model.ts';

/** Where a finding is, and how to fix it. */
export interface FindingContext {
  readonly notes?: readonly Note[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  /** The hand that it is about. */
  readonly hand?: Side;
  readonly fixes?: readonly NoteFix[];
  /** What would help beside the fixes. */
  readonly help?: readonly Help[];
}

/** A finding in words: its severity and its sentence come from the catalogue, its place from the score. */
export const describeFinding = <Code extends FindingCode>(
  score: Score,
  code: Code,
  facts: FactsOf<Code>,
  { notes = [], place, hand, fixes = [], help = [] }: FindingContext,
): Finding<Code> => {
  const { severity, sentence, isGuess } = FINDINGS[code];
  const first = notes[0];
  const bar = score.bars[place?.bar ?? first?.bar ?? 0]!;
  const foundAt: FindingPlace = {
    bar: bar.index,
    barNumber: bar.number,
    barName: nameBarIn(score)(bar.index),
    beat: beatAt(bar, toldAtIn(score)({ at: place?.at ?? first?.onset ?? bar.onset, bar: bar.index })),
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
    fixes,
    help,
    suggestions: suggestionsOf({ fixes, help, places: [foundAt] }),
  };
};

/** The finding without the fixes that hold a change of some kind; what they say is no longer suggested either. */
export const withoutFixes = <
  Described extends Pick<Finding<string>, 'fixes' | 'help' | 'places' | 'suggestions'>,
>(
  finding: Described,
  isOff: (change: NoteChange) => boolean,
): Described => {
  const fixes = finding.fixes.filter(({ changes }) => !changes.some(isOff));
  return { ...finding, fixes, suggestions: suggestionsOf({ ...finding, fixes }) };
};
