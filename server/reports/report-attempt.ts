import {
  countVerdicts,
  type FixPlace,
  type JudgedAttempt,
  type JudgedChange,
  nameBarIn,
  nameLever,
  nameOfPosition,
  nameString,
  pitchName,
  rationalKey,
  type Score,
  type Stated,
  type UnreadMarking,
} from '../../engine/index.ts';
import type { AttemptReport, ReportedChange } from '../api/answers/attempt-report.ts';
import { reportRemark } from './report-notes.ts';

/** Says in words what is thought of a change, and which words could not be read. */
interface Tell {
  readonly change: (change: JudgedChange) => string;
  readonly unread: (unread: UnreadMarking) => string;
}

/** The report of a marked attempt. */
export const reportAttempt = (
  score: Score,
  attempt: JudgedAttempt,
  tell: Tell,
): Omit<AttemptReport, 'pages'> => ({
  title: score.titles.title,
  harp: attempt.harp,
  part: { ids: score.harp.partIds, name: score.harp.name },
  points: attempt.points,
  counts: countVerdicts(attempt.changes),
  changes: attempt.changes.map((change: JudgedChange) => reportChange(score, change, tell.change)),
  unread: attempt.unread.map((unread) => ({
    text: unread.text,
    ...reportPlace(score, unread),
    comment: tell.unread(unread),
  })),
  remarks: score.remarks.map(reportRemark),
});

const reportPlace = (score: Score, { at, bar, beat }: FixPlace) => ({
  at: rationalKey(at),
  bar: score.bars[bar]!.number,
  barName: nameBarIn(score)(bar),
  barIndex: bar,
  beat: rationalKey(beat),
});

const reportStated = (each: Stated): ReportedChange['stated'][number] =>
  'string' in each
    ? { lever: nameString(each.string), note: nameLever(each.string, each.alter) }
    : { pedal: each.letter, position: nameOfPosition(each.position) };

const reportChange = (score: Score, change: JudgedChange, tell: Tell['change']): ReportedChange => {
  const place = (where: FixPlace) => reportPlace(score, where);
  const { kind, verdict, marking, sounds, correction, tooQuick, better, needless } = change;
  const to = correction === null || correction.kind === 'strike' ? better?.to : correction.to;
  return {
    kind,
    ...place(change),
    stated: change.stated.map(reportStated),
    verdict,
    marking,
    sounds: sounds.map((each) => ({
      ...place(each.place),
      note: pitchName(each.pitch),
      instead: each.instead === null ? null : pitchName(each.instead),
    })),
    write: correction?.kind === 'write' ? correction.stated.map(reportStated) : null,
    moveTo: to === undefined ? null : place(to),
    why: better?.why ?? needless?.why ?? (tooQuick ? 'no-time' : null),
    comment: tell(change),
  };
};
