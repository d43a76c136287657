import { type Rational, rational } from '../../music/rational.ts';
import { childrenNamed, type XmlElement } from '../../xml/tree.ts';
import type { Meter } from '../model/bar.ts';
import { contentOf } from './editorial.ts';
import { readMeter } from './form/meters.ts';
import type { ReadLog } from './log.ts';
import { noteValue } from './notes/durations.ts';
import { type KeySignature, readKey } from './notes/keys.ts';
import { readDecimal, readInteger } from './values.ts';

/** From written to sounding pitch: staff steps and semitones to add. */
export interface Transposition {
  readonly steps: number;
  readonly semitones: number;
}

/** What holds for one staff until it is changed. */
export interface StaffState {
  readonly key: KeySignature;
  readonly meter: Meter;
  /** No meter is in force (`meter.sym="open"`): bars have any length. */
  readonly unmeasured: boolean;
  readonly transposition: Transposition;
  readonly octaveDefault: number | null;
  readonly lengthDefault: Rational | null;
}

/** What `scoreDef` and `staffDef` have said so far: for the score, and for each staff by its `n`. */
export interface Definitions {
  readonly score: StaffState;
  readonly staves: ReadonlyMap<string, StaffState>;
  readonly ticksPerQuarter: number | null;
}

const START: StaffState = {
  key: { fifths: 0, mixed: null, mode: null },
  meter: { beats: 4, beatUnit: 4 },
  unmeasured: false,
  transposition: { steps: 0, semitones: 0 },
  octaveDefault: null,
  lengthDefault: null,
};

/** Before anything is said: C, 4/4, as written. */
export const NO_DEFINITIONS: Definitions = { score: START, staves: new Map(), ticksPerQuarter: null };

export const staffStateOf = (definitions: Definitions, staff: string): StaffState =>
  definitions.staves.get(staff) ?? definitions.score;

/** One staff changed: for key and meter signatures that stand inside a layer. */
export const withStaff = (
  definitions: Definitions,
  staff: string,
  change: Partial<StaffState>,
): Definitions => ({
  ...definitions,
  staves: new Map(definitions.staves).set(staff, { ...staffStateOf(definitions, staff), ...change }),
});

/**
 * Applies a `scoreDef` or `staffDef`, wherever it stands. What a `scoreDef` says holds for every staff until the
 * staff's own definition says otherwise (MEI 5.1, scoreDef and staffDef).
 */
export const applyDefinition = (definitions: Definitions, element: XmlElement, log: ReadLog): Definitions => {
  if (element.name === 'staffDef') return defineStaff(definitions, element, log);
  const change = readState(element, definitions.score, log);
  const ticks = readInteger(element, 'ppq', [1, 100_000], log) ?? definitions.ticksPerQuarter;
  const staves = new Map([...definitions.staves].map(([n, state]) => [n, { ...state, ...change }]));
  const whole: Definitions = { score: { ...definitions.score, ...change }, staves, ticksPerQuarter: ticks };
  return staffDefsIn(element, log).reduce((all, each) => defineStaff(all, each, log), whole);
};

const defineStaff = (definitions: Definitions, element: XmlElement, log: ReadLog): Definitions => {
  const n = element.attributes.n?.trim() ?? '';
  const change = readState(element, staffStateOf(definitions, n), log);
  const layers = childrenNamed(element, 'layerDef');
  const only = layers.length === 1 ? layers[0] : undefined;
  return withStaff(
    definitions,
    n,
    only === undefined ? change : { ...readState(only, staffStateOf(definitions, n), log), ...change },
  );
};

/** The staff definitions below an element in score order, those in nested groups included. */
export const staffDefsIn = (element: XmlElement, log: ReadLog): readonly XmlElement[] =>
  contentOf(element, log).flatMap((each) => {
    if (each.name === 'staffDef') return [each];
    return each.name === 'staffGrp' ? staffDefsIn(each, log) : [];
  });

const readState = (element: XmlElement, now: StaffState, log: ReadLog): Partial<StaffState> => {
  const key = readKey(element, log);
  const meter = readMeter(element, now.meter, log);
  const transposition = readTransposition(element, log);
  const octaveDefault =
    readInteger(element, 'octave.default', [0, 9], log) ?? readInteger(element, 'oct.default', [0, 9], log);
  const lengthDefault = readLengthDefault(element, log);
  return {
    ...(key && { key }),
    ...(meter && { meter: meter.meter, unmeasured: meter.unmeasured }),
    ...(transposition && { transposition }),
    ...(octaveDefault !== undefined && { octaveDefault }),
    ...(lengthDefault && { lengthDefault }),
  };
};

const readLengthDefault = (element: XmlElement, log: ReadLog): Rational | undefined => {
  const dur = element.attributes['dur.default']?.trim();
  if (dur === undefined) return undefined;
  const value = noteValue(dur);
  if (value === undefined) log.badValue('default duration', dur, element);
  const num = readInteger(element, 'num.default', [1, 1000], log) ?? 1;
  const base = readInteger(element, 'numbase.default', [1, 1000], log) ?? 1;
  return value && rational(value.num * base, value.den * num);
};

/**
 * `trans.diat` and `trans.semi` go from written to sounding (MEI 5.1, att.transposition). Files differ on whether the
 * steps count octaves, and some give the semitones alone: the octaves that the steps leave out are made up.
 */
const readTransposition = (element: XmlElement, log: ReadLog): Transposition | undefined => {
  const semitones = readDecimal(element, 'trans.semi', [-60, 60], log);
  const steps = readDecimal(element, 'trans.diat', [-36, 36], log);
  if (semitones === undefined && steps === undefined) return undefined;
  const stated = Math.round(steps ?? ((semitones ?? 0) * 7) / 12);
  const moved = semitones ?? Math.round((stated * 12) / 7);
  const missingOctaves = Math.round((moved - (stated * 12) / 7) / 12);
  return { semitones: moved, steps: stated + 7 * missingOctaves };
};
