import { describe, expect, it } from 'vitest';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { listPitchNeeds } from '../../../engine/levers/strings/asked.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { rationalKey } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { findSweepSettings } from '../../../engine/sounding/glissando-settings.ts';
import { bar as meiBar, notes as meiNotes, meiScore, read as readMei } from '../score/mei/mei-builder.ts';
import {
  bar,
  DIVISIONS,
  type NoteOptions,
  note,
  readHarp,
  rest,
  words,
} from '../score/musicxml/musicxml-builder.ts';

// Which notes words sweep, and what decides their strings: common practice, no source, where none is named.

/** Notes of one length. */
const run = (names: string, quarters = 0.25, options: NoteOptions = {}): string =>
  names
    .split(' ')
    .map((name) => note(name, quarters, options))
    .join('');

const swept = (score: Score): readonly string[] =>
  score.sweeps.map(({ from, to }) => {
    const [first, last] = [from, to].map((id) => score.notes.find((each) => each.id === id)!.pitch);
    return `${first!.letter}${first!.octave}-${last!.letter}${last!.octave}`;
  });

const untold = (score: Score): readonly string[] =>
  score.remarks.filter(({ message }) => message.includes('no glissando')).map(({ message }) => message);

/** The setting at the start, and the moves. */
const planned = (score: Score, options: Partial<PlanOptions> = {}): string => {
  const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...options });
  const moves = plan.moves.map(({ letter, to, at }) => `${letter} ${to} at ${rationalKey(at)}`);
  return [formatSetting(plan.initial), ...moves].join(', ');
};

const codes = (score: Score): readonly string[] => planPedals(score).findings.map(({ code }) => code);

const key = (fifths: number, music: string): ReturnType<typeof bar> =>
  bar(music, { attributes: `<key><fifths>${fifths}</fifths></key>` });

/** Two notes with the sign of a glissando between them. */
const signed = (from: string, to: string): string =>
  note(from, 2, { notations: '<glissando type="start"/>' }) +
  note(to, 2, { notations: '<glissando type="stop"/>' });

