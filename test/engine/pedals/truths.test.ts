import { describe, expect, it } from 'vitest';
import type { Pin } from '../../../engine/harp/pin.ts';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { listPitchNeeds } from '../../../engine/levers/strings/asked.ts';
import { rational, rationalKey } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Note } from '../../../engine/score/model/note.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { otherStrings } from '../../../engine/sounding/needs.ts';
import { readPitch, type SmallPart, smallPart } from '../../part-builder.ts';

// What a harpist knows of single places: common practice, no source, where none is named.

const told = (score: Score, options: Partial<PlanOptions> = {}) => {
  const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...options });
  return {
    setting: formatSetting(plan.initial),
    moves: plan.moves.map(({ letter, to, at }) => `${letter} ${to} at ${rationalKey(at)}`),
    codes: plan.findings.map(({ code }) => code),
    findings: plan.findings,
    plan,
  };
};

const ofPart = (part: SmallPart, options: Partial<PlanOptions> = {}) => told(smallPart(part), options);

/** The part with one note changed. */
const withNote = (part: SmallPart, index: number, change: Partial<Note>): Score => {
  const score = smallPart(part);
  return { ...score, notes: score.notes.with(index, { ...score.notes[index]!, ...change }) };
};

describe('a glissando', () => {
  it('over four strings leaves the other pedals to the other hand', () => {
    const { setting, codes } = ofPart({ upper: 'C4/2> F4/2', lower: 'r/1 Bb2/3' });
    expect(codes).toEqual(['glissando-setting-guessed']);
    expect(setting).toContain('B♭');
    const overIt = ofPart({ upper: 'B4/2> D5/2', lower: 'r/1 Bb2/3' });
    expect(overIt.codes).toContain('pedal-in-two-positions');
  });

  it('goes by the chord that is struck with it, before the key', () => {
    const { setting, findings } = ofPart({ upper: 'D4/2> D6/2', lower: 'D2+A2+F#3/4' });
    expect(setting).toContain('F♯');
    expect(findings).toHaveLength(1);
    expect(findings[0]!.sentence).not.toContain('F');
  });

  it('does not go by the cue of another instrument', () => {
    const part = { upper: 'F#5/1 r/1 C4/1> C6/1' };
    expect(told(withNote(part, 0, { role: 'cue' })).setting).toContain('F♮');
    expect(ofPart(part).setting).toContain('F♯');
  });
});

describe('an ornament', () => {
  const neighbourClash = { upper: 'C5/4tr(D#5)', lower: 'D3/1 r/3' };

  it('takes its neighbour on another string where its own pedal is wanted elsewhere', () => {
    const { setting, findings } = ofPart(neighbourClash);
    expect(setting).toContain('E♭');
    expect(findings.map(({ code, severity }) => [code, severity])).toEqual([
      ['played-on-other-string', 'note'],
    ]);
    expect(findings[0]!.sentence).toContain('played on the E5 string, as E♭5');
  });

  it('takes it on its own string where nothing else wants that', () => {
    expect(ofPart({ upper: 'C5/4tr(D#5)' })).toMatchObject({ codes: [] });
    expect(ofPart({ upper: 'C5/4tr(D#5)' }).setting).toContain('D♯');
  });

  it('clashes where the other string is wanted elsewhere too', () => {
    expect(ofPart({ ...neighbourClash, lower: 'D3+E3/1 r/3' }).codes).toContain('pedal-in-two-positions');
  });

  it('on a tied note is plucked: by pedals and by levers', () => {
    const part = { upper: 'C5/4 | ~C5/4tr(Db5)' };
    expect(ofPart(part).setting).toContain('D♭');
    const levers = planLevers(smallPart({ upper: 'C5/4 | ~C5/4tr(D#5)' }), DEFAULT_LEVER_OPTIONS);
    const plain = planLevers(smallPart({ upper: 'C5/4 | ~C5/4' }), DEFAULT_LEVER_OPTIONS);
    expect(levers.summary.changes + levers.findings.length + levers.initial.length).toBeGreaterThan(
      plain.summary.changes + plain.findings.length + plain.initial.length,
    );
  });

  it('that comes late in its note leaves its beginning to the other hand', () => {
    const turned = (kind: 'turn' | 'delayed-turn') =>
      told(
        withNote({ upper: 'C5/2 r/2', lower: 'D3/1 r/3' }, 0, {
          ornament: { kind, upper: readPitch('D#5'), lower: readPitch('B4') },
        }),
      );
    expect(turned('delayed-turn').codes).not.toContain('pedal-in-two-positions');
    expect(turned('delayed-turn').moves).toEqual(['D 1 at 1']);
    expect(turned('turn').codes).toContain('played-on-other-string');
  });

  it('that comes late in its note is asked of the levers late, too', () => {
    const score = withNote({ upper: 'C5/2 r/2' }, 0, {
      ornament: { kind: 'delayed-turn', upper: readPitch('D5'), lower: readPitch('B4') },
    });
    const [main, ...neighbours] = listPitchNeeds(score, [], new Map(), new Set());
    expect(rationalKey(main!.onset)).toBe('0');
    expect(neighbours.map(({ onset }) => rationalKey(onset))).toEqual(['1', '1']);
  });
});

