import { describe, expect, it } from 'vitest';
import { formatChange, formatSetting } from '../../../engine/harp/setting.ts';
import { rationalKey } from '../../../engine/music/rational.ts';
import type { Plan } from '../../../engine/pedals/model.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const plan = (part: SmallPart): Plan => planPedals(smallPart(part));

/** Moves as `bar:beat change`. */
const moves = (part: SmallPart): string[] =>
  plan(part).moves.map((m) => `${m.bar + 1}:${rationalKey(m.beat)} ${formatChange(m.letter, m.to)}`);

const codes = (part: SmallPart): string[] => plan(part).findings.map((finding) => finding.code);

describe('the opening setting', () => {
  it('follows the first note of each letter, and the key where a letter is silent', () => {
    expect(formatSetting(plan({ upper: 'Eb4/1 C#4/1 G4/2', keyFifths: -3 }).initial)).toBe(
      'D♮ C♯ B♭ | E♭ F♮ G♮ A♭',
    );
  });
});

describe('the fewest moves', () => {
  it('a part in one key needs none', () => {
    expect(moves({ upper: 'C4/1 D4/1 E4/1 F4/1 | G4/1 A4/1 B4/1 C5/1' })).toEqual([]);
  });

  it('a chromatic neighbour needs two: there and back', () => {
    expect(moves({ upper: 'C4/1 r/2 C#4/1 | r/3 C4/1' })).toHaveLength(2);
  });

  it('every octave obeys the one pedal of its letter', () => {
    expect(moves({ upper: 'C4/1 r/2 C#6/1' })).toEqual(['1:3 C♯']);
  });

  it('a tied note rings on and asks for nothing new', () => {
    expect(moves({ upper: 'C4/4 | ~C4/1 r/2 C#5/1' })).toEqual(['2:3 C♯']);
  });
});

describe('the moment of a move', () => {
  it('a held bass C delays the C pedal until the C ends', () => {
    const part = { upper: 'G4/1 G4/1 G4/1 G4/1 | G4/1 G4/1 C#5/1 r/1', lower: 'C2/4 | r/4' };
    expect(moves(part)).toEqual(['2:2 C♯']);
    expect(codes(part)).not.toContain('ringing-string-moved');
  });

  it('a C held into the bar of the C sharp must be disturbed, and the plan says so', () => {
    const part = { upper: 'r/4 | r/2 C#5/2', lower: 'C2/4 | ~C2/4' };
    expect(moves(part)).toHaveLength(1);
    expect(codes(part)).toContain('ringing-string-moved');
  });

  it('comes before the note that needs it, never with it where there is time', () => {
    for (const move of plan({ upper: 'F4/1 r/1 F#4/1 r/1 | F4/1 r/1 F#4/1 r/1' }).moves) {
      expect(rationalKey(move.at)).not.toBe(rationalKey(move.window.before!.onset));
    }
  });

  it('a trill holds its pedals to its end', () => {
    expect(moves({ upper: 'D4/3tr(Eb4) E4/1' })).toEqual(['1:4 E♮']);
  });

  it('a grace note needs its pedal before the note it leads to', () => {
    const part = { upper: 'r/2 (C#4) D4/2 | C4/4' };
    expect(formatSetting(plan(part).initial)).toContain('C♯');
    expect(moves(part)).toHaveLength(1);
  });
});

describe('two feet', () => {
  it('move at one moment: one pedal each', () => {
    const part = { upper: 'C4+F4/1 C4+F4/1 C#4+F#4/1 r/1', quartersPerMinute: 200 };
    const made = plan(part).moves;
    expect(made.map((move) => move.foot)).toEqual(['left', 'right']);
    expect(codes(part)).not.toContain('foot-too-busy');
  });

  it('one foot takes two pedals one after the other', () => {
    const [first, second] = plan({ upper: 'C4+B3/2 C#4+Bb3/2', quartersPerMinute: 60 }).moves;
    expect(rationalKey(first!.at)).not.toBe(rationalKey(second!.at));
  });

  it('one foot cannot move two pedals between two fast notes', () => {
    const part = { upper: 'C4+D4/1:4 C#4+D#4/1:4 r/1', quartersPerMinute: 120 };
    expect(codes(part)).toContain('foot-too-busy');
  });
});

