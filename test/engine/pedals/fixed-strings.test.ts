import { describe, expect, it } from 'vitest';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { readPitch, type SmallPart, smallPart } from '../../part-builder.ts';

const clashesIn = (part: SmallPart) => {
  const score = smallPart(part);
  const clashes = planPedals(score).findings.filter(({ code }) => code === 'fixed-string-in-two-pitches');
  return { score, clashes };
};

describe('a note whose string without a disc is tuned to another pitch', () => {
  it('is offered the other string that is tuned to it, and is played there once it is written so', () => {
    const part = { upper: 'r/4 | r/4', lower: 'C#1/2 D1/2 | D1/2 Db1/2' };
    const { score, clashes } = clashesIn(part);
    expect(clashes).toHaveLength(1);
    const { fixes, suggestions, notes } = clashes[0]!;
    expect(suggestions).toEqual([
      'Write C♯1: the string C1 is already tuned to it for this piece.',
      'Play the D♭1 an octave higher, as D♭2, or leave it out.',
    ]);
    expect(fixes).toEqual([
      {
        sentence: suggestions[0],
        told: {
          kind: 'write-on-fixed-string',
          facts: {
            to: { letter: 'C', octave: 1, alter: 1 },
            string: { letter: 'C', octave: 1 },
            tuned: true,
          },
        },
        moreMoves: 0,
        places: [0],
        changes: [{ kind: 'respell', note: notes[0], from: readPitch('Db1'), to: readPitch('C#1') }],
      },
    ]);
    const respelled = new Map([[notes[0]!, readPitch('C#1')]]);
    const fixed = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, respelled });
    expect(fixed.summary.playable).toBe(true);
    expect(fixed.respellings).toEqual([{ note: notes[0], from: readPitch('Db1'), to: readPitch('C#1') }]);
    expect(fixed.tunings.map(({ string, alter }) => [string.letter, alter])).toEqual([
      ['C', 1],
      ['D', 0],
    ]);
  });

  it('is offered a string that the piece leaves free, and told to tune it', () => {
    const { score, clashes } = clashesIn({ upper: 'r/4', lower: 'D1/1 D1/1 Db1/2' });
    expect(clashes[0]?.suggestions[0]).toBe('Write C♯1 and tune the string C1 to it before the piece.');
    const respelled = new Map([[clashes[0]!.notes[0]!, readPitch('C#1')]]);
    expect(planPedals(score, { ...DEFAULT_PLAN_OPTIONS, respelled }).summary.playable).toBe(true);
  });

  it.each([
    ['is tuned to something else', 'C1/1 D1/1 D1/1 Db1/1', 'D♭'],
    ['has a disc, and a pedal that may be asked for something else', 'D1/1 D1/1 D#1/2', 'D♯'],
  ])('is offered no other string that %s', (_what, lower, name) => {
    const { clashes } = clashesIn({ upper: 'r/4', lower });
    expect(clashes[0]?.fixes).toEqual([]);
    expect(clashes[0]?.suggestions).toEqual([
      `Play the ${name}1 an octave higher, as ${name}2, or leave it out.`,
    ]);
  });

  it('goes down where its string is the highest', () => {
    const { clashes } = clashesIn({ upper: 'G7/1 G7/1 Gb7/2' });
    expect(clashes[0]?.suggestions).toEqual(['Play the G♭7 an octave lower, as G♭6, or leave it out.']);
  });

  it('is offered nothing for an ornament’s neighbour, which is no note of its own', () => {
    const { score } = clashesIn({ upper: 'r/4', lower: 'C#1/1 D1/1 D1/1 E1/1' });
    const notes = score.notes.map((note) =>
      note.pitch.letter === 'E'
        ? { ...note, ornament: { kind: 'trill' as const, upper: null, lower: readPitch('Db1') } }
        : note,
    );
    const { findings } = planPedals({ ...score, notes });
    expect(findings.find(({ code }) => code === 'fixed-string-in-two-pitches')).toMatchObject({
      sentence: expect.stringMatching(/^D♭1 cannot be played/),
      fixes: [],
    });
  });
});