describe('words over notes are a glissando', () => {
  it.each([
    'gliss.',
    'Gliss',
    'glissando',
    'glissez',
    'en glissant',
    'glissato',
    'gleitend',
    'poco a poco gliss. e dim.',
  ])('“%s”', (text) => {
    expect(swept(readHarp(words(text) + note('C4', 2) + note('C6', 2)))).toEqual(['C4-C6']);
  });

  it.each(['senza gliss.', 'non glissando', 'anglissant', 'dolce'])('but not “%s”', (text) => {
    expect(swept(readHarp(words(text) + note('C4', 2) + note('C6', 2)))).toEqual([]);
  });

  it('that run from string to string, to the note at which they arrive', () => {
    const small = run('C4 D4 E4 F4 G4 A4 B4 C5');
    expect(swept(readHarp(words('gliss.') + small + note('C7', 2)))).toEqual(['C4-C7']);
    expect(swept(readHarp(words('gliss.') + small + note('C3', 2)))).toEqual(['C4-C5']);
  });

  it('that are tuplets, whose lengths a file rounds', () => {
    const rounded = [34, 34, 35, 34, 34, 35, 34].map((length, i) =>
      note(`${'CDEFGAB'[i]}4`, length / DIVISIONS),
    );
    expect(swept(readHarp(words('gliss.') + rounded.join('') + note('C6', 3)))).toEqual(['C4-C6']);
  });

  it('that begin the bar after the words', () => {
    const score = readHarp(note('E4', 4) + words('gliss.'), note('C4', 2) + note('C6', 2));
    expect(swept(score)).toEqual(['C4-C6']);
  });

  it('that are grace notes, and lead to the note they stand before', () => {
    const graces = run('C4 D4 E4 F4 G4 A4 B4', 0, { grace: 'plain' });
    expect(swept(readHarp(words('gliss.') + graces + note('C5', 4)))).toEqual(['C4-C5']);
  });

  it('up and down again, one sweep each way', () => {
    const wave = run('C4 D4 E4 F4 G4 F4 E4 D4');
    expect(swept(readHarp(words('gliss.') + wave + note('C4', 2)))).toEqual(['C4-G4', 'G4-C4']);
  });

  it('that leap while the words stand between them', () => {
    const late = note('C4', 2) + words('gliss.', '<offset>-240</offset><staff>1</staff>') + note('C6', 2);
    expect(swept(readHarp(late))).toEqual(['C4-C6']);
  });

  it('of the staff at which they stand, from staff to staff where the voice crosses', () => {
    const crossing = run('C3 D3 E3 F3', 0.25, { staff: 2 }) + run('G3 A3 B3 C4', 0.25, { staff: 1 });
    expect(swept(readHarp(words('gliss.', '<staff>2</staff>') + crossing + note('C6', 2)))).toEqual([
      'C3-C6',
    ]);
  });

  it('once, where a sign says so too', () => {
    const sign = (type: string) => ({ notations: `<glissando type="${type}"/>` });
    const music = note('C4', 2, sign('start')) + note('C6', 2, sign('stop'));
    expect(swept(readHarp(words('gliss.') + music))).toEqual(['C4-C6']);
  });

  it('and else a remark names the words and the bar', () => {
    for (const music of [note('C4', 4), note('C4', 2) + note('D4', 2), run('C4 E4 D4 F4', 1)]) {
      const score = readHarp(note('C4', 4), `${words('gliss.')}${music}`);
      expect(swept(score)).toEqual([]);
      expect(untold(score)).toHaveLength(1);
      expect(untold(score)[0]).toContain('“gliss.”');
      expect(score.remarks.find(({ message }) => message.includes('no glissando'))!.barNumber).toBe('2');
    }
  });

  it('but not over a run that asks one letter for two positions', () => {
    const score = readHarp(words('gliss.') + run('C4 C#4 D4 D#4 E4 F4 F#4 G4') + note('G#4', 2));
    expect([swept(score), untold(score).length]).toEqual([[], 1]);
  });

  it('in MEI too, where the words stand at the harp', () => {
    const music = `${meiNotes('c4 d4 e4 f4 g4 a4 b4 c5', 16)}${meiNotes('c7', 2)}`;
    const at = (staff: number) => `<dir staff="${staff}" tstamp="1">en glissant</dir>`;
    expect(swept(readMei(meiScore(meiBar({ upper: music, marks: at(1) }))))).toEqual(['C4-C7']);
    expect(swept(readMei(meiScore(meiBar({ upper: music, marks: at(7) }))))).toEqual([]);
    const still = readMei(meiScore(meiBar({ upper: meiNotes('c4', 1), marks: at(1) })));
    expect(untold(still)).toHaveLength(1);
  });
});

describe('the strings of a glissando', () => {
  // H. Berlioz, Traité d'instrumentation, La Harpe: the diminished seventh by enharmonic doubling.
  it('between those of a chord double them', () => {
    const chord = run('C4 Eb4 Gb4 A4 C5 Eb5 Gb5 A5', 0.25);
    const score = readHarp(words('gliss.') + chord + note('C6', 2));
    expect(planned(score)).toBe('D♯ C♮ B♯ | E♭ F♯ G♭ A♮');
    expect(codes(score)).not.toContain('glissando-setting-guessed');
  });

  it('between those of a pentatonic scale double them', () => {
    expect(planned(readHarp(words('gliss.') + run('C4 D4 E4 G4 A4 C5 D5 E5') + note('G5', 2)))).toBe(
      'D♮ C♮ B♯ | E♮ F♭ G♮ A♮',
    );
  });

  it('are those of the scale that is written out, against the key signature', () => {
    const score = readHarp(key(0, words('gliss.') + run('Eb4 F4 G4 Ab4 Bb4 C5 D5 Eb5') + note('Eb6', 2)));
    expect(planned(score)).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
    expect(codes(score)).not.toContain('glissando-setting-guessed');
  });

  it('that a run does not reach are not doubled on that account', () => {
    const score = readHarp(words('gliss.') + run('D4 E4 F4 G4 A4 B4', 0.25) + note('D6', 2.5));
    expect(planned(score)).toBe('D♮ C♮ B♮ | E♮ F♮ G♮ A♮');
  });

  it('stay where notes of the bar before left them, against the key signature', () => {
    const score = readHarp(key(0, run('F#4 G4 F#4 G4', 1)), words('gliss.') + note('C4', 2) + note('C6', 2));
    expect(planned(score)).toBe('D♮ C♮ B♮ | E♮ F♯ G♮ A♮');
  });

  it('stay as a glissando before left them, until a note says otherwise', () => {
    const first = words('gliss.') + run('C4 Eb4 Gb4 A4 C5 Eb5 Gb5 A5') + note('C6', 2);
    expect(planned(readHarp(first, signed('C4', 'C6')))).toBe('D♯ C♮ B♯ | E♭ F♯ G♭ A♮');
    const turned = readHarp(first, note('D5', 1) + rest(1) + words('gliss.') + note('C4', 1) + note('C6', 1));
    expect(planned(turned)).toMatch(/^D♯ C♮ B♯ \| E♭ F♯ G♭ A♮, D 0 at [0-9/]+$/);
  });

  it('of a stated sound are those that the fewest pedals give from where the glissando before left them', () => {
    const first = words('gliss.') + run('C4 Eb4 Gb4 A4 C5 Eb5 Gb5 A5') + note('C6', 2);
    const score = readHarp(first, words('gliss. C whole tone') + note('C4', 2) + note('C6', 2));
    expect(planPedals(score).moves).toHaveLength(4);
  });

  it('are those of the key signature where nothing else tells, and that is told', () => {
    const score = readHarp(key(-3, words('gliss.') + note('C4', 2) + note('C6', 2)));
    expect(planned(score)).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
    expect(codes(score)).toContain('glissando-setting-guessed');
  });
});