describe('what no pedal can give', () => {
  it('C and C sharp at once ask one pedal for two positions', () => {
    const { findings } = plan({ upper: 'C4+C#5/1' });
    expect(findings.map((f) => [f.code, f.severity])).toEqual([['pedal-in-two-positions', 'stop']]);
    expect(findings[0]!.notes).toHaveLength(2);
  });

  it('C4 and C sharp 4 at once ask one string for two pitches', () => {
    expect(codes({ upper: 'C4/1', lower: 'C#4/1' })).toEqual(['string-in-two-pitches']);
  });

  it('the clash costs one note, and the rest of the piece is still served', () => {
    expect(moves({ upper: 'C4/1 C4+C#5/1 C4/1' })).toEqual([]);
  });

  it('a double accidental is played on the neighbouring string', () => {
    const { respellings, initial } = plan({ upper: 'Dbb4+Fb4+Abb4+Cb4/4' });
    // H. Berlioz, Traité d'instrumentation, La Harpe: that chord lies on the strings C, F flat, G and B.
    expect(respellings.map(({ to }) => `${to.letter}${to.alter}`)).toEqual(['C0', 'G0']);
    expect(initial.F).toBe(-1);
  });

  it('a note below the lowest string is out of range', () => {
    expect(codes({ upper: 'B0/4' })).toEqual(['out-of-range']);
  });
});

describe('strings without discs', () => {
  it('a low D flat is tuned beforehand and does not move the D pedal', () => {
    const tuned = plan({ upper: 'D4/1 r/2 D4/1', lower: 'r/1 Db1/2 r/1' });
    expect(tuned.moves).toEqual([]);
    expect(tuned.tunings).toEqual([{ string: { letter: 'D', octave: 1 }, alter: -1 }]);
    expect(tuned.findings.map((f) => f.code)).toEqual(['fixed-string-tuning']);
  });

  it('cannot be asked for two pitches in one piece', () => {
    expect(codes({ upper: 'r/4', lower: 'C1/2 Cb1/2' })).toContain('fixed-string-in-two-pitches');
  });
});

describe('a glissando', () => {
  it('holds all seven pedals while it sweeps', () => {
    const part = { upper: 'C4/2> C6/1 r/1 | r/2 F#5/2' };
    expect(moves(part)).toEqual(['2:2 F♯']);
    expect(codes(part)).toContain('glissando-setting-guessed');
  });
});

describe('a slide on one string', () => {
  it('moves the pedal with the second note, while the string rings, and warns of nothing', () => {
    const part = { upper: 'C4/2) C#4/2' };
    expect(moves(part)).toEqual(['1:3 C♯']);
    expect(codes(part)).toEqual([]);
  });
});

describe('a part with repeats', () => {
  it('restores at the start what sounds to the very end', () => {
    const part = { upper: 'r/1 C4/1 r/2 | r/2 C#4/2', playOrder: [0, 1, 0, 1] };
    expect(moves(part)).toEqual(['1:1 C♮', '2:2 C♯']);
    expect(codes(part)).toContain('repeat-restored');
  });

  it('restores before the end where the pedal is free there', () => {
    const part = { upper: 'C4/1 r/3 | r/1 C#4/1 r/2', playOrder: [0, 1, 0, 1] };
    expect(moves(part)).toEqual(['2:1 C♯', '2:4 C♮']);
    expect(codes(part)).not.toContain('repeat-restored');
  });

  it('gives both endings their setting by one change before they part', () => {
    const part = { upper: 'C4/1 r/3 | C#4/1 r/3 | C#4/1 r/3', playOrder: [0, 1, 0, 2] };
    expect(moves(part)).toEqual(['1:4 C♯', '2:4 C♮']);
  });
});

describe('the share of moves at the pluck', () => {
  const shareOf = (upper: string): number =>
    planPedals(smallPart({ upper, quartersPerMinute: 100 })).summary.difficulty.measures.atThePluck;

  it('counts those at the very moment of their note, not one 0.15 seconds before it', () => {
    expect(shareOf('C4/1 C#4/1 r/2')).toBe(1);
    expect(shareOf('C4/1:2 D4/1:4 E4/1:4 C#4/1 r/2')).toBe(0);
  });
});
