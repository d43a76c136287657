import { type HarpString, nameString, type PlayedPluck, stepOf } from '../../../../../engine/index.ts';
import type { Sound } from './sound.ts';
import { ringString, type Tone } from './sound-string.ts';
import { createStrokes } from './sound-strokes.ts';

/** A string is stilled within about three times as long. */
const HAND_SECONDS = 0.05;
/** Plucked again, it is stilled by the finger shortly before. */
const FINGER_SECONDS = 0.006;
/** All sound fades for as long when the player stops. */
const FADE_SECONDS = 0.03;

const LEVEL = 0.3;
const ROOM_LEVEL = 0.16;
const ROOM_SECONDS = 1.2;

/** The player has the bass strings farthest away; heard from behind the harp they lie to one side. */
const WIDEST_PAN = 0.35;
const MIDDLE_STEP = 33;
const STEPS_TO_SIDE = 22;

/** How strongly a finger plucks: the strings of a sweep or an ornament less. */
const STRENGTH: Readonly<Record<PlayedPluck['kind'], number>> = {
  plucked: 1,
  implied: 0.7,
  swept: 0.6,
  slid: 0.5,
};

interface Voice {
  readonly source: AudioBufferSourceNode;
  readonly gain: GainNode;
  readonly midi: number;
  readonly staff: number;
  readonly at: number;
}

/** The answer of a small room: noise that dies away and grows darker, the same each time. */
const makeRoom = (context: BaseAudioContext): AudioBuffer => {
  const length = Math.round(ROOM_SECONDS * context.sampleRate);
  const room = context.createBuffer(2, length, context.sampleRate);
  for (const channel of [0, 1]) {
    const samples = room.getChannelData(channel);
    let seed = 99 + channel;
    let smooth = 0;
    for (let i = 0; i < length; i += 1) {
      const gone = i / length;
      seed = (seed * 1103515245 + 12345) % 2147483648;
      smooth += (0.5 - 0.4 * gone) * (seed / 1073741824 - 1 - smooth);
      samples[i] = smooth * Math.exp(-6 * gone) * (1 - gone);
    }
  }
  return room;
};

/** Strings, room and volume in one line to the loudspeaker. */
const layOut = (context: AudioContext) => {
  const strings = new GainNode(context, { gain: LEVEL });
  const volume = new GainNode(context, { gain: 1 });
  const room = new ConvolverNode(context, { buffer: makeRoom(context) });
  const roomLevel = new GainNode(context, { gain: ROOM_LEVEL });
  // Full chords with long basses add up: they are held below the limit without distortion.
  const limiter = new DynamicsCompressorNode(context, {
    threshold: -8,
    knee: 6,
    ratio: 8,
    attack: 0.004,
    release: 0.2,
  });
  strings.connect(volume);
  strings.connect(room).connect(roomLevel).connect(volume);
  volume.connect(limiter).connect(context.destination);
  return { strings, volume };
};

/** Keeps the sound of each pitch once it has been made. */
const openStore = (context: AudioContext) => {
  const made = new Map<string, AudioBuffer>();
  return (tone: Tone): AudioBuffer => {
    const key = `${tone.midi.toFixed(2)}${tone.harmonic}`;
    const known = made.get(key);
    if (known !== undefined) return known;
    const samples = ringString(tone, context.sampleRate);
    const buffer = context.createBuffer(1, samples.length, context.sampleRate);
    buffer.copyToChannel(samples, 0);
    made.set(key, buffer);
    return buffer;
  };
};

/** Where each string is heard from: one panner for all its voices. */
const openPans = (context: AudioContext, into: AudioNode): ((string: HarpString) => StereoPannerNode) => {
  const pans = new Map<string, StereoPannerNode>();
  return (string) => {
    const name = nameString(string);
    const known = pans.get(name);
    if (known !== undefined) return known;
    const side = Math.max(-1, Math.min(1, (stepOf(string) - MIDDLE_STEP) / STEPS_TO_SIDE));
    const pan = new StereoPannerNode(context, { pan: side * WIDEST_PAN });
    pan.connect(into);
    pans.set(name, pan);
    return pan;
  };
};

/** Lets a voice die away from a time on. */
const still = ({ gain, source }: Voice, at: number, seconds: number): void => {
  gain.gain.setTargetAtTime(0, at, seconds);
  source.stop(at + 8 * seconds);
};

/** A harp in the browser: all its sound is worked out here, string by string. */
export interface HarpSound extends Sound {
  readonly context: AudioContext;
  /** From 0 to 1. */
  readonly setVolume: (volume: number) => void;
  /** Makes the sound of a pitch ahead of its first pluck. */
  readonly prepare: (tone: Tone) => void;
}

export const createHarpSound = (context: AudioContext): HarpSound => {
  const { strings, volume } = layOut(context);
  const strokes = createStrokes(context, volume);
  const soundOf = openStore(context);
  const panOf = openPans(context, strings);
  /** What rings or will ring on each string, the latest last. */
  const voices = new Map<string, Voice[]>();

  const latestOn = (string: HarpString): Voice | undefined => voices.get(nameString(string))?.at(-1);

  const pluck = (played: PlayedPluck, at: number): void => {
    const { string, midi, harmonic, kind, staff } = played;
    const ringing = latestOn(string);
    if (kind === 'slid' && ringing !== undefined) {
      ringing.source.detune.setTargetAtTime(100 * (midi - ringing.midi), at, 0.02);
      return;
    }
    if (ringing !== undefined)
      still(ringing, Math.max(context.currentTime, at - FINGER_SECONDS), FINGER_SECONDS);
    const source = new AudioBufferSourceNode(context, { buffer: soundOf({ midi, harmonic }) });
    const gain = new GainNode(context, { gain: STRENGTH[kind] });
    source.connect(gain).connect(panOf(string));
    const voice = { source, gain, midi, staff, at };
    const name = nameString(string);
    voices.set(name, [...(voices.get(name) ?? []), voice]);
    source.addEventListener('ended', () => {
      gain.disconnect();
      voices.set(name, voices.get(name)?.filter((each) => each !== voice) ?? []);
    });
    source.start(at);
  };

  const allVoices = (): readonly Voice[] => [...voices.values()].flat();
  return {
    context,
    now: () => context.currentTime,
    pluck,
    click: strokes.click,
    knock: strokes.knock,
    damp: (staff, at) => {
      for (const voice of allVoices()) {
        if (staff === null || voice.staff === staff) still(voice, at, HAND_SECONDS);
      }
    },
    silence: () => {
      const now = context.currentTime;
      for (const voice of allVoices()) {
        voice.gain.gain.cancelScheduledValues(now);
        if (voice.at > now) voice.source.stop();
        else still(voice, now, FADE_SECONDS);
      }
      voices.clear();
      strokes.silence();
    },
    setVolume: (wanted) => volume.gain.setTargetAtTime(wanted * wanted, context.currentTime, 0.02),
    prepare: soundOf,
  };
};
