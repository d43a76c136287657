import { describe, expect, it } from 'vitest';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { needsOfSpelling, prepareScore } from '../../../engine/pedals/pedal-problem.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Need } from '../../../engine/sounding/needs.ts';
import { createRivalSearch } from '../../../engine/sounding/rival-needs.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const nameOf = ({ letter, octave, position }: Need): string =>
  `${letter}${['♭', '♮', '♯'][position + 1]}${octave}`;

/** Needs that no other can be served beside, with the rival that is found for each: `C♮4 / C♯5`. */
const rivalsIn = (part: SmallPart): readonly string[] => {
  const prepared = prepareScore(smallPart(part), DEFAULT_PLAN_OPTIONS);
  const { needs } = needsOfSpelling(prepared, new Map()).listed;
  const rivalOf = createRivalSearch(needs, prepared.moments);
  return needs.flatMap((need) => {
    const rival = rivalOf(need);
    return rival === undefined ? [] : [`${nameOf(need)} / ${nameOf(rival)}`];
  });
};

const stopsOf = (part: SmallPart): readonly string[] =>
  planPedals(smallPart(part))
    .findings.filter(({ severity }) => severity === 'stop')
    .map(({ code }) => code);

describe('two needs of one pedal are rivals', () => {
  it('where they are plucked at once', () => {
    expect(rivalsIn({ upper: 'D5/4', lower: 'Db3/4' })).toEqual(['D♮5 / D♭3', 'D♭3 / D♮5']);
  });

  it('where one is plucked within the trill of the other', () => {
    const part = { upper: 'G5/4tr(A5)', lower: 'r/2 Ab3/2' };
    expect(rivalsIn(part)).toEqual(['A♮5 / A♭3', 'A♭3 / A♮5']);
  });

  it.each([
    ['a trill ends where the other note begins', { upper: 'G5/2tr(A5) r/2', lower: 'r/2 Ab3/2' }],
    ['a trill begins where the other note ends', { upper: 'r/2 G5/2tr(A5)', lower: 'Ab3/2 r/2' }],
    ['one is a grace note before the other', { upper: '(D5) Db5/4' }],
    ['a grace note leads to the trill', { upper: '(Ab4) G5/4tr(A5)' }],
    ['one follows the other', { upper: 'D5/1 Db5/3' }],
  ])('but not where %s', (_, part: SmallPart) => {
    expect(rivalsIn(part)).toEqual([]);
    expect(stopsOf(part)).toEqual([]);
  });

  it('so that a trill stays on the strings it is written for, up to the note that wants its pedal elsewhere', () => {
    const { moves, findings } = planPedals(smallPart({ upper: 'C5/2tr(D#5) D5/2' }));
    expect(moves).toMatchObject([{ letter: 'D', from: 1, to: 0, at: { num: 2, den: 1 } }]);
    expect(findings.map(({ code }) => code)).not.toContain('played-on-other-string');
  });
});

it('a lever is asked for two pitches by the strings of one octave alone, and not by a trill that is over', () => {
  const clashes = (part: SmallPart) =>
    planLevers(smallPart(part), { ...DEFAULT_LEVER_OPTIONS, tuning: tuneToKey(-3) })
      .findings.filter(({ code }) => code === 'string-in-two-pitches')
      .map(({ sentence }) => sentence);
  expect(clashes({ upper: 'F4+F#4/4' })).toHaveLength(1);
  expect(clashes({ upper: 'F5/4', lower: 'F#3/4' })).toEqual([]);
  expect(clashes({ upper: 'G5/2tr(F5) F#5/2' })).toEqual([]);
});

describe('what is plucked again and again, and is still when another note wants its pedal', () => {
  const adviceFor = (part: SmallPart): readonly string[] =>
    planPedals(smallPart(part)).findings.flatMap(({ suggestions }) => suggestions);

  it('may end before that note: then nothing is left of the trouble', () => {
    const part = { upper: 'G5/4tr(A5)', lower: 'r/2 Ab3/2' };
    expect(adviceFor(part)).toContain('End the trill on G5 before the A♭3.');
    expect(stopsOf(part)).not.toEqual([]);
    expect(stopsOf({ ...part, upper: 'G5/2tr(A5) r/2' })).toEqual([]);
  });

  it('is not told to end before what begins with it', () => {
    expect(adviceFor({ upper: 'G5/4tr(A5)', lower: 'Ab3/4' }).join(' ')).not.toContain('End the');
  });
});
