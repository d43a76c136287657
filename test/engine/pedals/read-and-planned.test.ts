import { describe, expect, it } from 'vitest';
import { extentOf, nameExtent } from '../../../engine/findings/extent.ts';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { rationalKey } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { HARP_STAVES, bar as meiBar, note as meiNote, meiScore, read } from '../score/mei/mei-builder.ts';
import {
  BACKWARD,
  backup,
  bar,
  barline,
  buildHarp,
  buildScore,
  DIVISIONS,
  FORWARD,
  note,
  readHarp,
  readProblem,
  readScore,
  rest,
  words,
} from '../score/musicxml/musicxml-builder.ts';

// From the file to the plan: what a reader mistakes, a harpist plays wrong.

const told = (score: Score, options: Partial<PlanOptions> = {}) => {
  const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...options });
  return {
    setting: formatSetting(plan.initial),
    moves: plan.moves.map(({ letter, bar: index, beat }) => `${letter} ${index + 1}:${rationalKey(beat)}`),
    codes: plan.findings.map(({ code }) => code),
    findings: plan.findings,
    summary: plan.summary,
    plan,
  };
};

const remarks = (score: Score): string => score.remarks.map(({ message }) => message).join(' ');

describe('a chord whose second note is written longer than its first', () => {
  const chordOf = (second: number): string =>
    note('C4', 1) + note('E4', second, { chord: true }) + note('G4', 3);

  it('leaves the moves of later bars where they are', () => {
    const rest = [note('F4', 4), note('F#4', 4)];
    const [long, right] = [3, 1].map((second) => told(readHarp(chordOf(second), ...rest)).moves);
    expect(long).toEqual(right);
    expect(long).toHaveLength(1);
  });

  it('keeps the tie over the bar line, so that its pedal waits', () => {
    const tied = (second: number): Score =>
      readHarp(
        note('E4', 4) + note('C4', second, { chord: true, ties: ['start'] }),
        note('C4', 2, { ties: ['stop'] }) + note('C#4', 2),
      );
    expect(told(tied(8)).moves).toEqual(told(tied(4)).moves);
    expect(tied(8).notes.filter(({ tiedFrom }) => tiedFrom !== null)).toHaveLength(1);
  });
});

describe('a tie', () => {
  it('that begins on a hidden double holds the pedal as long as the string sounds', () => {
    const score = readHarp(
      note('C4', 4) + backup(4) + note('C4', 4, { hidden: true, voice: '2', ties: ['start'] }),
      note('C4', 4, { ties: ['stop'] }),
      note('C#4', 4),
    );
    expect(told(score).moves).toEqual(['C 3:1']);
    expect(score.notes.filter(({ tiedFrom }) => tiedFrom === null)).toHaveLength(2);
  });

  it('that meets no note plucks its end, and the remark does not blame another bar', () => {
    const score = readHarp(
      note('C4', 2, { ties: ['start'] }) + rest(2),
      note('C4', 4, { ties: ['stop'] }) + rest(0),
    );
    expect(score.notes.every(({ tiedFrom }) => tiedFrom === null)).toBe(true);
    expect(remarks(score)).toMatch(/tie/u);
  });
});

describe('an MEI bar without a staff of the part', () => {
  const gap = '<measure n="2"><staff n="2"><layer n="1"><mRest/></layer></staff></measure>';

  it('is read as silent there, and a move may fall into it', () => {
    const score = read(
      meiScore(meiBar({ upper: meiNote('f4', 1) }) + gap + meiBar({ upper: meiNote('f4', 1, 'accid="s"') })),
    );
    expect(score.bars).toHaveLength(3);
    const [move] = told(score).plan.moves;
    expect(move!.bar).toBe(1);
  });

  it('is no reason to leave an unlabelled staff of its brace out', () => {
    const staves = HARP_STAVES.replace(
      '<label>Harp</label><staffDef n="1" lines="5"/>',
      '<staffDef n="1" lines="5"><label>Harp</label></staffDef>',
    );
    const score = read(
      meiScore(meiBar({ upper: meiNote('c5', 1), lower: meiNote('c3', 1, 'accid="s"') }), { staves }),
    );
    expect(score.harp.staves).toBe(2);
    expect(told(score).codes).toContain('pedal-in-two-positions');
  });
});