describe('words that state a setting', () => {
  const music = note('C4', 2) + note('C6', 2);

  it.each([
    ['gliss. E♭ major', 'D♮ C♮ B♭ | E♭ F♮ G♮ A♭'],
    ['glissando (Eb major)', 'D♮ C♮ B♭ | E♭ F♮ G♮ A♭'],
    ['gliss. (D♭ C♮ B♭ E♭ F♮ G♭ A♭)', 'D♭ C♮ B♭ | E♭ F♮ G♭ A♭'],
    ['gliss. A♭ F♯', 'D♮ C♮ B♮ | E♮ F♯ G♮ A♭'],
    ['en glissant, ré♭ mi♭', 'D♭ C♮ B♮ | E♭ F♮ G♮ A♮'],
    ['gliss. C whole tone', 'D♮ C♮ B♭ | E♮ F♭ G♭ A♭'],
    ['gliss. Cdim7', 'D♯ C♮ B♯ | E♭ F♯ G♭ A♮'],
  ])('is obeyed: “%s”', (text, setting) => {
    expect(planned(readHarp(words(text) + music))).toBe(setting);
  });

  it('leaves no letter to be guessed', () => {
    expect(codes(readHarp(words('gliss. E♭ major') + music))).not.toContain('glissando-setting-guessed');
  });

  it('is obeyed at a sign, as words over it or along its line', () => {
    const sign = (type: string, text = '') => ({
      notations: `<glissando type="${type}">${text}</glissando>`,
    });
    const over = words('gliss. E♭ major') + note('C4', 2, sign('start')) + note('C6', 2, sign('stop'));
    const along = note('C4', 2, sign('start', 'gliss. E♭ major')) + note('C6', 2, sign('stop'));
    for (const each of [over, along]) expect(planned(readHarp(each))).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
    const mei = readMei(
      meiScore(
        meiBar({
          upper: meiNotes('c4 c6', 2),
          marks: '<gliss staff="1" tstamp="1" tstamp2="0m+3">E♭ major</gliss>',
        }),
      ),
    );
    expect(planned(mei)).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
  });

  it('gives way to the notes of the glissando', () => {
    const score = readHarp(words('gliss. E♭ major') + note('D4', 2) + note('D6', 2));
    expect(planned(score)).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
    const other = readHarp(words('gliss. E♭ major') + note('Db4', 2) + note('D6', 2));
    expect(planned(other)).toContain('D♭');
  });

  it('does not take other words for a sound', () => {
    for (const text of ['gliss. e dim.', 'gliss. a 2', 'gliss. ad lib.', 'gliss. A']) {
      const [sweep] = readHarp(words(text) + music).sweeps;
      expect(sweep!.words).toEqual({ positions: {}, sound: null });
    }
  });
});

