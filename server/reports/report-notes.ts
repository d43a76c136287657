import {
  type Finding,
  type FindingCode,
  listRunsIn,
  type Move,
  type NoteChange,
  type NoteFix,
  type NotesAt,
  nameBarIn,
  nameNotes,
  type Omitted,
  pitchName,
  type Remark,
  type Respelled,
  type Respelling,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import type { ReportedNoteFix } from '../api/answers/report.ts';

/** The bars of a score by their index: their printed numbers, and how people are told of them. */
export interface ToldBars {
  readonly barNumbers: readonly string[];
  readonly barNames: readonly string[];
}

export const tellBars = (score: Score): ToldBars => ({
  barNumbers: score.bars.map(({ number }) => number),
  barNames: score.bars.map(({ index }) => nameBarIn(score)(index)),
});

export const reportBar = ({ barNumbers, barNames }: ToldBars, bar: number) => ({
  bar: barNumbers[bar]!,
  barName: barNames[bar]!,
});

/** Tells a note by its place. */
export type NameNote = (noteId: string) => NotesAt;

/** Names the notes of a score: of those that its plan speaks of. */
export const noteNamer = (score: Score): NameNote => {
  const names = nameNotes(score);
  return (noteId) => {
    const named = names(noteId);
    if (named === null) throw new Error(`a plan speaks of ${noteId}, which is no note of its score`);
    return named;
  };
};

/** How people are told of what a score has. */
export interface ScoreNames {
  readonly note: NameNote;
  /** Bars (indices in order, each once) in words: `bars 3–5 and 9`. */
  readonly bars: (bars: readonly number[]) => string;
}

export const namesIn = (score: Score): ScoreNames => ({ note: noteNamer(score), bars: listRunsIn(score) });

export const reportRespelled = ({ kind, note, to }: Respelled, nameNote: NameNote) => ({
  kind,
  note,
  at: nameNote(note),
  to: pitchName(to),
});

export const reportOmitted = ({ kind, note }: Omitted, nameNote: NameNote) => ({
  kind,
  note,
  at: nameNote(note),
});

export const reportChange = (change: NoteChange, nameNote: NameNote): ReportedNoteFix['changes'][number] =>
  change.kind === 'respell' ? reportRespelled(change, nameNote) : reportOmitted(change, nameNote);

const reportFix = ({ sentence, changes, moreMoves }: NoteFix, nameNote: NameNote): ReportedNoteFix => ({
  sentence,
  changes: changes.map((change) => reportChange(change, nameNote)),
  moreMoves,
});

/** What findings of plans and of proofs have in common. */
export const reportFinding = <Code extends FindingCode>(
  finding: Omit<Finding<Code>, 'fixes' | 'help' | 'told'>,
) => ({
  code: finding.code,
  severity: finding.severity,
  bar: finding.barNumber,
  barName: finding.barName,
  barIndex: finding.bar,
  beat: rationalKey(finding.beat),
  staff: finding.staff,
  untilBar: finding.places.at(-1)!.barNumber,
  untilName: finding.places.at(-1)!.barName,
  notes: finding.notes,
  sentence: finding.sentence,
  suggestions: finding.suggestions,
  places: finding.places.map(({ bar, barNumber, barName, beat, notes, sentence }) => ({
    bar: barNumber,
    barName,
    barIndex: bar,
    beat: rationalKey(beat),
    notes,
    sentence,
  })),
});

/** A finding of a plan, with what would fix it. */
export const reportPlanFinding = <Code extends FindingCode>(finding: Finding<Code>, nameNote: NameNote) => ({
  ...reportFinding(finding),
  fixes: finding.fixes.map((fix) => reportFix(fix, nameNote)),
});

/** A note that is played on another string, with its place as a request takes it back. */
export const reportRespelling = ({ note, from, to }: Respelling, bars: ToldBars, nameNote: NameNote) => {
  const at = nameNote(note);
  return { note, ...reportBar(bars, at.barIndex), at, from: pitchName(from), to: pitchName(to) };
};

/** How the file was read and is printed, as reports tell it. */
export const reportRemark = ({ code, barNumber, barName, message }: Remark) => ({
  code,
  bar: barNumber,
  barName,
  message,
});

export const reportPlace = ({ at, bar, beat }: Pick<Move, 'at' | 'bar' | 'beat'>, bars: ToldBars) => ({
  at: rationalKey(at),
  ...reportBar(bars, bar),
  barIndex: bar,
  beat: rationalKey(beat),
});

/** Where a move of a pedal or of a lever stands, and why there. */
export const reportMoment = (
  { graceNote, restores, window: { after, before }, cost, ...place }: MovedAt,
  bars: ToldBars,
) => ({
  ...reportPlace(place, bars),
  graceNote,
  restores,
  window: {
    after: after === null ? null : rationalKey(after.onset),
    before: before === null ? null : rationalKey(before.onset),
  },
  freedBy: after?.note ?? null,
  neededBy: before?.note ?? null,
  cost: { sum: cost.reduce((sum, term) => sum + term.amount, 0), terms: cost },
});

type MovedAt = Pick<Move, 'at' | 'bar' | 'beat' | 'graceNote' | 'restores' | 'window' | 'cost'>;
