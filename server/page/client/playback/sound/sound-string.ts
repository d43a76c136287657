import { NATURAL_RING_SECONDS } from '../../../../../engine/index.ts';

/** What is to sound: a string, or the octave harmonic of one. */
export interface Tone {
  /** MIDI key, fractional for microtones. */
  readonly midi: number;
  readonly harmonic: boolean;
}

/**
 * A plucked string is the sum of its modes: each a sine that dies away, the higher the sooner. How strong each is
 * follows from where and how softly the string is plucked (the shape of an ideal plucked string; H. Fletcher and
 * T. Rossing, *The Physics of Musical Instruments*, from memory). The figures below were chosen for this page.
 */
const MOST_MODES = 36;
const HIGHEST_HERTZ = 9000;

/** Harpists pluck not far from the middle of the string: the even modes are weak, which makes the tone round. */
const PLUCKED_AT = 0.41;

/** A string is stiff: its modes are a little sharp. */
const STIFFNESS = 2.5e-5;

/** The planner's ring is what is heard well; the sound is made until it is 60 dB down. */
const HEARD_DECAY = Math.log(100);
const WHOLE_DECAY = Math.log(1000);

/** The quick part of the decay, which gives the tone its attack, and the slow part. */
const STAGES = [
  { share: 0.62, haste: 2.4 },
  { share: 0.38, haste: 0.85 },
] as const;

/** Resonances of body and air, in hertz, with their width and gain. */
const BODY = [
  { hertz: 165, width: 60, gain: 0.55 },
  { hertz: 320, width: 110, gain: 0.45 },
  { hertz: 640, width: 260, gain: 0.25 },
] as const;

/** 80 dB below the strongest mode. */
const INAUDIBLE = 1e-4;

const ATTACK_SECONDS = 0.0015;
const FINGER_SECONDS = 0.014;
const FINGER_LEVEL = 0.02;

export const hertzOf = (midi: number): number => 440 * 2 ** ((midi - 69) / 12);

/** Seconds for which a string is heard, from the planner's table by octave, without steps between the octaves. */
const ringSeconds = (midi: number): number => {
  const octave = Math.min(7, Math.max(0, (midi - 18) / 12));
  const below = NATURAL_RING_SECONDS[Math.floor(octave)]!;
  const above = NATURAL_RING_SECONDS[Math.ceil(octave)]!;
  return below + (above - below) * (octave % 1);
};

/** Seconds until a tone has died away. */
export const toneSeconds = ({ midi, harmonic }: Tone): number =>
  (ringSeconds(midi) * WHOLE_DECAY * (harmonic ? 0.8 : 1)) / (HEARD_DECAY * 0.85);

const bodyGain = (hertz: number): number =>
  BODY.reduce((sum, { hertz: at, width, gain }) => sum + gain / (1 + ((hertz - at) / width) ** 2), 0.6);

interface Mode {
  readonly hertz: number;
  readonly level: number;
  /** Decay a second, as an exponent. */
  readonly decay: number;
}

/** Touched in its middle a string keeps its even modes alone: those of a string half as long, plucked softly. */
const modesOf = ({ midi, harmonic }: Tone): readonly Mode[] => {
  const base = hertzOf(midi);
  const softness = harmonic ? 2.2 : 3.4 + 240 / base;
  const count = Math.min(MOST_MODES, Math.floor(HIGHEST_HERTZ / base));
  const decay = HEARD_DECAY / (ringSeconds(midi) * (harmonic ? 0.8 : 1));
  return Array.from({ length: Math.max(1, count) }, (_, i) => {
    const k = i + 1;
    const hertz = k * base * Math.sqrt(1 + STIFFNESS * k * k);
    const shape = Math.abs(Math.sin(k * Math.PI * PLUCKED_AT)) / k;
    const finger = Math.exp(-0.5 * (k / softness) ** 1.5);
    return { hertz, level: shape * finger * bodyGain(hertz), decay: decay * (1 + 0.35 * i) };
  });
};

/** Adds a sine that dies away, by the recurrence of its samples; ends where it can no longer be heard. */
const addMode = (samples: Float32Array, { hertz, level, decay }: Mode, sampleRate: number): void => {
  const turn = (2 * Math.PI * hertz) / sampleRate;
  const shrink = Math.exp(-decay / sampleRate);
  const last = Math.min(samples.length, Math.ceil((Math.log(level / INAUDIBLE) / decay) * sampleRate));
  const ahead = 2 * shrink * Math.cos(turn);
  const back = shrink * shrink;
  let before = 0;
  let now = level * shrink * Math.sin(turn);
  for (let i = 1; i < last; i += 1) {
    samples[i]! += now;
    const next = ahead * now - back * before;
    before = now;
    now = next;
  }
};

/** The skin leaves the string with a faint brush: the same each time, so that a string always sounds the same. */
const addFinger = (samples: Float32Array, level: number, sampleRate: number): void => {
  const length = Math.min(samples.length, Math.round(FINGER_SECONDS * sampleRate));
  let seed = 12345;
  let smooth = 0;
  for (let i = 0; i < length; i += 1) {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    smooth += 0.25 * (seed / 1073741824 - 1 - smooth);
    samples[i]! += level * smooth * Math.sin((Math.PI * i) / length) ** 2;
  }
};

/** From silence and back to silence, so that nothing clicks. */
const shapeEnds = (samples: Float32Array, sampleRate: number): void => {
  const attack = Math.round(ATTACK_SECONDS * sampleRate);
  for (let i = 0; i < attack; i += 1) samples[i]! *= i / attack;
  const fade = Math.floor(samples.length / 5);
  for (let i = 0; i < fade; i += 1) samples[samples.length - 1 - i]! *= i / fade;
};

/** Bass strings are louder to the ear's meter than to the ear. */
const peakOf = (midi: number): number => Math.min(0.9, 0.5 + Math.abs(midi - 55) * 0.006);

/**
 * The whole sound of a plucked string, from silence to silence.
 *
 * @returns samples in -1 to 1; for a bass string some 300,000
 */
export const ringString = (tone: Tone, sampleRate: number): Float32Array<ArrayBuffer> => {
  const samples = new Float32Array(Math.ceil(toneSeconds(tone) * sampleRate));
  for (const mode of modesOf(tone)) {
    for (const { share, haste } of STAGES) {
      addMode(samples, { ...mode, level: mode.level * share, decay: mode.decay * haste }, sampleRate);
    }
  }
  addFinger(samples, FINGER_LEVEL, sampleRate);
  shapeEnds(samples, sampleRate);
  const loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 1e-9);
  const gain = peakOf(tone.midi) / loudest;
  return samples.map((sample) => sample * gain);
};