describe('what a program writes that says nothing', () => {
  it('no staves at all, an empty tremolo: the music is planned all the same', () => {
    const empty = note('C4', 4, { notations: '<ornaments><tremolo type="single"/></ornaments>' });
    const score = readHarp(bar(empty, { attributes: '<staves>0</staves>' }), note('C#4', 4));
    expect(told(score).moves).toEqual(['C 2:1']);
    expect(remarks(score)).toMatch(/tremolo/u);
  });

  it('an ending whose start lacks a number is played as its stop says', () => {
    const ending = (number: string, type: string, location: 'left' | 'right', more = ''): string =>
      barline(`<ending number="${number}" type="${type}"/>${more}`, location);
    const score = readHarp(
      FORWARD + note('C4', 4),
      ending('', 'start', 'left') +
        note('D4', 4) +
        ending('1', 'stop', 'right', '<repeat direction="backward"/>'),
      ending('2', 'start', 'left') + note('E4', 4) + ending('2', 'stop', 'right'),
    );
    expect(score.playOrder).toEqual([0, 1, 0, 2]);
  });

  it('“D/E” and “A-D” move no pedal, where markings are followed', () => {
    for (const text of ['D/E', 'A-D']) {
      const score = readHarp(words(text) + note('C4', 4), note('D4', 4));
      expect(told(score, { followMarkings: true }).moves).toEqual([]);
      expect(score.markings).toEqual([]);
    }
  });

  it('bars without numbers are counted, so that findings name a place', () => {
    const score = readHarp(
      bar(note('C4', 4), { number: '' }),
      bar(note('C4', 4) + note('C#5', 4, { chord: true }), { number: '' }),
    );
    expect(told(score).findings[0]!.barNumber).toBe('2');
  });

  it('a part named for the harp that has no notes is named beside the others', () => {
    const problem = readProblem(
      buildScore([
        { id: 'P1', name: 'Harp', bars: [rest(4)] },
        { id: 'P2', name: 'Celesta', bars: [note('C4', 4)] },
      ]),
    );
    expect(problem).toMatchObject({ code: 'no-notes', part: 'Harp' });
  });
});

describe('where a finding is, for people', () => {
  const triplet = (length: number): Score =>
    readHarp(['D4', 'C4', 'C#4'].map((name) => note(name, length)).join(''));

  it('is a third of a beat, also where the file rounds thirds to its ticks', () => {
    for (const length of [80 / DIVISIONS, 81 / DIVISIONS]) {
      const [finding] = told(triplet(length)).findings;
      const place = nameExtent({ ...extentOf(finding!), places: 1 });
      expect(place).toMatch(/^bar 1, beat 1⅓$/u);
      expect(finding!.code).toBe('string-restruck-fast');
    }
  });

  it('is a passage where the same trouble goes on: five notes for a hand in four bars', () => {
    const low = ['C4', 'E4', 'G4', 'B4', 'C5'];
    const chord = low.map((name, i) => note(name, 4, { chord: i > 0 })).join('');
    const held = ['C2', 'E2', 'G2', 'C3'].map((name, i) =>
      note(name, 4, { chord: i > 0, staff: 2, voice: '5' }),
    );
    const full = chord + backup(4) + held.join('');
    const [finding] = told(readHarp(full, full, full, full)).findings;
    expect(nameExtent(extentOf(finding!))).toMatch(/^bars 1–4, /u);
  });
});

describe('a glissando in words', () => {
  const swept = (text: string): string => words(text) + note('C4', 2) + note('C6', 2);

  it('is swept in the setting that they state, against the key', () => {
    const { setting, codes } = told(readHarp(swept('gliss. E♭ major')));
    expect(setting).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
    expect(codes).not.toContain('glissando-setting-guessed');
  });

  it('in German, Italian and French alike', () => {
    for (const text of ['gleitend', 'glissato', 'en glissant']) {
      expect(readHarp(swept(text)).sweeps).toHaveLength(1);
    }
  });

  it('yields to a position that the user keeps', () => {
    const pin = {
      kind: 'position',
      letter: 'F',
      position: 1,
      from: { num: 0, den: 1 },
      until: { num: 4, den: 1 },
    } as const;
    const { setting } = told(readHarp(words('gliss.') + note('C4', 2) + note('C6', 2)), { pins: [pin] });
    expect(setting).toContain('F♯');
  });

  it('is over before its last note: C5 sharp is set at the arrival', () => {
    const score = readHarp(words('gliss.') + note('C4', 2) + note('C#6', 2));
    expect(told(score).moves).toEqual(['C 1:3']);
  });
});

describe('the hand of a chord of five', () => {
  const chord = (said: string): Score =>
    readHarp(
      (said === '' ? '' : words(said)) +
        ['C4', 'E4', 'G4', 'B4', 'C5'].map((name, i) => note(name, 4, { chord: i > 0 })).join(''),
    );

  it('is the left where “m.g.” says so, and the finding rests on no guess', () => {
    const [finding] = told(chord('m.g.')).findings;
    expect(finding).toMatchObject({ code: 'too-many-notes-in-hand', hand: 'left' });
    expect(finding!.sentence).not.toContain('guessed');
  });

  it('is both where only the staff tells: there is nothing to find', () => {
    expect(told(chord('')).codes).toEqual([]);
  });
});

