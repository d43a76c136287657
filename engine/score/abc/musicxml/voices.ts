import {
  add,
  compare,
  leastCommonMultiple,
  multiply,
  type Rational,
  subtract,
  ZERO,
} from '../../../music/rational.ts';
import type { Tune, TuneBar, TuneEvent } from '../tune.ts';

/** The staves of a tune that make one part of MusicXML, from 1 as the tune counts them. */
export interface PartStaves {
  readonly id: string;
  readonly name: string;
  readonly staves: readonly number[];
}

/** One or two staves are one player’s; of more each is a part, by its name. */
export const partsOf = ({ staves }: Tune, partName: string): readonly PartStaves[] =>
  staves.length <= 2
    ? [{ id: 'P1', name: partName, staves: staves.map((_, index) => index + 1) }]
    : staves.map(({ name }, index) => ({
        id: `P${index + 1}`,
        name: name || `Voice ${index + 1}`,
        staves: [index + 1],
      }));

/** The least number of divisions of a quarter note in which every time of the tune is whole. */
export const divisionsOf = ({ bars }: Tune): number => {
  let divisions = 1;
  const take = ({ den }: Rational): void => {
    divisions = leastCommonMultiple(divisions, den);
  };
  for (const bar of bars) {
    take(bar.length);
    for (const { at } of bar.marks) take(at);
    for (const { events } of bar.layers)
      for (const { onset, length } of events) {
        take(onset);
        take(length);
      }
  }
  return divisions;
};

/** A time in divisions. */
export const countDivisions = (time: Rational, divisions: number): number =>
  multiply(time, { num: divisions, den: 1 }).num;

/** A voice of a part in one bar; a staff without music has a rest for the whole bar. */
export interface BarVoice {
  readonly staff: number;
  /** From 1, the same for a voice in all bars of its part. */
  readonly voice: number;
  readonly events: readonly TuneEvent[];
}

/** Numbers the voices of a part: they count over all its staves. */
export const numberVoices = ({ bars }: Tune, { staves }: PartStaves): ReadonlyMap<string, number> => {
  const found = new Map<string, readonly [staff: number, voice: number]>();
  for (const staff of staves) found.set(`${staff} 1`, [staff, 1]);
  for (const { layers } of bars)
    for (const { staff, voice } of layers)
      if (staves.includes(staff)) found.set(`${staff} ${voice}`, [staff, voice]);
  const inOrder = [...found].sort(([, [a, b]], [, [c, d]]) => a - c || b - d);
  return new Map(inOrder.map(([key], index) => [key, index + 1]));
};

export const voicesOf = (
  bar: TuneBar,
  { staves }: PartStaves,
  numbers: ReadonlyMap<string, number>,
): readonly BarVoice[] =>
  staves.flatMap((staff) => {
    const layers = bar.layers.filter((layer) => layer.staff === staff);
    const voices = layers.map(({ voice, events }) => ({
      staff,
      voice: numbers.get(`${staff} ${voice}`)!,
      events,
    }));
    return voices.length > 0 ? voices : [{ staff, voice: numbers.get(`${staff} 1`)!, events: [] }];
  });

/** Where the events of a voice end. */
export const endOf = (events: readonly TuneEvent[]): Rational =>
  events.reduce((end, { onset, length }) => {
    const own = add(onset, length);
    return compare(own, end) > 0 ? own : end;
  }, ZERO);

/** How far a voice has come, in whole divisions. */
export const gapBetween = (from: Rational, to: Rational, divisions: number): number =>
  countDivisions(subtract(to, from), divisions);
