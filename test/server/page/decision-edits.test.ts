import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import {
  addDecision,
  addDecisions,
  type Decision,
  decisionKey,
  dropDecision,
  listDecisions,
  placeOf,
} from '../../../server/page/client/decisions/decision-edits.ts';
import { anyDecision, countOf } from './sample-decisions.ts';

const anyDecisions = fc
  .array(anyDecision, { maxLength: 8 })
  .map((decisions) => addDecisions(NO_DECISIONS, decisions));

const holds = (decisions: Decisions, decision: Decision): boolean =>
  listDecisions(decisions).some((each) => decisionKey(each) === decisionKey(decision));

const at = { barIndex: 3, beat: '2' };

describe('decisions about a part', () => {
  it('hold once made, and no longer once taken back', () => {
    fc.assert(
      fc.property(anyDecisions, anyDecision, (decisions, decision) => {
        const decided = addDecision(decisions, decision);
        expect(holds(decided, decision)).toBe(true);
        expect(holds(dropDecision(decided, decision), decision)).toBe(false);
        expect(countOf(dropDecision(decided, decision))).toBe(countOf(decided) - 1);
      }),
    );
  });

  it('change nothing when they are made twice', () => {
    fc.assert(
      fc.property(anyDecisions, anyDecision, (decisions, decision) => {
        const once = addDecision(decisions, decision);
        expect(addDecision(once, decision)).toEqual(once);
      }),
    );
  });

  it('leave the decisions alone when one is taken back that was never made', () => {
    fc.assert(
      fc.property(anyDecisions, anyDecision, (decisions, decision) => {
        fc.pre(!holds(decisions, decision));
        expect(dropDecision(decisions, decision)).toEqual(decisions);
      }),
    );
  });

  it('are listed in order of the music', () => {
    fc.assert(
      fc.property(anyDecisions, (decisions) => {
        const bars = listDecisions(decisions).map((each) => placeOf(each).barIndex);
        expect(bars).toEqual(bars.toSorted((a, b) => a - b));
      }),
    );
  });

  it('replace each other where one pedal cannot do both: C sharp and C flat at one beat', () => {
    const pin = (position: 'sharp' | 'flat'): Decision => ({
      kind: 'pin',
      pin: { kind: 'move', pedal: 'C', position, at },
    });
    const decisions = addDecisions(NO_DECISIONS, [pin('sharp'), pin('flat')]);
    expect(decisions.pins).toEqual([{ kind: 'move', pedal: 'C', position: 'flat', at }]);
  });

  it('replace each other for one note: it is respelled, then left out', () => {
    const notes = { ...at, pitch: 'C♯4' };
    const decisions = addDecisions(NO_DECISIONS, [
      { kind: 'respell', notes: { ...notes, to: 'D♭4' } },
      { kind: 'omit', notes },
    ]);
    expect(decisions.respell).toEqual([]);
    expect(decisions.omit).toEqual([notes]);
  });

  it('keep the two hands apart where both have the note', () => {
    const decisions = addDecisions(NO_DECISIONS, [
      { kind: 'omit', notes: { ...at, pitch: 'C♯4', staff: 1 } },
      { kind: 'omit', notes: { ...at, pitch: 'C♯4', staff: 2 } },
    ]);
    expect(decisions.omit).toHaveLength(2);
  });

  it('keep a grace note apart from the note that it leads to', () => {
    const decisions = addDecisions(NO_DECISIONS, [
      { kind: 'omit', notes: { ...at, pitch: 'C♯4', grace: 0 } },
      { kind: 'omit', notes: { ...at, pitch: 'C♯4', grace: 1 } },
    ]);
    expect(decisions.omit).toHaveLength(2);
    expect(addDecisions(decisions, [{ kind: 'omit', notes: { ...at, pitch: 'C♯4' } }]).omit).toHaveLength(1);
  });
});
