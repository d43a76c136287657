import { describe, expect, it } from 'vitest';
import { describeDecision } from '../../../server/page/client/decisions/decision-words.ts';
import { STRINGS } from '../../../server/page/strings/strings.ts';

const bar = { name: '14', tempoUnit: { sign: '♩', quarters: 1 } };
const part = { bars: Array.from({ length: 3 }, () => bar) } as unknown as Parameters<
  typeof describeDecision
>[0];

const at = (beat: string) => ({ barIndex: 0, beat });

describe('a decision in words', () => {
  it('names its beat, the first of a bar too', () => {
    const move = (beat: string) =>
      describeDecision(part, {
        kind: 'pin',
        pin: { kind: 'move', pedal: 'C', position: 'natural', at: at(beat) },
      });
    expect(move('1')).toBe('C♮ in bar 14, beat 1');
    expect(move('5/2')).toBe('C♮ in bar 14, beat 2½');
  });

  it('says where a stretch ends, to the beat', () => {
    const pin = { kind: 'forbid', from: at('1'), until: at('3') } as const;
    expect(describeDecision(part, { kind: 'pin', pin })).toBe(
      'No moves from bar 14, beat 1 until bar 14, beat 3',
    );
  });
});

describe('what stands at a marking while it is dragged', () => {
  it('has one colon, however many notes let it go no further', () => {
    const { draggedTo } = STRINGS.score;
    expect(draggedTo('C♮ in bar 14, beat 1', [])).toBe('C♮ in bar 14, beat 1');
    expect(draggedTo('C♮ in bar 14, beat 1', ['after C5 in bar 13', 'after D5 in bar 13'])).toBe(
      'C♮ in bar 14, beat 1: after C5 in bar 13; after D5 in bar 13',
    );
  });
});
