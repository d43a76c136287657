import { compare, type Rational, ZERO } from '../../../music/rational.ts';
import type { Meter } from '../../model/bar.ts';
import {
  AS_WRITTEN,
  type Attributes,
  type KeyChange,
  type RepeatSign,
  type Transposition,
} from '../attributes.ts';

/** The signs of one bar. */
export interface BarSigns {
  readonly meter: Meter;
  /** Without metre: the bar is as long as its content. */
  readonly freeMeter: boolean;
  /** Key signatures in force and to come, in order of time; those at 0 hold from the bar's start. */
  readonly keys: readonly KeyChange[];
  readonly repeatSigns: readonly RepeatSign[];
}

type MeterSign = NonNullable<Attributes['meter']>;

/** Key, metre and transposition of the staves of a part, as they change from bar to bar. */
export class StaffSigns {
  readonly #transpositions = new Map<number | null, Transposition>();
  #meter: MeterSign = { meter: { beats: 4, beatUnit: 4 }, free: false };
  #meterOfBar: MeterSign = this.#meter;
  #keysBefore: readonly KeyChange[] = [];
  #keys: KeyChange[] = [];
  #repeatSigns: RepeatSign[] = [];
  #staves = 1;

  get staves(): number {
    return this.#staves;
  }

  startBar(): void {
    this.#meterOfBar = this.#meter;
    this.#keys = [];
    this.#repeatSigns = [];
  }

  /** @param at the time in the bar; a metre that does not stand at its start holds from the next bar on */
  read(attributes: Attributes, at: Rational): void {
    for (const key of attributes.keys) this.#keys.push(key);
    for (const sign of attributes.barRepeats) this.#repeatSigns.push(sign);
    this.#staves = Math.max(this.#staves, attributes.staves ?? 1);
    for (const { staff, by } of attributes.transpositions) {
      if (staff === null) this.#transpositions.clear();
      this.#transpositions.set(staff, by);
    }
    if (attributes.meter !== null) {
      this.#meter = attributes.meter;
      if (at.num === 0) this.#meterOfBar = attributes.meter;
    }
  }

  endBar(): BarSigns {
    const keys = [...this.#keysBefore, ...this.#keys.toSorted((a, b) => compare(a.at, b.at))];
    this.#keysBefore = lastOfEachStaff(keys).map((key) => ({ ...key, at: ZERO }));
    const { meter, free } = this.#meterOfBar;
    return { meter, freeMeter: free, keys, repeatSigns: this.#repeatSigns };
  }

  transpositionOf(staff: number): Transposition {
    return this.#transpositions.get(staff) ?? this.#transpositions.get(null) ?? AS_WRITTEN;
  }
}

/** The key signatures that still hold after all changes, in the order in which they came. */
const lastOfEachStaff = (keys: readonly KeyChange[]): readonly KeyChange[] => {
  const last = new Map<number | null, KeyChange>();
  for (const key of keys) {
    if (key.staff === null) last.clear();
    last.set(key.staff, key);
  }
  return [...last.values()];
};

/** Sharps (positive) or flats of a staff at a time in the bar. */
export const keyAt = (keys: readonly KeyChange[], staff: number, at: Rational): number => {
  const inForce = keys.findLast(
    (key) => (key.staff === null || key.staff === staff) && compare(key.at, at) <= 0,
  );
  return inForce?.fifths ?? 0;
};
