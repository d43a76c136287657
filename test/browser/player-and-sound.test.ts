import { describe, expect, it } from 'vitest';
import { planPedals } from '../../engine/pedals/plan.ts';
import { buildPlayback } from '../../engine/performance/build-playback.ts';
import { performPart } from '../../engine/performance/perform-part.ts';
import { type Player, startPlayer } from '../../server/page/client/playback/listen-player.ts';
import { pedalBoxAt } from '../../server/page/client/playback/pedal-box-state.ts';
import type { Sound } from '../../server/page/client/playback/sound/sound.ts';
import {
  hertzOf,
  ringString,
  type Tone,
  toneSeconds,
} from '../../server/page/client/playback/sound/sound-string.ts';
import { type SmallPart, smallPart } from '../part-builder.ts';

const performanceOf = (part: SmallPart) => {
  const score = smallPart(part);
  const plan = planPedals(score);
  return { plan, performance: performPart(buildPlayback(score), plan) };
};

const round = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/** A player on a clock that the test turns; it is called every 0.1 s, as by a timer. */
const onTestClock = (part: SmallPart) => {
  const { performance } = performanceOf(part);
  let now = 0;
  const heard: string[] = [];
  let silences = 0;
  const sound: Sound = {
    now: () => now,
    pluck: ({ midi }, at) => heard.push(`${round(at)} ${midi}`),
    damp: (_, at) => heard.push(`${round(at)} damp`),
    knock: (side, at) => heard.push(`${round(at)} ${side}`),
    click: (isFirst, at) => heard.push(`${round(at)} ${isFirst ? 'ONE' : 'beat'}`),
    silence: () => {
      silences += 1;
    },
  };
  const player: Player = startPlayer(sound, performance);
  const wait = (seconds: number): void => {
    const until = now + seconds;
    while (now < until - 1e-9) {
      player.schedule(0.3);
      now = Math.min(until, now + 0.1);
    }
  };
  return { player, performance, wait, heard, silences: () => silences };
};

const SCALE = { upper: 'C4/1 D4/1 E4/1 F4/1 | G4/1 A4/1 B4/1 C5/1' };

