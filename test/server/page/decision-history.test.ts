import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { addDecision, type Decision } from '../../../server/page/client/decisions/decision-edits.ts';
import {
  applyAct,
  beginHistory,
  type DecisionHistory,
} from '../../../server/page/client/decisions/history/decision-history.ts';
import { anyDecision } from './sample-decisions.ts';

const decide = (history: DecisionHistory, decision: Decision, name = 'a decision'): DecisionHistory =>
  applyAct(history, { kind: 'do', name, decisions: addDecision(history.present, decision) });

const undo = (history: DecisionHistory): DecisionHistory => applyAct(history, { kind: 'undo' });
const redo = (history: DecisionHistory): DecisionHistory => applyAct(history, { kind: 'redo' });

const decisions = ({ past, present, future }: DecisionHistory): readonly Decisions[] => [
  ...past.map(({ decisions }) => decisions),
  present,
  ...future.map(({ decisions }) => decisions),
];

const anyHistory = fc
  .array(fc.oneof(anyDecision, fc.constantFrom('undo' as const, 'redo' as const)), { maxLength: 12 })
  .map((acts) =>
    acts.reduce<DecisionHistory>(
      (history, act) => (typeof act === 'string' ? applyAct(history, { kind: act }) : decide(history, act)),
      beginHistory(NO_DECISIONS),
    ),
  );

describe('the history of the decisions', () => {
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
        expect(decisions(walked)).toEqual(decisions(history));
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
      pin: { kind: 'move', pedal: 'C', position: 'sharp', at: { barIndex: bar, beat: '1' } },
    });
    const twice = decide(decide(beginHistory(NO_DECISIONS), pin(1), 'first'), pin(2), 'second');
    expect(undo(twice).latest).toMatchObject({ act: 'undo', name: 'second' });
    expect(undo(undo(twice)).latest).toMatchObject({ act: 'undo', name: 'first' });
    expect(redo(undo(undo(twice))).latest).toMatchObject({ act: 'redo', name: 'first' });
    expect(undo(beginHistory(NO_DECISIONS)).latest).toBeNull();
  });
});
