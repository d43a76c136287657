import {
  describeFixes,
  type FixPlace,
  formatSetting,
  type MarkingFix,
  nameOfPosition,
  type Proof,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import type { ProofReport, ReportedMarkingFix } from '../api/answers/proof-report.ts';
import { reportFinding, reportRemark } from './report-notes.ts';

const reportFix = (fix: MarkingFix, score: Score): ReportedMarkingFix => {
  const place = ({ at, bar, beat }: FixPlace) => ({
    at: rationalKey(at),
    bar: score.bars[bar]!.number,
    barIndex: bar,
    beat: rationalKey(beat),
  });
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

/** The report of a proofreading. */
export const reportProof = (score: Score, proof: Proof): ProofReport => ({
  title: score.titles.title,
  part: { ids: score.harp.partIds, name: score.harp.name },
  bars: score.bars.length,
  markings: proof.markings,
  notesChecked: proof.notesChecked,
  correct: proof.correct,
  findings: proof.findings.map((finding) => ({
    ...reportFinding(finding),
    fix: finding.fix === null ? null : reportFix(finding.fix, score),
    furtherFixes: finding.furtherFixes.map((fix) => reportFix(fix, score)),
  })),
  repair: {
    edits: proof.repair.edits.map((edit) => ({
      sentence: describeFixes(score, edit.fixes),
      changes: edit.fixes.map((fix) => reportFix(fix, score)),
      with: edit.with,
    })),
    proven: proof.repair.proven,
    faultsLeft: proof.repair.faultsLeft,
  },
  remarks: score.remarks.map(reportRemark),
});
