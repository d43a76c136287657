import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_WORK, type Work } from '../../../engine/decisions/model.ts';
import { addDecision, type Decision } from '../../../server/page/client/decisions/work-edits.ts';
import {
  beginHistory,
  changeWork,
  type WorkHistory,
} from '../../../server/page/client/decisions/work-history.ts';
import { anyDecision } from './sample-works.ts';

const decide = (history: WorkHistory, decision: Decision, name = 'a decision'): WorkHistory =>
  changeWork(history, { kind: 'do', name, work: addDecision(history.present, decision) });

const undo = (history: WorkHistory): WorkHistory => changeWork(history, { kind: 'undo' });
const redo = (history: WorkHistory): WorkHistory => changeWork(history, { kind: 'redo' });

const works = ({ past, present, future }: WorkHistory): readonly Work[] => [
  ...past.map(({ work }) => work),
  present,
  ...future.map(({ work }) => work),
];

const anyHistory = fc
  .array(fc.oneof(anyDecision, fc.constantFrom('undo' as const, 'redo' as const)), { maxLength: 12 })
  .map((acts) =>
    acts.reduce<WorkHistory>(
      (history, act) => (typeof act === 'string' ? changeWork(history, { kind: act }) : decide(history, act)),
      beginHistory(NO_WORK),
    ),
  );

describe('the history of the work', () => {
  it('is as before once what was done is undone', () => {
    fc.assert(
      fc.property(anyHistory, anyDecision, (history, decision) => {
        const back = undo(decide(history, decision));
        expect(back.present).toEqual(history.present);
        expect(back.past).toEqual(history.past);
      }),
    );
  });

  it('is as it was once what was undone is done again', () => {
    fc.assert(
      fc.property(anyHistory, anyDecision, (history, decision) => {
        const done = decide(history, decision);
        const again = redo(undo(done));
        expect(again.present).toEqual(done.present);
        expect(again.past).toEqual(done.past);
        expect(again.future).toEqual([]);
      }),
    );
  });

  it('loses and reorders nothing by going back and forth', () => {
    fc.assert(
      fc.property(anyHistory, fc.array(fc.constantFrom(undo, redo)), (history, steps) => {
        const walked = steps.reduce((now, step) => step(now), history);
        expect(works(walked)).toEqual(works(history));
      }),
    );
  });

  it('forgets what was undone once something else is done', () => {
    fc.assert(
      fc.property(anyHistory, anyDecision, (history, decision) => {
        const after = decide(undo(history), decision);
        expect(redo(after)).toBe(after);
      }),
    );
  });

  it('tells by name what was undone, and what was done again', () => {
    const pin = (bar: number): Decision => ({
      kind: 'pin',
      pin: { kind: 'move', pedal: 'C', position: 'sharp', at: { bar, beat: '1' } },
    });
    const twice = decide(decide(beginHistory(NO_WORK), pin(1), 'first'), pin(2), 'second');
    expect(undo(twice).latest).toMatchObject({ act: 'undo', name: 'second' });
    expect(undo(undo(twice)).latest).toMatchObject({ act: 'undo', name: 'first' });
    expect(redo(undo(undo(twice))).latest).toMatchObject({ act: 'redo', name: 'first' });
    expect(undo(beginHistory(NO_WORK)).latest).toBeNull();
  });
});
