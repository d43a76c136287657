import type { Sound } from './sound.ts';

/** Hertz of the strokes: the first beat and the right foot or hand are the higher ones. */
const BEAT = { first: 1760, other: 1175 } as const;
const ACTION = { left: 110, right: 165 } as const;

/** A stroke dies away within about five times as long. */
const CLICK_SECONDS = 0.012;
const KNOCK_SECONDS = 0.035;

const CLICK_LEVEL = 0.35;
const KNOCK_LEVEL = 0.9;

interface Stroke {
  readonly hertz: number;
  readonly type: OscillatorType;
  readonly level: number;
  readonly seconds: number;
}

/** Strokes of a metronome, and the dull knock of a pedal or lever. */
export const createStrokes = (
  context: AudioContext,
  into: AudioNode,
): Pick<Sound, 'click' | 'knock' | 'silence'> => {
  const coming = new Set<OscillatorNode>();
  const strike = ({ hertz, type, level, seconds }: Stroke, at: number): void => {
    const source = new OscillatorNode(context, { type, frequency: hertz });
    const gain = new GainNode(context, { gain: 0 });
    gain.gain.setValueAtTime(level, at);
    gain.gain.setTargetAtTime(0, at, seconds);
    source.connect(gain).connect(into);
    coming.add(source);
    source.addEventListener('ended', () => {
      gain.disconnect();
      coming.delete(source);
    });
    source.start(at);
    source.stop(at + 8 * seconds);
  };
  return {
    click: (isFirst, at) =>
      strike(
        {
          hertz: isFirst ? BEAT.first : BEAT.other,
          type: 'triangle',
          level: CLICK_LEVEL,
          seconds: CLICK_SECONDS,
        },
        at,
      ),
    knock: (side, at) =>
      strike({ hertz: ACTION[side], type: 'sine', level: KNOCK_LEVEL, seconds: KNOCK_SECONDS }, at),
    silence: () => {
      for (const source of coming) source.stop();
      coming.clear();
    },
  };
};
