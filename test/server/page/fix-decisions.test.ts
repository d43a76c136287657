import { describe, expect, it } from 'vitest';
import { NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { nameNotes } from '../../../engine/decisions/notes-at.ts';
import { placeDecisions } from '../../../engine/decisions/place-decisions.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import type { NoteChange } from '../../../engine/sounding/changed-needs.ts';
import { addDecisions } from '../../../server/page/client/decisions/decision-edits.ts';
import { decisionsOf } from '../../../server/page/client/findings/fixes/fix-decisions.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

/** The notes of a part as the page has them, as far as decisions go by them. */
const notesOf = (score: Score) => {
  const names = nameNotes(score);
  return {
    notes: new Map(
      score.notes.map(({ id, bar, onset }) => [
        id,
        { name: id, bar, onset, notes: names(id)!, head: id, others: [] },
      ]),
    ),
  };
};

/** What the next plan is made with once changes are applied on the page. */
const applied = (score: Score, changes: readonly NoteChange[]) => {
  const { respelled, omitted, unplaced } = placeDecisions(
    score,
    addDecisions(NO_DECISIONS, decisionsOf(notesOf(score), changes)),
  );
  expect(unplaced).toEqual([]);
  return { respelled, omitted };
};

const asked = (changes: readonly NoteChange[]) => ({
  respelled: new Map(changes.flatMap((each) => (each.kind === 'respell' ? [[each.note, each.to]] : []))),
  omitted: new Set(changes.flatMap((each) => (each.kind === 'omit' ? [each.note] : []))),
});

const PARTS: readonly SmallPart[] = [
  { upper: 'D4/1 Db4/1 D5/1 Db5/1 | D4/1 Db6/1 D4/1 r/1', quartersPerMinute: 60 },
  { upper: 'D4/1:4 D#4/1:4 E5/1:4 D#5/1:4 D4/1:4 D#4/1:4 E4/1:2 r/2', quartersPerMinute: 100 },
  { upper: 'A4/1:4 A#4/1:4 B4/1:4 A#5/1:4 A4/1:4 A#4/1:4 B5/1:2 r/2' },
  { upper: 'C4/1', lower: 'C4/1' },
  { upper: '(D#4) D#4+Eb5/2 D5/2' },
  { upper: 'D5/2 r/2', lower: '(D#2) D#2/2 r/2' },
];

describe('a fix or suggestion that is applied on the page', () => {
  it.each(PARTS)('changes the notes that it names, each in its own octave: $upper', (part) => {
    const score = smallPart(part);
    const { findings, suggestions } = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, spelling: 'suggest' });
    const offers = [...findings.flatMap(({ fixes }) => fixes), ...suggestions];
    expect(offers.length).toBeGreaterThan(0);
    for (const { changes } of offers) expect(applied(score, changes)).toEqual(asked(changes));
  });
});
