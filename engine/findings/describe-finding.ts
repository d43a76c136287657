import { group } from '../group.ts';
import type { Side } from '../harp/side.ts';
import { type Rational, rationalKey } from '../music/rational.ts';
import type { NonEmpty } from '../non-empty.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import type { NoteChange } from '../sounding/changed-needs.ts';
import { toldAtIn } from '../time/told-at.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { type FactsOf, FINDINGS, type FindingCode, type ToldPlace } from './catalogue.ts';
import type { Help } from './help/help.ts';
import { type Finding, type FindingPlace, type NoteFix, suggestionsOf } from './model.ts';

/** A moment of the score: the bar as an index. */
export interface PlaceAt {
  readonly bar: number;
  readonly at: Rational;
}

/** Where a finding is told, and of which notes: where nothing else is said, at the first of them. */
export type FindingAt =
  | { readonly notes: NonEmpty<Note>; readonly place?: never }
  /** `start` for what concerns the part as a whole. */
  | { readonly notes?: readonly Note[]; readonly place: PlaceAt | 'start' };

/** Where a finding is, and how to fix it. */
export type FindingContext = FindingAt & FindingHelp;

interface FindingHelp {
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
  { hand, fixes = [], help = [], ...where }: FindingContext,
): Finding<Code> => {
  const { severity, sentence, isGuess } = FINDINGS[code];
  const { notes = [] } = where;
  const foundAt = placeIn(score, momentOf(score, where), notes, {
    hand: hand ?? null,
    sentence: sentence(facts),
  });
  return {
    code,
    severity,
    ...foundAt,
    told: { kind: 'place', code, facts, guessed: isGuess?.(facts) ?? false } as ToldPlace<Code>,
    places: [foundAt],
    fixes,
    help,
    suggestions: suggestionsOf({ fixes, help, places: [foundAt] }),
  };
};

/** The same of notes at several moments, which one cause concerns: each of these is a place of the finding. */
export const describeAtEach = <Code extends FindingCode>(
  score: Score,
  code: Code,
  facts: FactsOf<Code>,
  { notes, help }: { readonly notes: NonEmpty<Note>; readonly help: readonly Help[] },
): Finding<Code> => {
  const finding = describeFinding(score, code, facts, { notes, help });
  const together = group(notes, ({ bar, onset }) => `${bar} ${rationalKey(onset)}`);
  const places = [...together.values()].map((own) =>
    placeIn(score, momentOf(score, { notes: own }), own, finding),
  );
  return { ...finding, places, suggestions: suggestionsOf({ ...finding, places }) };
};

const placeIn = (
  score: Score,
  moment: PlaceAt,
  notes: readonly Note[],
  { hand, sentence }: Pick<FindingPlace, 'hand' | 'sentence'>,
): FindingPlace => {
  const bar = score.bars[moment.bar]!;
  return {
    bar: bar.index,
    barNumber: bar.number,
    barName: nameBarIn(score)(bar.index),
    beat: beatAt(bar, toldAtIn(score)(moment)),
    staff: notes[0]?.staff ?? null,
    hand,
    notes: [...new Set(notes.map((note) => note.id))],
    sentence,
  };
};

const momentOf = (score: Score, where: FindingAt): PlaceAt => {
  if (where.place === 'start') return { bar: 0, at: score.bars[0]!.onset };
  if (where.place !== undefined) return where.place;
  const [{ bar, onset }] = where.notes;
  return { bar, at: onset };
};

/** The finding without the fixes that hold a change of some kind; what they say is no longer suggested either. */
export const withoutFixes = <
  Described extends Pick<Finding<FindingCode>, 'fixes' | 'help' | 'places' | 'suggestions'>,
>(
  finding: Described,
  isOff: (change: NoteChange) => boolean,
): Described => {
  const fixes = finding.fixes.filter(({ changes }) => !changes.some(isOff));
  return { ...finding, fixes, suggestions: suggestionsOf({ ...finding, fixes }) };
};
