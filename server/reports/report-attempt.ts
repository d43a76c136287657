import {
  countVerdicts,
  type FixPlace,
  type JudgedAttempt,
  type JudgedChange,
  nameOfPosition,
  pitchName,
  rationalKey,
  type Score,
  type StatedPedal,
} from '../../engine/index.ts';
import type { AttemptReport, ReportedChange } from '../api/answers/attempt-report.ts';
import { reportRemark } from './report-notes.ts';

/** Says of a change in words what is thought of it. */
type Tell = (change: JudgedChange) => string;

/** The report of a marked attempt. */
export const reportAttempt = (score: Score, attempt: JudgedAttempt, tell: Tell): AttemptReport => ({
  title: score.titles.title,
  part: { ids: score.harp.partIds, name: score.harp.name },
  points: attempt.points,
  counts: countVerdicts(attempt.changes),
  changes: attempt.changes.map((change) => reportChange(score, change, tell)),
  remarks: score.remarks.map(reportRemark),
});

const reportChange = (score: Score, change: JudgedChange, tell: Tell): ReportedChange => {
  const place = ({ at, bar, beat }: FixPlace) => ({
    at: rationalKey(at),
    bar: score.bars[bar]!.number,
    barIndex: bar,
    beat: rationalKey(beat),
  });
  const pedals = (stated: readonly StatedPedal[]) =>
    stated.map(({ letter, position }) => ({ pedal: letter, position: nameOfPosition(position) }));
  const { kind, verdict, marking, sounds, correction, tooQuick, better, needless } = change;
  return {
    kind,
    ...place(change),
    pedals: pedals(change.pedals),
    verdict,
    marking,
    sounds: sounds.map((each) => ({
      ...place(each.place),
      note: pitchName(each.pitch),
      instead: each.instead === null ? null : pitchName(each.instead),
    })),
    write: correction?.kind === 'write' ? pedals(correction.pedals) : null,
    moveTo: correction?.kind === 'move' ? place(correction.to) : better === null ? null : place(better.to),
    why: better?.why ?? needless ?? (tooQuick ? 'no-time' : null),
    comment: tell(change),
  };
};