describe('two strings of one pitch', () => {
  it('that are plucked by turns, fast, stay two where the spelling is free', () => {
    const part = { upper: 'C#4/1:4 Db4/1:4 C#4/1:4 Db4/1:4 D4/1 C4/1 r/1' };
    const onOneString = (quartersPerMinute: number) =>
      ofPart({ ...part, quartersPerMinute }, { spelling: 'free' }).plan.respellings.filter(
        ({ from }) => from.alter !== 0,
      );
    expect(onOneString(150)).toEqual([]);
    expect(onOneString(40)).not.toEqual([]);
  });

  it('are advised for a tremolo that one string cannot give', () => {
    const tremolo = (marks: number) =>
      told(
        withNote({ upper: 'C5/4', quartersPerMinute: 120 }, 0, {
          tremolo: { kind: 'single', marks, pair: null },
        }),
      );
    const [finding] = tremolo(3).findings;
    expect(finding).toMatchObject({ code: 'string-restruck-fast', severity: 'warn' });
    expect(finding!.suggestions[0]).toContain('between C5 and B♯4');
    expect(tremolo(1).codes).toEqual([]);
  });
});

describe('one pedal between two strings', () => {
  it('moves while the first still sounds, if they follow each other at once', () => {
    expect(ofPart({ upper: 'C4/1:4 C#5/1:4 r/7:2', quartersPerMinute: 200 }).codes).toEqual([
      'ringing-string-moved',
    ]);
    expect(ofPart({ upper: 'C4/1:4 C#5/1:4 r/7:2', quartersPerMinute: 40 }).codes).toEqual([]);
  });

  it('is called the same pedal where the foot has no time to move it back', () => {
    const { findings } = ofPart({ upper: 'C4/1:4 C#5/1:4 C4/1:4 r/13:4', quartersPerMinute: 90 });
    const busy = findings.find(({ code }) => code === 'foot-too-busy');
    expect(busy!.sentence).toContain('it has only just moved the same pedal');
  });

  it('is not told as just moved where two pedals of a foot must move at one moment', () => {
    const { findings } = ofPart({ upper: 'D4+C4/1:8 D#4+C#4/1:8 r/15:4', quartersPerMinute: 90 });
    const busy = findings.find(({ code }) => code === 'foot-too-busy');
    expect(busy!.sentence).toContain('it moves another pedal at the same moment');
  });
});

