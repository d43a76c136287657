import { midiOf, stepOf } from '../../music/pitch.ts';
import { add, toNumber } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import { strokeQuarters } from '../../score/tremolo.ts';
import { otherStrings } from '../../sounding/needs.ts';
import { LEAST_SOUNDING_SECONDS, RESTRIKE_SECONDS } from '../../sounding/string-times.ts';
import type { Moments } from '../../time/moments.ts';
import type { PartTimeline } from '../../time/part-timeline.ts';
import { describeFinding } from '../describe-finding.ts';
import { help } from '../help/help.ts';
import { noteFix } from '../model.ts';
import type { Pluck } from './chords.ts';
import type { HandFinding } from './hand-finding.ts';
import { otherString } from './other-string.ts';

/** Strings that are plucked again sooner than a finger can, or than they have sounded. */
export const restrikeFindings = (score: Score, plucks: readonly Pluck[], moments: Moments): HandFinding[] => {
  const lastPluck = new Map<number, { readonly pluck: Pluck; readonly seconds: number }>();
  const findings: HandFinding[] = [];
  for (const pluck of plucks) {
    const key = stepOf(pluck.string);
    const { seconds } = moments.all[moments.ofNote(pluck.note)]!;
    const before = lastPluck.get(key);
    lastPluck.set(key, { pluck, seconds });
    if (before === undefined || seconds <= before.seconds) continue;
    findings.push(...restrike(score, before.pluck, pluck, seconds - before.seconds));
  }
  return findings;
};

const restrike = (score: Score, before: Pluck, again: Pluck, gap: number): HandFinding[] => {
  const isReset = midiOf(before.string) !== midiOf(again.string);
  if (gap >= (isReset ? LEAST_SOUNDING_SECONDS : RESTRIKE_SECONDS)) return [];
  // A natural note on its neighbour's string is harder to read than a sharp or flat one.
  const altered = [before, again].sort((a, b) => Math.abs(b.string.alter) - Math.abs(a.string.alter));
  const isGrace = before.note.grace !== null && again.note.grace === null;
  const fixes = isReset
    ? altered.flatMap((pluck) => otherString(pluck, 'only'))
    : [
        ...otherString(again, 'second'),
        ...otherString(before, isGrace ? 'grace' : 'first'),
        noteFix({ kind: 'leave-out-first', facts: { pitch: before.string, isGrace } }, [
          { kind: 'omit', note: before.note.id, from: before.string },
        ]),
      ];
  return [
    describeFinding(
      score,
      'string-restruck-fast',
      { string: before.string, seconds: gap, again: isReset ? again.string : 'same' },
      { notes: [before.note, again.note], fixes },
    ),
  ];
};

/** A tremolo on one string, whose strokes follow each other as fast as its marks say. */
export const tremoloFindings = (
  score: Score,
  { note, string }: Pluck,
  secondsAt: PartTimeline['secondsAt'],
): HandFinding[] => {
  if (note.tremolo?.kind !== 'single' || note.grace !== null || note.tremolo.marks === 0) return [];
  const quarters = toNumber(note.duration);
  const seconds = secondsAt(add(note.onset, note.duration)) - secondsAt(note.onset);
  const gap = (strokeQuarters(quarters, note.tremolo.marks) * seconds) / quarters;
  if (gap >= RESTRIKE_SECONDS) return [];
  const [other] = otherStrings(string);
  return [
    describeFinding(
      score,
      'string-restruck-fast',
      { string, seconds: gap, again: 'tremolo' },
      {
        notes: [note],
        help: [help('tremolo-of-two', { pitches: other === undefined ? null : [string, other] })],
      },
    ),
  ];
};
