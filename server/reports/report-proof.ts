import {
  describeFixes,
  describeLeverFixes,
  type FixPlace,
  formatSetting,
  type HarpKind,
  type HarpString,
  type LeverFix,
  type LeverProof,
  type MarkingFix,
  nameBarIn,
  nameLever,
  nameOfPosition,
  type Proof,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import type { ProofTelling } from '../../render/index.ts';
import type { ProofReport, ReportedMarkingFix } from '../api/answers/proof-report.ts';
import { reportFinding, reportRemark } from './report-notes.ts';

const reportPlace = ({ at, bar, beat }: FixPlace, score: Score) => ({
  at: rationalKey(at),
  bar: score.bars[bar]!.number,
  barName: nameBarIn(score)(bar),
  barIndex: bar,
  beat: rationalKey(beat),
});

const reportFix = (fix: MarkingFix, score: Score): ReportedMarkingFix => {
  const place = (at: FixPlace) => reportPlace(at, score);
  switch (fix.kind) {
    case 'add':
      return { kind: 'add', pedal: fix.letter, position: nameOfPosition(fix.position), ...place(fix) };
    case 'add-setting':
      return { kind: 'add-setting', setting: formatSetting(fix.setting), ...place(fix) };
    case 'alter': {
      const { kind, marking, letter, position } = fix;
      return { kind, marking, pedal: letter, position: nameOfPosition(position) };
    }
    case 'move':
      return { kind: 'move', marking: fix.marking, pedal: fix.letter, ...place(fix) };
    case 'rename': {
      const { kind, marking, letter, to, position } = fix;
      return { kind, marking, pedal: letter, to, position: nameOfPosition(position) };
    }
    case 'move-marking':
      return { kind: 'move-marking', marking: fix.marking, ...place(fix) };
    case 'remove-marking':
      return { kind: 'remove-marking', marking: fix.marking };
    case 'remove':
      return { kind: 'remove', marking: fix.marking, pedal: fix.letter };
  }
};

const reportLeverFix = (fix: LeverFix, score: Score): ReportedMarkingFix => {
  const nameString = ({ letter, octave }: HarpString): string => `${letter}${octave}`;
  const lever = nameString(fix.string);
  switch (fix.kind) {
    case 'add':
      return { kind: 'add-lever', lever, note: nameLever(fix.string, fix.alter), ...reportPlace(fix, score) };
    case 'alter':
      return { kind: 'alter-lever', marking: fix.marking, lever, note: nameLever(fix.string, fix.alter) };
    case 'rename': {
      const { marking, to, alter } = fix;
      return { kind: 'rename-lever', marking, lever, to: nameString(to), note: nameLever(to, alter) };
    }
    case 'move': {
      const { marking, string, alter } = fix;
      return {
        kind: 'move-lever',
        marking,
        lever,
        note: nameLever(string, alter),
        ...reportPlace(fix, score),
      };
    }
    case 'remove':
      return { kind: 'remove-lever', marking: fix.marking, lever };
  }
};

/**
 * The report of a proofreading, of either harp.
 *
 * @param telling in which words; null for the engine’s own
 */
export const reportProof = (
  score: Score,
  proof: Proof | LeverProof,
  telling: ProofTelling | null = null,
): ProofReport =>
  proof.kind === 'pedal'
    ? reportAny(score, proof, telling, reportFix, (fixes) => describeFixes(score, fixes, telling?.fixes))
    : reportAny(score, proof, telling, reportLeverFix, (fixes) =>
        describeLeverFixes(score, fixes, telling?.leverFixes),
      );

/** What the proofs of both harps are made of. */
interface AnyProof<Fix> extends Pick<Proof, 'markings' | 'notesChecked' | 'correct'> {
  readonly kind: HarpKind;
  readonly findings: readonly (Omit<Proof['findings'][number], 'fix' | 'furtherFixes'> & {
    readonly fix: Fix | null;
    readonly furtherFixes: readonly Fix[];
  })[];
  readonly repair: Pick<Proof['repair'], 'proven' | 'faultsLeft'> & {
    readonly edits: readonly { readonly fixes: readonly Fix[]; readonly with: readonly number[] }[];
  };
}

const reportAny = <Fix>(
  score: Score,
  proof: AnyProof<Fix>,
  telling: ProofTelling | null,
  report: (fix: Fix, score: Score) => ReportedMarkingFix,
  describe: (fixes: readonly Fix[]) => string,
): ProofReport => ({
  title: score.titles.title,
  part: { ids: score.harp.partIds, name: score.harp.name },
  harp: proof.kind,
  bars: score.bars.length,
  markings: proof.markings,
  notesChecked: proof.notesChecked,
  correct: proof.correct,
  findings: proof.findings.map((finding) => ({
    ...reportFinding(telling === null ? finding : tellIn(telling, finding, describe)),
    fix: finding.fix === null ? null : report(finding.fix, score),
    furtherFixes: finding.furtherFixes.map((fix) => report(fix, score)),
  })),
  repair: {
    edits: proof.repair.edits.map((edit) => ({
      sentence: describe(edit.fixes),
      changes: edit.fixes.map((fix) => report(fix, score)),
      with: edit.with,
    })),
    proven: proof.repair.proven,
    faultsLeft: proof.repair.faultsLeft,
  },
  remarks: score.remarks.map(reportRemark),
});

/** A finding in other words than the engine’s. */
const tellIn = <Fix>(
  telling: ProofTelling,
  finding: AnyProof<Fix>['findings'][number],
  describe: (fixes: readonly Fix[]) => string,
): AnyProof<Fix>['findings'][number] => {
  const sentence = telling.finding(finding);
  const fixes = [...(finding.fix === null ? [] : [finding.fix]), ...finding.furtherFixes];
  return {
    ...finding,
    sentence,
    places: finding.places.map((place) => ({ ...place, sentence })),
    suggestions: [describe(fixes), ...finding.advice.map(telling.advice)].filter((each) => each !== ''),
  };
};
