import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { tellCounting } from '../../../render/facts/tell-counting.ts';
import { wordsOf } from '../../../render/words/words.ts';
import { smallPart } from '../../part-builder.ts';

const ENGLISH = wordsOf({ language: 'english' });
const BAR = 'C4/4 | D4/4';

describe('how bars are counted', () => {
  it('needs no words where a count is a beat', () => {
    expect(tellCounting(smallPart({ upper: BAR }), ENGLISH)).toEqual([]);
    expect(tellCounting(smallPart({ upper: BAR, meter: { beats: 3, beatUnit: 8 } }), ENGLISH)).toEqual([]);
  });

  it('is told of a compound metre: two counts in six beats, three in nine', () => {
    const six = tellCounting(smallPart({ upper: BAR, meter: { beats: 6, beatUnit: 8 } }), ENGLISH);
    expect(six.join(' ')).toContain('6/8: 2');
    const nine = tellCounting(smallPart({ upper: BAR, meter: { beats: 9, beatUnit: 8 } }), ENGLISH);
    expect(nine.join(' ')).toContain('9/8: 3');
  });

  it('is told of an upbeat, which is counted as the end of its bar', () => {
    const part = smallPart({ upper: BAR });
    const bars = part.bars.map((bar) => (bar.index === 0 ? { ...bar, duration: rational(1) } : bar));
    expect(tellCounting({ ...part, bars }, ENGLISH)).toEqual(['An upbeat has the last counts of its bar.']);
  });

  it('is told of a bar that a repeat divides, which is no upbeat', () => {
    const part = smallPart({ upper: `${BAR} | E4/4` });
    const bars = part.bars.map((bar) => (bar.index === 0 ? bar : { ...bar, duration: rational(2) }));
    expect(tellCounting({ ...part, bars }, ENGLISH)).toEqual([
      'A bar that is printed in two parts is counted on in the second.',
    ]);
  });
});