describe('a hand', () => {
  it('plucks a note that two of its voices share with one finger', () => {
    const score = smallPart({ upper: 'C4+E4+G4+C5/4' });
    const shared = { ...score.notes.at(-1)!, id: 'shared', voice: '2' };
    expect(told({ ...score, notes: [...score.notes, shared] }).codes).toEqual([]);
  });

  it('is not told to break a chord that is broken already', () => {
    const advice = (upper: string) =>
      ofPart({ upper, lower: 'C3+E3+G3+B3/4' }).findings[0]!.suggestions.join(' ');
    expect(advice('C4+E4+G4+B4+D5/4')).toContain('Break the chord');
    expect(advice('C4+E4+G4+B4+D5/4{')).not.toContain('Break the chord');
  });
});

describe('a note below the harp', () => {
  it('is given on the string above, if that can be set to it', () => {
    const [finding] = ofPart({ upper: 'r/4', lower: 'B0/4' }).findings;
    expect(finding!.fixes.map(({ sentence }) => sentence)).toEqual(['Write C♭1 for the B0.']);
    expect(ofPart({ upper: 'r/4', lower: 'A0/4' }).findings[0]!.fixes).toEqual([]);
  });
});

describe('the beats of a pickup', () => {
  it('are the last of its meter, so that a move may fall on them', () => {
    const score = smallPart({ upper: 'C4/1:2 r/1 | C#4/4' });
    const [pickup, next] = score.bars;
    const short = rational(3, 2);
    const bars = [
      { ...pickup!, duration: short },
      { ...next!, onset: short },
    ];
    const notes = score.notes.map((note) => (note.bar === 1 ? { ...note, onset: short } : note));
    expect(told({ ...score, bars, notes }).moves).toEqual(['C 1 at 1/2']);
  });

  it('are so at the beginning of a later movement, too', () => {
    const score = smallPart({ upper: 'C4/4 | C4/1:2 r/1 | C#4/4' });
    const [first, pickup, next] = score.bars;
    const onset = rational(11, 2);
    const bars = [first!, { ...pickup!, duration: rational(3, 2) }, { ...next!, onset }];
    const notes = score.notes.map((note) => (note.bar === 2 ? { ...note, onset } : note));
    expect(told({ ...score, movements: [0, 1], bars, notes }).moves).toEqual(['C 1 at 9/2']);
  });
});

describe('a move that the user fixed', () => {
  const fixed = (upper: string, ...pins: readonly Pin[]) => ofPart({ upper }, { pins });

  it('is made there and nowhere else, whatever stands before', () => {
    const at = rational(8);
    const early: Pin = { kind: 'position', letter: 'C', position: 0, from: rational(0), until: rational(1) };
    const { moves, codes } = fixed('E4/4 | E4/4 | C#4/4', early, {
      kind: 'move',
      letter: 'C',
      position: 1,
      at,
    });
    expect([moves, codes]).toEqual([['C 1 at 8'], []]);
  });

  it('is printed even where no note asks for it', () => {
    const pin: Pin = { kind: 'move', letter: 'G', position: 1, at: rational(4) };
    expect(fixed('C4/4 | C4/4 | C4/4', pin).moves).toEqual(['G 1 at 4']);
  });

  it('is told of where the file marks two moves of one foot at one moment, and one is made before', () => {
    const score = smallPart({ upper: 'E4/2 r/2 | C#4/1 D#4/1 r/2' });
    const mark = (at: number, positions: Score['markings'][number]['positions']) => ({
      ...{ at: rational(at), bar: 0, span: { start: 0, end: 0 }, form: 'words' as const },
      ...{ positions, ahead: false, text: '' },
    });
    const all = { D: 0, C: 0, B: 0, E: 0, F: 0, G: 0, A: 0 } as const;
    const marked = { ...score, markings: [mark(0, all), mark(2, { C: 1, D: 1 })] };
    const { findings, moves } = told(marked, { followMarkings: true });
    expect(moves).toHaveLength(2);
    const [finding] = findings;
    expect(finding!.code).toBe('pin-not-honoured');
    expect(finding!.sentence).toMatch(/has to be set here, earlier than where it is pinned: the left foot/);
  });

  it('is told of where a note needs it before the place that the user chose', () => {
    const pin: Pin = { kind: 'move', letter: 'C', position: 1, at: rational(6) };
    const { findings } = fixed('C4/4 | C#4/4', pin);
    expect(findings.map(({ code }) => code)).toEqual(['pin-not-honoured']);
    expect(findings[0]!.sentence).toMatch(/a note needs it sooner/);
  });

  it('leaves a glissando alone that comes when a note has said otherwise', () => {
    const upper = 'B4/4 | Bb4/4 | C4/2> C6/2';
    const plain = ofPart({ upper, keyFifths: -2 });
    const pin: Pin = { kind: 'move', letter: 'B', position: 0, at: rational(0) };
    const pinned = ofPart({ upper, keyFifths: -2 }, { pins: [pin] });
    expect(pinned.moves).toEqual(plain.moves);
    expect(pinned.moves).toHaveLength(1);
  });

  it('counts for a glissando by its time, in whatever order the moves were fixed', () => {
    const pins: Pin[] = [
      { kind: 'move', letter: 'B', position: -1, at: rational(6) },
      { kind: 'move', letter: 'B', position: 1, at: rational(2) },
    ];
    const moves = (order: readonly Pin[]) => fixed('D4/4 | D4/4 | C4/2> C6/2', ...order).moves;
    expect(moves(pins)).toEqual(moves(pins.toReversed()));
    expect(moves(pins).at(-1)).toBe('B -1 at 6');
  });
});

