import type {
  ComparisonStep,
  HarpComparison,
  HarpName,
  InEitherWay,
  PedalKey,
} from '../../../../engine/index.ts';
import type { LeverChoices, PlanChoices } from '../options/choices.ts';

/** The part that is compared with itself in other keys. */
export interface ComparedPart {
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly part: string | null;
  /** Number of the tune in a tune book. */
  readonly tune: string | null;
  /** The harp that it is open for. */
  readonly instrument: HarpName;
}

/** What the view asks of its thread: the keys of the pedal harp, or both harps. */
export type CompareQuestion = ComparedPart &
  (
    | { readonly kind: 'keys'; readonly choices: PlanChoices }
    | { readonly kind: 'harps'; readonly choices: LeverChoices }
  );

type Named<Key> = Key & { readonly keyName: string };

/** The keys of the pedal harp, the best first. */
export type ComparedKeys = readonly Named<InEitherWay<PedalKey>>[];

/** How the part goes on either harp, and in which keys it suits the lever harp better. */
export interface ComparedHarps extends Pick<HarpComparison, 'pedal' | 'lever'> {
  /** The written key. */
  readonly keyName: string;
  readonly transpositions: readonly Named<HarpComparison['transpositions'][number]>[];
}

export type CompareReport =
  | ({ readonly kind: 'step' } & ComparisonStep)
  | { readonly kind: 'keys'; readonly keys: ComparedKeys }
  | { readonly kind: 'harps'; readonly harps: ComparedHarps };