describe('the arrival of a glissando', () => {
  it('is plucked after the sweep: its pedal moves there, and not before', () => {
    for (const music of [signed('C4', 'F#6'), words('gliss.') + note('C4', 2) + note('F#6', 2)]) {
      expect(planned(readHarp(music))).toBe('D♮ C♮ B♮ | E♮ F♮ G♮ A♮, F 1 at 2');
      expect(codes(readHarp(music))).not.toContain('pedal-in-two-positions');
    }
  });

  it('may alter the letter on which the glissando began', () => {
    expect(planned(readHarp(signed('C4', 'C#6')))).toBe('D♮ C♮ B♮ | E♮ F♮ G♮ A♮, C 1 at 2');
  });

  it('is none of the strings of a short sweep', () => {
    expect(planned(readHarp(signed('C4', 'F#4')))).toBe('D♮ C♮ B♮ | E♮ F♯ G♮ A♮');
    const held = { letter: 'F', position: 0, kind: 'position', from: { num: 0, den: 1 } } as const;
    const pins = [{ ...held, until: { num: 2, den: 1 } }];
    expect(planned(readHarp(signed('C4', 'F#4')), { pins })).toContain('F 1 at 2');
  });

  it('on a lever harp is plucked on a string that the sweep leaves alone', () => {
    const asked = (score: Score) =>
      listPitchNeeds(score, findSweepSettings(score, []), new Map(), new Set())
        .filter(({ kind }) => kind === 'swept')
        .map(({ pitch }) => pitchName(pitch));
    expect(asked(readHarp(signed('C4', 'F#4')))).toEqual(['C4', 'D4', 'E4']);
    expect(asked(readHarp(signed('F#4', 'C4')))).toEqual(['D4', 'E4', 'F♯4']);
  });
});

describe('what is fixed wins over what is guessed', () => {
  const sweep = signed('C4', 'C6');
  const at = (num: number) => ({ num, den: 1 });

  it('a position that is kept from the start, or from the midst of the sweep', () => {
    const pin = { kind: 'position', letter: 'F', position: 1, from: at(0), until: null } as const;
    for (const from of [at(0), at(1)])
      expect(planned(readHarp(sweep), { pins: [{ ...pin, from }] })).toBe('D♮ C♮ B♮ | E♮ F♯ G♮ A♮');
  });

  it('a position that is kept, over the sound of a chord', () => {
    const pin = { kind: 'position', letter: 'B', position: 0, from: at(0), until: null } as const;
    const chord = readHarp(words('gliss.') + run('C4 Eb4 Gb4 A4 C5 Eb5 Gb5 A5') + note('C6', 2));
    expect(planned(chord)).toContain('B♯');
    expect(planned(chord, { pins: [pin] })).toContain('B♮');
  });

  it('and leaves the other strings doubled: all but D of a diminished seventh with D natural', () => {
    const pin = { kind: 'position', letter: 'D', position: 0, from: at(0), until: null } as const;
    const chord = readHarp(words('gliss.') + run('C4 Eb4 Gb4 A4 C5 Eb5 Gb5 A5') + note('C6', 2));
    expect(planned(chord, { pins: [pin] })).toBe('D♮ C♮ B♯ | E♭ F♯ G♭ A♮');
  });

  it('a move that is fixed in the midst of the sweep', () => {
    const pin = { kind: 'move', letter: 'F', position: 1, at: at(1) } as const;
    const score = readHarp(sweep);
    expect(planned(score, { pins: [pin] })).toContain('F♯');
    const { findings } = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, pins: [pin] });
    expect(findings.map(({ code }) => code)).not.toContain('pin-not-honoured');
  });

  it('a fixed move, over a change of key', () => {
    const pin = { kind: 'move', letter: 'F', position: 1, at: at(0) } as const;
    const score = readHarp(key(1, note('D4', 4)), key(-1, sweep));
    expect(planned(score)).toContain('F♮');
    expect(planned(score, { pins: [pin] })).toBe('D♮ C♮ B♭ | E♮ F♯ G♮ A♮');
  });

  it('a marking of the file that is kept, over a change of key', () => {
    const score = readHarp(key(1, words('F♯') + note('D4', 4)), key(-1, sweep));
    expect(planned(score)).toContain('F♮');
    expect(planned(score, { followMarkings: true })).toBe('D♮ C♮ B♭ | E♮ F♯ G♮ A♮');
  });
});
