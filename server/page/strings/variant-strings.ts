import {
  capitalize,
  formatChange,
  type Letter,
  nameCount,
  namePlaceInBar,
  type Position,
} from '../../../engine/index.ts';

const change = (letter: Letter, to: Position): string => formatChange(letter, to);

/** The view that compares plans and keeps variants: loaded with it. */
export const VARIANT_STRINGS = {
  close: 'Close the comparison',
  compare: 'Compare the plan with',
  nothing: 'nothing',
  withoutDecisions: 'the plan without your decisions',
  free: 'the plan with free spelling',
  written: 'the plan as the notes are spelled',
  variant: (name: string) => `variant: ${name}`,
  planning: 'Planning the other …',
  columns: ['What', 'This plan', 'The other'],
  rows: {
    moves: 'Moves',
    difficulty: 'Difficulty',
    notPlayable: 'Not playable',
    warnings: 'Warnings',
    start: 'Start with',
  },
  same: 'Both plans make the same moves.',
  differ: (places: number) =>
    `${capitalize(nameCount(places, 'difference'))}; hollow points and dashed names are the other plan’s.`,
  elsewhere: (letter: Letter, to: Position, here: string, there: string) =>
    `${change(letter, to)}: here ${here}, there ${there}`,
  onlyHere: (letter: Letter, to: Position) => `${change(letter, to)}: only in this plan`,
  onlyThere: (letter: Letter, to: Position) => `${change(letter, to)}: only in the other plan`,
  place: (bar: string, beat: string) => namePlaceInBar(bar, beat),
  name: 'Name of the variant',
  keep: 'Keep this plan as a variant',
  kept: (name: string) => `Kept as “${name}”.`,
  notKept: 'This browser cannot keep variants.',
  listed: 'Variants kept in this browser',
  takeUp: 'Go back to it',
  takeUpWhat: (name: string) => `Go back to “${name}”`,
  takenUp: (name: string) => `Back to “${name}”`,
  remove: 'Remove',
  removeWhat: (name: string) => `Remove “${name}”`,
  removed: (name: string) => `“${name}” was removed.`,
} as const;