// Feet and pedals of the double-action harp: H. Berlioz, *Traité d'instrumentation*, La Harpe; from memory for the page.
describe('a pedal', () => {
  it.each([
    ['D', 'left'],
    ['C', 'left'],
    ['B', 'left'],
    ['E', 'right'],
    ['F', 'right'],
    ['G', 'right'],
    ['A', 'right'],
  ] as const)('of %s is moved by the %s foot', (letter, foot) => {
    const { plan } = ofPart({ upper: `${letter}4/1 r/3 | ${letter}b4/1 r/3` });
    expect(plan.moves.map((move) => [move.letter, move.foot])).toEqual([[letter, foot]]);
  });

  it.each([
    ['C4', 'C#5'],
    ['D4', 'Db5'],
    ['E4', 'Eb5'],
    ['F4', 'F#5'],
    ['G4', 'G#5'],
    ['A4', 'Ab5'],
    ['B4', 'Bb5'],
  ])('sets its strings in every octave: %s and %s do not go together', (one, other) => {
    const { codes, findings } = ofPart({ upper: `${one}+${other}/4` });
    expect(codes).toContain('pedal-in-two-positions');
    expect(findings.some(({ severity }) => severity === 'stop')).toBe(true);
  });

  it.each(['C', 'D', 'E', 'F', 'G', 'A', 'B'])('of %s serves all octaves with one move', (letter) => {
    const all = [2, 3, 4].map((octave) => `${letter}b${octave}`).join('+');
    expect(ofPart({ upper: `${letter}4/1 r/3 | r/4`, lower: `r/4 | ${all}/4` }).moves).toHaveLength(1);
  });
});

describe('the strings of a pitch', () => {
  it.each([
    ['C4', 'B#3'],
    ['C#4', 'Db4'],
    ['D#4', 'Eb4'],
    ['E4', 'Fb4'],
    ['F4', 'E#4'],
    ['F#4', 'Gb4'],
    ['G#4', 'Ab4'],
    ['A#4', 'Bb4'],
    ['B4', 'Cb5'],
  ])('of %s are its own and that of %s, which sounds the same', (one, other) => {
    const [first, second] = [readPitch(one), readPitch(other)];
    expect(otherStrings(first)).toEqual([second]);
    expect(otherStrings(second)).toEqual([first]);
  });

  it.each(['D4', 'G4', 'A4'])('of %s are its own alone', (pitch) => {
    expect(otherStrings(readPitch(pitch))).toEqual([]);
  });
});