describe('the player', () => {
  it('hands each note to the sound once, at its time', () => {
    const { player, wait, heard } = onTestClock(SCALE);
    player.play();
    wait(9);
    expect(heard).toEqual(['0 60', '1 62', '2 64', '3 65', '4 67', '5 69', '6 71', '7 72']);
  });

  it('at half the tempo takes twice as long', () => {
    const { player, wait, heard } = onTestClock(SCALE);
    player.setTempo(0.5);
    player.play();
    wait(7);
    expect(heard).toEqual(['0 60', '2 62', '4 64', '6 65']);
    expect(player.seconds()).toBeCloseTo(3.5);
  });

  it('changes the tempo on the way without losing or doubling a note', () => {
    const { player, wait, heard } = onTestClock(SCALE);
    player.play();
    wait(2.5);
    player.setTempo(1.5);
    wait(4);
    expect(heard.map((each) => Number(each.split(' ')[1]))).toEqual([60, 62, 64, 65, 67, 69, 71, 72]);
    expect(heard[3]).toBe(`${round(2.5 + 0.5 / 1.5)} 65`);
  });

  it('stands still when paused, ends all sound, and goes on from there', () => {
    const { player, wait, heard, silences } = onTestClock(SCALE);
    player.play();
    wait(1.5);
    player.pause();
    expect(silences()).toBe(1);
    const before = heard.length;
    wait(5);
    expect(heard).toHaveLength(before);
    expect(player.seconds()).toBeCloseTo(1.5);
    player.play();
    wait(1);
    expect(heard.at(-1)).toBe('7 64');
  });

  it('goes to another place while it plays, and passes over what began before', () => {
    const { player, wait, heard } = onTestClock(SCALE);
    player.play();
    wait(0.5);
    player.seek(4.5);
    wait(1);
    expect(heard).toEqual(['0 60', '1 69']);
  });

  it('leaves out what it is told of too late, rather than playing a heap of notes', () => {
    const { player, performance, heard } = onTestClock(SCALE);
    let now = 0;
    const late = startPlayer(
      {
        now: () => now,
        pluck: ({ midi }) => heard.push(`${midi}`),
        damp: () => {},
        knock: () => {},
        click: () => {},
        silence: () => {},
      },
      performance,
    );
    late.play();
    now = 4.99;
    late.schedule(0.3);
    expect(heard).toEqual(['69']);
    expect(player.isPlaying()).toBe(false);
  });

  it('takes another plan while it plays, and no note twice', () => {
    const { player, performance, wait, heard } = onTestClock(SCALE);
    player.play();
    wait(0.95);
    player.setPerformance({ ...performance });
    wait(2);
    expect(heard.map((each) => each.split(' ')[1])).toEqual(['60', '62', '64', '65']);
  });

  it('stops at the end, and starts the next time from the beginning', () => {
    const { player, wait, heard } = onTestClock(SCALE);
    player.play();
    wait(9);
    expect(player.isPlaying()).toBe(false);
    expect(player.seconds()).toBe(0);
    player.play();
    wait(0.2);
    expect(heard.at(-1)).toBe('9 60');
  });

  it('beats a bar of four before the music, at the tempo of the player', () => {
    const { player, wait, heard } = onTestClock(SCALE);
    player.setTempo(2);
    player.play(true);
    expect(player.isCountedIn()).toBe(true);
    wait(3);
    expect(player.isCountedIn()).toBe(false);
    expect(heard).toEqual(['0 ONE', '0.5 beat', '1 beat', '1.5 beat', '2 60', '2.5 62', '3 64']);
    expect(player.seconds()).toBeCloseTo(2);
  });

  it('goes on at once from a place that is gone to while the bar before is counted', () => {
    const { player, wait, heard } = onTestClock(SCALE);
    player.play(true);
    wait(1);
    player.seek(4);
    wait(0.5);
    expect(heard.filter((each) => !/ONE|beat/.test(each))).toEqual(['1 67']);
  });

  it('lets the feet be heard alone with the beats: C♯ for the right place in the bar', () => {
    const { player, wait, heard } = onTestClock({ upper: 'C4/1 D4/1 E4/1 F4/1 | G4/1 A4/1 C#4/1 F#4/1' });
    player.setHeard(new Set(['actions', 'beats']));
    player.play();
    wait(9);
    expect(heard.filter((each) => /ONE|beat/.test(each))).toHaveLength(8);
    expect(heard.filter((each) => each.endsWith('left'))).toHaveLength(1);
    expect(heard.some((each) => /\d 6\d$/.test(each))).toBe(false);
  });

  it('plays grace notes that lead into a bar before it', () => {
    const { player, wait, heard } = onTestClock({ upper: 'C4/4 | (D4) E4/4' });
    player.play();
    wait(5);
    expect(heard).toEqual(['0 60', '3.9 62', '4 64']);
  });
});

describe('the picture of the pedals', () => {
  const { plan, performance } = performanceOf({
    upper: 'C4/1 r/3 | C#4/1 r/3 | F4/1 r/3 | F#4/1 D4/1:8 D#4/1:8 C4/1:8 r/5:8 r/2',
    quartersPerMinute: 60,
  });
  const watch = { plan, tempo: 1 };

  it('announces the next move with the beats that are left, and shows it once made', () => {
    const [first] = performance.moves;
    const ahead = pedalBoxAt(performance, first!.at - 2.5, watch);
    expect(ahead.coming).toMatchObject([{ played: { letter: 'C' }, beats: 3 }]);
    expect(ahead.setting.C).toBe(0);
    const done = pedalBoxAt(performance, first!.at, watch);
    expect(done.setting.C).toBe(1);
    expect(done.moved).toEqual(['C']);
  });

  it('lights up moves of one foot that are too close, and no more at a slower tempo', () => {
    const [close] = performance.moves.toSorted((a, b) => a.sinceFootMoved - b.sinceFootMoved);
    const { at, foot, letter, sinceFootMoved } = close!;
    expect(sinceFootMoved).toBeLessThan(3);
    const rest = { plan: { ...plan, footRestSeconds: sinceFootMoved } };
    const fast = pedalBoxAt(performance, at, { ...rest, tempo: 1.5 });
    expect(fast.busyFeet).toEqual([foot]);
    expect(fast.tooClose).toContain(letter);
    expect(fast.tooClose.length).toBeGreaterThan(1);
    expect(pedalBoxAt(performance, at, { ...rest, tempo: 0.5 }).busyFeet).toEqual([]);
  });

  it('lights up what the plan itself has no time for, at any tempo', () => {
    const hurried = performanceOf({
      upper: 'C4+D4/1:4 C#4+D#4/1:4 r/1',
      quartersPerMinute: 240,
    });
    const busy = hurried.performance.moves.filter(({ move }) =>
      hurried.plan.moves[move]!.cost.some(({ name }) => name === 'footTooBusy'),
    );
    expect(busy.length).toBeGreaterThan(0);
    for (const { at } of busy) {
      const state = pedalBoxAt(hurried.performance, at, {
        plan: hurried.plan,
        tempo: 0.25,
      });
      expect(state.busyFeet).toEqual(['left']);
    }
  });
});

