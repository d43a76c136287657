import { type Decisions, NO_DECISIONS } from '../../decisions/model.ts';
import type { NoteNames } from '../../decisions/notes-at.ts';
import { namePlace } from '../../decisions/places.ts';
import { pitchName } from '../../music/pitch.ts';
import type { Score } from '../../score/model/score.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import type { OfferedFix } from './model.ts';

/** The decisions by which a part is played as an offered fix has it. Notes for a second harp are left out in this part. */
export const decisionsOfFix = (score: Score, fix: OfferedFix, nameOf: NoteNames): Decisions => {
  switch (fix.kind) {
    case 'respell':
    case 'octave':
    case 'leave-out':
    case 'leave-out-doubled':
    case 'second-harp':
      return decisionsOnNotes(fix.changes, nameOf);
    case 'delay': {
      const { notes, until } = fix.delay;
      const named = distinct(notes.map((id) => ({ at: nameOf(id)! })));
      const toBeat = namePlace(score, until)!.beat;
      return { ...NO_DECISIONS, delays: named.map(({ at }) => ({ ...at, toBeat })) };
    }
    case 'tempo': {
      const { quartersPerMinute, passage } = fix.tempo;
      const from = namePlace(score, passage.from)!;
      const until = passage.until === null ? null : namePlace(score, passage.until);
      return { ...NO_DECISIONS, tempos: [{ from, until, quartersPerMinute }] };
    }
  }
};

const decisionsOnNotes = (changes: readonly NoteChange[], nameOf: NoteNames): Decisions => {
  const named = distinct(changes.map((change) => ({ change, at: nameOf(change.note)! })));
  return {
    ...NO_DECISIONS,
    respell: named.flatMap(({ change, at }) =>
      change.kind === 'respell' ? [{ ...at, to: pitchName(change.to) }] : [],
    ),
    omit: named.flatMap(({ change, at }) => (change.kind === 'omit' ? [at] : [])),
  };
};

/** Notes that share a string at a time have one name. */
const distinct = <T extends { readonly at: object }>(named: readonly T[]): readonly T[] => [
  ...new Map(named.map((each) => [JSON.stringify(each.at), each])).values(),
];