describe('the opening setting of a part that asks for nothing', () => {
  it.each([
    [-7, 'D♭ C♭ B♭ | E♭ F♭ G♭ A♭'],
    [-4, 'D♭ C♮ B♭ | E♭ F♮ G♮ A♭'],
    [-3, 'D♮ C♮ B♭ | E♭ F♮ G♮ A♭'],
    [-1, 'D♮ C♮ B♭ | E♮ F♮ G♮ A♮'],
    [0, 'D♮ C♮ B♮ | E♮ F♮ G♮ A♮'],
    [2, 'D♮ C♯ B♮ | E♮ F♯ G♮ A♮'],
    [5, 'D♯ C♯ B♮ | E♮ F♯ G♯ A♯'],
    [7, 'D♯ C♯ B♯ | E♯ F♯ G♯ A♯'],
  ])('is that of its key signature: %i fifths are %s', (keyFifths, setting) => {
    expect(ofPart({ upper: 'r/4', keyFifths }).setting).toBe(setting);
  });
});

describe('from one scale to another', () => {
  it.each([
    ['C to G', 'C4 D4 E4 F4 G4 A4 B4', 'G4 A4 B4 C5 D5 E5 F#5', 1],
    ['C to F', 'C4 D4 E4 F4 G4 A4 B4', 'F4 G4 A4 Bb4 C5 D5 E5', 1],
    ['C to A', 'C4 D4 E4 F4 G4 A4 B4', 'A4 B4 C#5 D5 E5 F#5 G#5', 3],
    ['E flat to C', 'Eb4 F4 G4 Ab4 Bb4 C5 D5', 'C4 D4 E4 F4 G4 A4 B4', 3],
    ['C to C flat', 'C4 D4 E4 F4 G4 A4 B4', 'Cb4 Db4 Eb4 Fb4 Gb4 Ab4 Bb4', 7],
    ['A minor, natural to harmonic', 'A4 B4 C5 D5 E5 F5 G5', 'A4 B4 C5 D5 E5 F5 G#5', 1],
  ])('%s as many pedals move as letters differ, each once', (_name, from, to, moves) => {
    const bar = (scale: string): string => `${scale.replaceAll(/(\S+)/g, '$1/1:2')} r/1:2`;
    const { plan, codes } = ofPart({ upper: `${bar(from)} | r/4 | ${bar(to)}` });
    expect(plan.moves).toHaveLength(moves);
    expect(new Set(plan.moves.map(({ letter }) => letter)).size).toBe(moves);
    expect(plan.summary.minMoves).toBe(moves);
    expect(codes).not.toContain('foot-too-busy');
  });
});

describe('a figure on one string that is too fast for its pedal', () => {
  // One note on another string would be plucked twice in a row: the whole figure goes to neighbouring strings.
  it.each([
    ['D', 'E♭4 for the D♯4', 'F♭4 for the E4'],
    ['A', 'B♭4 for the A♯4', 'C♭5 for the B4'],
  ] as const)('is respelled as a whole: %s, its sharp and the next letter', (letter, sharp, next) => {
    const above = letter === 'D' ? 'E' : 'B';
    const figure = `${letter}4/1:2 ${letter}#4/1:2 ${above}4/1:2 ${letter}#4/1:2`;
    const part = {
      upper: `${figure} ${letter}4/1:2 ${letter}#4/1:2 ${above}4/1:2 ${letter}4/1:2 | ${letter}4/4`,
      quartersPerMinute: 220,
    };
    for (const spelling of ['keep', 'suggest'] as const) {
      const { findings } = ofPart(part, { spelling });
      const [stop] = findings.filter(({ severity }) => severity === 'stop');
      expect(stop!.suggestions[0]).toBe(
        `Write ${sharp} in bar 1, beats 1½, 2½ and 3½ (3 notes). Write ${next} in bar 1, beats 2 and 4 (2 notes) (saves at least 4 moves).`,
      );
    }
  });
});
