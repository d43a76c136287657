import { describe, expect, it } from 'vitest';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { smallPart } from '../../part-builder.ts';

describe('a lever that moves while its string sounds', () => {
  it.each([
    ['F4/4 | F#4/4', 'F♯4'],
    ['F#4/4 | F4/4', 'F4'],
    ['B4/4 | Bb4/4', 'B♭4'],
  ])('in %s is that of %s, and its string is to be damped', (upper, set) => {
    const { tuning } = LEVER_HARP;
    const { findings } = planLevers(smallPart({ upper }), { ...DEFAULT_LEVER_OPTIONS, tuning });
    expect(findings.find(({ code }) => code === 'ringing-string-moved')).toMatchObject({
      sentence: `The lever for ${set} has to be set while its string is still sounding, so the change will be heard.`,
      suggestions: ['Damp the string before the change, or shorten its note.'],
    });
  });
});
