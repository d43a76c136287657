import { perObject } from '../../memoize.ts';
import type { Pitch } from '../../music/pitch.ts';
import type { Score } from '../../score/model/score.ts';
import { isPlucked } from '../../score/plucked.ts';
import { findHands } from '../../sounding/hands.ts';
import { findSlidNotes, writtenString } from '../../sounding/needs.ts';
import type { PartTimeline } from '../../time/part-timeline.ts';
import { chordFindings } from './chord-findings.ts';
import type { Pluck } from './chords.ts';
import type { HandFinding } from './hand-finding.ts';
import { restrikeFindings, tremoloFindings } from './restrike-findings.ts';

/** A part as the hands play it. */
export interface HandPart {
  readonly score: Score;
  /** Strings of notes, by id, that are played on another than written. */
  readonly played: ReadonlyMap<string, Pitch>;
  readonly omitted: ReadonlySet<string>;
}

/** What the hands cannot do, or hardly. */
export const handFindings = (
  { score, played, omitted }: HandPart,
  { moments, secondsAt }: Pick<PartTimeline, 'moments' | 'secondsAt'>,
): HandFinding[] => {
  const slid = findSlidNotes(score, omitted);
  const hands = handsOf(score);
  const plucks = score.notes
    .filter((note) => isPlucked(note) && !slid.has(note.id) && !omitted.has(note.id))
    .map(
      (note): Pluck => ({
        note,
        string: played.get(note.id) ?? writtenString(note),
        ...hands.get(note.id)!,
      }),
    );
  return [
    ...chordFindings(score, plucks),
    ...restrikeFindings(score, plucks, moments),
    ...plucks.flatMap((pluck) => tremoloFindings(score, pluck, secondsAt)),
  ];
};

/** The harp's own: cues are played by others. */
const handsOf = perObject(({ notes }: Score) => findHands(notes.filter(({ role }) => role !== 'cue')));
