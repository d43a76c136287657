import { type Foot, formatChange, formatSetting, type Position } from '../engine/harp/setting.ts';
import { pitchName } from '../engine/music/pitch.ts';
import { rationalKey } from '../engine/music/rational.ts';
import type { Finding, FindingCode, Move, Plan, PlanSummary, Severity } from '../engine/plan/model.ts';
import type { PartSummary } from '../engine/problem.ts';
import type { Remark } from '../engine/score/model.ts';
import type { Annotation } from '../render/annotation.ts';

/**
 * A span of score time or a place in it, in quarter notes from the first bar, each printed bar counted once: a whole
 * number or a fraction in lowest terms as text, such as `12` or `7/2`. Text, since decimals cannot hold a third.
 */
type ScoreTime = string;

/** A place in the bar in beats of the meter, from 1, written as a score time is. */
type Beat = string;

type PositionName = 'flat' | 'natural' | 'sharp';

/** One move of one pedal. */
export interface ReportedMove {
  readonly at: ScoreTime;
  /** The printed number of the bar. */
  readonly bar: string;
  readonly beat: Beat;
  /** Id of the grace note before which the move is made; null where it is made at an onset or a beat. */
  readonly graceNote: string | null;
  readonly foot: Foot;
  /** The pedal's letter. */
  readonly pedal: string;
  readonly from: PositionName;
  readonly to: PositionName;
  /** As printed for the player: `C♯`. */
  readonly change: string;
  /** It brings the pedal back where the music jumps here; read on from the bar before, the pedal is there already. */
  readonly restores: boolean;
  /**
   * The move must be made after the last need of the old position (null where nothing needed it before) and before the
   * first need of the new one (null where that comes only after a jump).
   */
  readonly window: { readonly after: ScoreTime | null; readonly before: ScoreTime | null };
  /** Id of the last note that needs the old position; null where none does. */
  readonly freedBy: string | null;
  /** Id of the first note that needs the new position; null where that comes only after a jump. */
  readonly neededBy: string | null;
  /** What speaks against the moment of the move, and how much in all. */
  readonly cost: {
    readonly sum: number;
    readonly terms: readonly { readonly name: string; readonly amount: number }[];
  };
}

export interface ReportedFinding {
  readonly code: FindingCode;
  readonly severity: Severity;
  readonly bar: string;
  readonly beat: Beat;
  /** From 1, the harp's upper staff; null where the finding belongs to no staff. */
  readonly staff: number | null;
  /** Ids of the notes. */
  readonly notes: readonly string[];
  readonly sentence: string;
  readonly suggestions: readonly string[];
}

/** The plan in figures. */
export interface ReportedSummary {
  readonly moves: number;
  /** The fewest moves that any plan for these notes could have if the feet needed no time. */
  readonly leastMoves: number;
  /** The foot with more moves, and the bar with most moves; null where nothing moves. */
  readonly busiest: { readonly foot: Foot; readonly bar: string; readonly movesInBar: number } | null;
  /** Whether no finding of severity `stop` remains. */
  readonly playable: boolean;
  /** The earliest bar that cannot be played as printed. */
  readonly firstFailure: string | null;
}

/** What was worked out about a harp part, for programs to read: the JSON of the service and the command line. */
export interface Report {
  readonly title: string;
  readonly subtitle: string;
  readonly composer: string;
  readonly part: { readonly ids: readonly string[]; readonly name: string };
  readonly parts: readonly PartSummary[];
  /** How many printed bars. */
  readonly bars: number;
  /** Before the first note, in note names: `D♮ C♯ B♭ | E♮ F♯ G♮ A♭`. */
  readonly setting: string;
  readonly moves: readonly ReportedMove[];
  readonly findings: readonly ReportedFinding[];
  /** Notes read as another string: pitches such as `F♭4`. */
  readonly respellings: readonly { readonly note: string; readonly from: string; readonly to: string }[];
  /** Notes that could be read as another string, and what that would save. */
  readonly suggestions: readonly {
    readonly notes: readonly string[];
    readonly from: string;
    readonly to: string;
    readonly savesMoves: number;
    /** How many places that cannot be played would become playable. */
    readonly mendsPlaces: number;
  }[];
  /** Strings that no pedal reaches, by letter and octave, and what to tune them to before the piece. */
  readonly tunings: readonly { readonly string: string; readonly to: string }[];
  readonly summary: ReportedSummary;
  readonly remarks: readonly Remark[];
  /** Null where the part was not laid out. */
  readonly pageCount: number | null;
  /** The pages as SVG documents; empty where the part was not laid out. */
  readonly pages: readonly string[];
}

const POSITION_NAMES: Readonly<Record<Position, PositionName>> = { [-1]: 'flat', 0: 'natural', 1: 'sharp' };

const reportMove = (move: Move, barNumbers: readonly string[]): ReportedMove => ({
  at: rationalKey(move.at),
  bar: barNumbers[move.bar]!,
  beat: rationalKey(move.beat),
  graceNote: move.graceNote,
  foot: move.foot,
  pedal: move.letter,
  from: POSITION_NAMES[move.from],
  to: POSITION_NAMES[move.to],
  change: formatChange(move.letter, move.to),
  restores: move.restores,
  window: {
    after: move.window.after === null ? null : rationalKey(move.window.after.onset),
    before: move.window.before === null ? null : rationalKey(move.window.before.onset),
  },
  freedBy: move.window.after?.note ?? null,
  neededBy: move.window.before?.note ?? null,
  cost: { sum: move.cost.reduce((sum, term) => sum + term.amount, 0), terms: move.cost },
});

const reportFinding = (finding: Finding): ReportedFinding => ({
  code: finding.code,
  severity: finding.severity,
  bar: finding.barNumber,
  beat: rationalKey(finding.beat),
  staff: finding.staff,
  notes: finding.notes,
  sentence: finding.sentence,
  suggestions: finding.suggestions,
});

const reportSummary = (summary: PlanSummary, barNumbers: readonly string[]): ReportedSummary => ({
  moves: summary.moves,
  leastMoves: summary.leastMoves,
  busiest: summary.busiest === null ? null : { ...summary.busiest, bar: barNumbers[summary.busiest.bar]! },
  playable: summary.playable,
  firstFailure: summary.firstFailure === null ? null : barNumbers[summary.firstFailure]!,
});

const reportPlan = (plan: Plan, barNumbers: readonly string[]) => ({
  setting: formatSetting(plan.initial),
  moves: plan.moves.map((move) => reportMove(move, barNumbers)),
  findings: plan.findings.map(reportFinding),
  respellings: plan.respellings.map(({ note, from, to }) => ({
    note,
    from: pitchName(from),
    to: pitchName(to),
  })),
  suggestions: plan.suggestions.map((suggestion) => ({
    ...suggestion,
    from: pitchName(suggestion.from),
    to: pitchName(suggestion.to),
  })),
  summary: reportSummary(plan.summary, barNumbers),
  tunings: plan.tunings.map(({ string, alter }) => ({
    string: `${string.letter}${string.octave}`,
    to: `${formatChange(string.letter, alter)}${string.octave}`,
  })),
});

/** The report of an annotated score. */
export const reportAnnotation = (annotation: Annotation): Report => ({
  ...annotation.titles,
  part: annotation.part,
  parts: annotation.parts,
  bars: annotation.bars,
  ...reportPlan(annotation.plan, annotation.barNumbers),
  remarks: annotation.remarks,
  // Every part has a page, so that no pages means that none were asked for.
  pageCount: annotation.pages.length === 0 ? null : annotation.pages.length,
  pages: annotation.pages,
});
