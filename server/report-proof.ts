import { formatSetting, nameOfPosition } from '../engine/harp/setting.ts';
import { rationalKey } from '../engine/music/rational.ts';
import type { Mend, MendPlace, Proof } from '../engine/proof/model.ts';
import type { Score } from '../engine/score/model.ts';
import type { ProofReport, ReportedMend } from './api/proof-report.ts';
import { reportFinding } from './report-notes.ts';

const reportMend = (mend: Mend, score: Score): ReportedMend => {
  const place = ({ at, bar, beat }: MendPlace) => ({
    at: rationalKey(at),
    bar: score.bars[bar]!.number,
    beat: rationalKey(beat),
  });
  switch (mend.kind) {
    case 'add':
      return { kind: 'add', pedal: mend.letter, position: nameOfPosition(mend.position), ...place(mend) };
    case 'add-setting':
      return { kind: 'add-setting', setting: formatSetting(mend.setting), ...place(mend) };
    case 'alter': {
      const { kind, marking, letter, position } = mend;
      return { kind, marking, pedal: letter, position: nameOfPosition(position) };
    }
    case 'move':
      return { kind: 'move', marking: mend.marking, pedal: mend.letter, ...place(mend) };
    case 'remove':
      return { kind: 'remove', marking: mend.marking, pedal: mend.letter };
  }
};

/** The report of a proofreading. */
export const reportProof = (score: Score, proof: Proof): ProofReport => ({
  title: score.titles.title,
  part: { ids: score.harp.partIds, name: score.harp.name },
  bars: score.bars.length,
  markings: proof.markings,
  needsPlayed: proof.needsPlayed,
  clean: proof.clean,
  findings: proof.findings.map((finding) => ({
    ...reportFinding(finding),
    mend: finding.mend === null ? null : reportMend(finding.mend, score),
    besides: finding.besides.map((mend) => reportMend(mend, score)),
  })),
  remarks: score.remarks,
});
