import { letterAtStep, midiOf, type Pitch, stepOf } from '../../../engine/index.ts';

/** How a notehead moves: staff steps, and the semitones that its sound changes by (0: the same pitch, other spelling). */
export interface PitchShift {
  readonly steps: number;
  readonly semitones: number;
}

export const shiftBetween = (from: Pitch, to: Pitch): PitchShift => ({
  steps: stepOf(to) - stepOf(from),
  semitones: midiOf(to) - midiOf(from),
});

/** A written pitch moved to another string. */
export const shiftPitch = (pitch: Pitch, { steps, semitones }: PitchShift): Pitch => {
  const natural = { ...letterAtStep(stepOf(pitch) + steps), alter: 0 };
  return { ...natural, alter: midiOf(pitch) + semitones - midiOf(natural) };
};
