import { describe, expect, it } from 'vitest';
import { openProgressLine } from '../../../server/command/progress-line.ts';
import { oneLine, summarize } from '../../../server/command/summary.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';
import { PLAN, sampleAnnotation } from '../annotation-sample.ts';

describe('what the user reads after a part is written', () => {
  it('is what stops or warns, how the file was read, and a last line that sums up', () => {
    expect(summarize(sampleAnnotation(), ['reeds.pdf'])).toEqual([
      'not playable: bar 2a, beat 1½: The left foot has two pedals to move at once.',
      'warning: bar 1, beat 1: C3 still rings.',
      'remark: No tempo is stated; 96 is assumed.',
      '2 bars, 1 move, hard, not playable as printed, 2 findings (1 not playable, 1 warning), 1 page: reeds.pdf',
    ]);
  });

  it('only counts what is merely good to know', () => {
    const note = { ...PLAN.findings[1]!, severity: 'note' } as const;
    const plan = { kind: 'pedal', plan: { ...PLAN, findings: [note], moves: [] } } as const;
    expect(
      summarize(sampleAnnotation({ plan, remarks: [], bars: 1 }), ['a-1.svg', 'a-2.svg', 'a-3.svg']),
    ).toEqual([
      '1 bar, 0 moves, hard, not playable as printed, 1 finding (1 note), 1 page: a-1.svg ... a-3.svg',
    ]);
  });

  it('says at how many places a passage is not playable', () => {
    const [stop] = PLAN.findings.filter(({ severity }) => severity === 'stop');
    const passage = { ...stop!, places: [...stop!.places, ...stop!.places] };
    const plan = { kind: 'pedal', plan: { ...PLAN, findings: [passage] } } as const;
    expect(summarize(sampleAnnotation({ plan, remarks: [] }), ['a.pdf']).at(-1)).toContain(
      '1 finding (1 not playable in 2 places)',
    );
  });

  it('counts what changes on a lever harp as changes', () => {
    const score = smallPart({ upper: 'F4/4 | F#4/4' });
    const plan = leverPlanFor(score, { moves: ['2.1 F#4'] });
    expect(summarize(sampleAnnotation({ plan, remarks: [] }), ['a.pdf'])).toEqual([
      '2 bars, 1 change, easy, 0 findings, 1 page: a.pdf',
    ]);
  });

  it('holds no line break and no terminal code of a hostile file', () => {
    expect(oneLine('a\n\u001b[31mb\u2028c\u0085d\u202ee')).toBe('a [31mb c d e');
  });
});

describe('how far long work is', () => {
  const written = (isTTY: boolean): readonly string[] => {
    const texts: string[] = [];
    const write = (text: string | Uint8Array): boolean => texts.push(String(text)) > 0;
    const line = openProgressLine({ isTTY, write });
    line.show('place 1 of 2');
    line.show('place 2 of 2');
    line.clear();
    return texts;
  };

  it('stands in one line of a terminal, which is empty at the end', () => {
    const [first, second, last] = written(true);
    expect([first, second]).toEqual(['\r\u001b[Kplace 1 of 2', '\r\u001b[Kplace 2 of 2']);
    expect(last).toBe('\r\u001b[K');
  });

  it('is not written into a file', () => {
    expect(written(false)).toEqual([]);
  });
});
