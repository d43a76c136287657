import type { Rational } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import type { StaffState } from '../definitions.ts';
import type { Ids } from '../ids.ts';
import type { ReadLog } from '../log.ts';
import type { TupletSpans } from './tuplet-spans.ts';

/** What a layer needs to know of its surroundings. */
export interface LayerContext {
  readonly bar: number;
  readonly barOnset: Rational;
  /** The `n` of the staff element. */
  readonly staff: string;
  readonly layer: string;
  /** The harp's staff, from 1, for the `n` of a staff; 0 for staves of others. */
  readonly harpStaff: (n: string) => number;
  readonly state: StaffState;
  readonly ticksPerQuarter: number | null;
  readonly hidden: boolean;
  readonly ids: Ids;
  readonly spans: TupletSpans;
  readonly log: ReadLog;
}

/** What containers hand down to the events inside them. */
export interface Inherited {
  readonly ratio: Rational;
  readonly grace: 'slashed' | 'plain' | null;
  readonly cue: boolean;
  readonly hidden: boolean;
  readonly tremolo: XmlElement | null;
  readonly inTuplet: boolean;
  /** The name of the outermost beam around. */
  readonly beam: string | null;
}