describe('the sound of a string', () => {
  const RATE = 44_100;
  const tone = (midi: number): Tone => ({ midi, harmonic: false });

  /** Strength of one frequency in a stretch of samples (Goertzel's recurrence). */
  const strengthAt = (samples: Float32Array, hertz: number, from: number, length: number): number => {
    const ahead = 2 * Math.cos((2 * Math.PI * hertz) / RATE);
    let [one, two] = [0, 0];
    for (let i = from; i < from + length; i += 1) {
      // A window, so that frequencies beside it are not heard.
      const shaped = samples[i]! * Math.sin((Math.PI * (i - from)) / length) ** 2;
      [one, two] = [shaped + ahead * one - two, one];
    }
    return Math.sqrt(Math.max(0, one * one + two * two - ahead * one * two));
  };

  it.each([24, 43, 60, 69, 84, 100])('is in tune within three cents (MIDI key %i)', (midi) => {
    const samples = ringString(tone(midi), RATE);
    const length = Math.min(samples.length - 2000, RATE);
    const cents = Array.from({ length: 81 }, (_, i) => i - 40);
    const [best] = cents
      .map((away) => ({ away, strength: strengthAt(samples, hertzOf(midi + away / 100), 1000, length) }))
      .sort((a, b) => b.strength - a.strength);
    expect(Math.abs(best!.away)).toBeLessThanOrEqual(3);
  });

  it('begins and ends in silence, without a jump, and never beyond full scale', () => {
    for (const midi of [24, 48, 72, 96, 103]) {
      const samples = ringString(tone(midi), RATE);
      expect(Math.abs(samples[0]!)).toBeLessThan(1e-6);
      expect(Math.abs(samples.at(-1)!)).toBeLessThan(1e-4);
      const loudest = samples.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
      expect(loudest).toBeGreaterThan(0.4);
      expect(loudest).toBeLessThanOrEqual(0.91);
      expect(samples.every(Number.isFinite)).toBe(true);
    }
  });

  it('dies away: long in the bass, soon in the treble', () => {
    const lengths = [24, 48, 72, 96].map((midi) => toneSeconds(tone(midi)));
    expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
    expect(lengths[0]).toBeGreaterThan(5);
    expect(lengths[3]).toBeLessThan(2);
    const samples = ringString(tone(60), RATE);
    const loudness = (from: number): number =>
      Math.sqrt(samples.slice(from, from + 4410).reduce((sum, each) => sum + each * each, 0) / 4410);
    const falling = [0.05, 0.4, 0.9, 1.6, 2.5].map((seconds) => loudness(Math.round(seconds * RATE)));
    expect(falling).toEqual([...falling].sort((a, b) => b - a));
    expect(falling.at(-1)! / falling[0]!).toBeLessThan(0.05);
  });

  it('is purer as a harmonic than as a plucked string of the same pitch', () => {
    const overtones = (samples: Float32Array): number =>
      strengthAt(samples, 3 * hertzOf(67), 500, 8000) / strengthAt(samples, hertzOf(67), 500, 8000);
    expect(overtones(ringString({ midi: 67, harmonic: true }, RATE))).toBeLessThan(
      overtones(ringString(tone(67), RATE)),
    );
  });

  it('is the same each time', () => {
    const again = ringString(tone(55), RATE);
    expect(ringString(tone(55), RATE).every((sample, i) => sample === again[i])).toBe(true);
  });
});