describe('comfort, from the file', () => {
  const phrase = (type: 'start' | 'stop') => ({ notations: `<slur type="${type}" number="1"/>` });
  const line = (slurred: boolean): Score =>
    readHarp(
      note('F4') + note('A4') + note('G4') + note('A4'),
      note('G4', 1, slurred ? phrase('start') : {}) +
        note('A4') +
        note('G4', 1, slurred ? phrase('stop') : {}) +
        note('A4'),
      note('G4') + note('A4') + note('F#4', 2),
    );

  it('a move stands where the slur ends rather than in the midst of the next phrase', () => {
    expect(told(line(false)).moves).toEqual(['F 3:2']);
    expect(told(line(true)).moves).toEqual(['F 2:4']);
  });

  it('a move stands in the rest rather than in the run after it', () => {
    const run = ['C4', 'D4', 'E4', 'F#4'].map((name) => note(name, 0.25)).join('');
    expect(told(readHarp(note('F4', 1) + rest(1) + run + note('G4', 1))).moves).toEqual(['F 1:2']);
  });
});

describe('free spelling, from the file', () => {
  const chromatic = ['A4', 'A#4', 'B4', 'A#4'].map((name) => note(name, 1)).join('');

  it('has no more moves than are written, and lists what it respells', () => {
    const written = told(readHarp(chromatic, chromatic));
    const free = told(readHarp(chromatic, chromatic), { spelling: 'free' });
    expect(free.summary.moves).toBeLessThan(written.summary.moves);
    expect(free.plan.respellings.length).toBeGreaterThan(0);
  });

  it('claims no fewer moves than any plan has', () => {
    const { summary } = told(readHarp(chromatic, chromatic), { spelling: 'free' });
    expect(summary.minMoves).toBeLessThanOrEqual(summary.moves);
  });
});

describe('difficulty, from the file', () => {
  it('speaks of hands and feet, and counts a repeated bar once', () => {
    const plain = readHarp(FORWARD + note('C4', 4) + BACKWARD);
    const { verdict, measures } = told(plain).summary.difficulty;
    expect(verdict).toBe('playable by hands and feet');
    expect(measures.changes).toBe(0);
    expect(plain.playOrder).toEqual([0, 0]);
  });

  it('of nineteen moves in five seconds at a crotchet of 72 is not just “playable”', () => {
    const steps = ['C', 'D', 'E', 'F', 'G', 'A'];
    const quarter = (sharp: boolean): string =>
      steps
        .slice(0, 4)
        .map((step, i) => note(`${step}${sharp ? '#' : ''}4`, 1, { chord: i > 0 }))
        .join('');
    const fast = words('', '<sound tempo="72"/>') + [false, true, false, true].map(quarter).join('');
    const { codes, summary } = told(readHarp(fast, fast));
    expect(codes).toContain('feet-hurried-passage');
    expect(['hard', 'very-hard']).toContain(summary.difficulty.grade);
  });
});

describe('every fix that is offered', () => {
  const clashes = [
    note('C4', 4) + note('C#5', 4, { chord: true }),
    note('E4', 4) + note('Eb5', 4, { chord: true }),
    note('F4', 4) + note('F#5', 4, { chord: true }),
  ];

  it('alone takes its finding away, and stops nobody elsewhere', () => {
    const score = readScore(buildHarp(...clashes));
    const before = told(score);
    const stops = (each: ReturnType<typeof told>): number =>
      each.findings.filter(({ severity }) => severity === 'stop').length;
    for (const fix of before.findings.flatMap(({ fixes }) => fixes)) {
      const respelled = new Map(
        fix.changes.flatMap((change) =>
          change.kind === 'respell' ? [[change.note, change.to] as const] : [],
        ),
      );
      const omitted = new Set(fix.changes.flatMap((change) => (change.kind === 'omit' ? [change.note] : [])));
      expect(stops(told(score, { respelled, omitted }))).toBeLessThanOrEqual(stops(before));
    }
    expect(stops(before)).toBeGreaterThan(0);
  });

  it('respells the note that has another string: D beside D sharp leaves D, and writes E flat', () => {
    const [finding] = told(readHarp(note('D5', 4) + note('D#4', 4, { chord: true }))).findings;
    expect(finding!.fixes[0]!.sentence).toMatch(/E♭4/u);
  });
});
