import { POSITIONS, type Position } from '../../harp/setting.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import { add, compare, type Rational } from '../../music/rational.ts';
import type { OneTime } from '../../score/bars/one-time.ts';
import { readOnlyAt, type SourceMarking } from '../../score/model/markings.ts';
import type { Score } from '../../score/model/score.ts';
import type { Need } from '../../sounding/needs.ts';
import type { BarEvents, OnsetEvents } from '../part-events.ts';
import type { BarPasses } from './passes.ts';

/** What a marking of the file says of one pedal. */
export interface Statement {
  /** Index into the score's markings. */
  readonly marking: number;
  readonly letter: Letter;
  readonly position: Position;
  readonly at: Rational;
  readonly bar: number;
  /** One of the seven entries of a full setting, which cannot be taken out of it alone. */
  readonly inSetting: boolean;
  /** The passes on which alone it is read; null for each. What is for before the start is for the first. */
  readonly onlyAt: OneTime | null;
}

/** Where a marking may stand to take effect: behind `after` (null: from the start on), at `until` at the latest. */
export interface MarkingWindow {
  readonly after: Rational | null;
  /** Whether `after` itself will do. */
  readonly closed: boolean;
  readonly until: Rational;
  /** The bar of `until`. */
  readonly bar: number;
}

/** One score time at which something is said or asked of a pedal. */
export interface TrackStep {
  readonly at: Rational;
  readonly bar: number;
  readonly statements: readonly Statement[];
  /** Positions that grace notes ask for: before a statement of this time, between two of them, or behind. */
  readonly graces: readonly Position[];
  /** Two statements may differ where grace notes stand, of whatever letter. */
  readonly hasGraces: boolean;
  readonly needs: readonly Position[];
  /** Positions that a glissando is expected to sound with; any will do, but one must be known. */
  readonly swept: readonly Position[];
  /** Positions of what still goes on here (trill, tremolo): a statement must not take them away. */
  readonly held: readonly Position[];
  /** Where a marking that is added for the notes of this step may stand; null where there is no room for one. */
  readonly window: MarkingWindow | null;
  /** Markings (indices) printed here that state the pedal: no other is added beside them, but beside one for before the start. */
  readonly stated: readonly number[];
}

/** What happens to one pedal, in printed order; by bar. */
export interface LetterTrack {
  readonly letter: Letter;
  /** Where it can be set. */
  readonly positions: readonly Position[];
  readonly bars: readonly (readonly TrackStep[])[];
  /** What goes on for a while (trill, tremolo). */
  readonly holds: readonly Need[];
}

/** A step at which nothing is said or asked. */
export const emptyStep = ({ holds }: LetterTrack, bar: number, at: Rational): TrackStep => ({
  at,
  bar,
  statements: [],
  graces: [],
  hasGraces: false,
  needs: [],
  swept: [],
  held: distinct(
    holds.filter(({ onset, heldUntil }) => compare(onset, at) < 0 && compare(at, heldUntil) < 0),
  ),
  window: null,
  stated: [],
});

/** When a marking that is to be prepared takes effect: with the first note that asks for one of its changes. */
type EffectiveAt = ReadonlyMap<number, { readonly bar: number; readonly at: Rational } | null>;

/** Lays out what is said and asked of one pedal. @param events with the markings among them */
export const trackLetter = (
  score: Score,
  letter: Letter,
  events: readonly BarEvents[],
  passes: readonly BarPasses[],
  positions: readonly Position[] = POSITIONS,
): LetterTrack => {
  const effective = findEffects(score, events);
  const arriving = new Map<string, number[]>();
  for (const [marking, place] of effective) {
    if (place === null) continue;
    const key = placeKey(place.bar, place.at);
    arriving.set(key, [...(arriving.get(key) ?? []), marking]);
  }
  const builder = new TrackBuilder(score, letter, passes);
  const holds = events.flatMap(({ onsets }) =>
    onsets.flatMap(({ notes }) => notes.map(({ need }) => need).filter((need) => isHeld(need, letter))),
  );
  return {
    letter,
    positions,
    holds,
    bars: events.map(({ onsets }, bar) => {
      builder.startBar(bar);
      return onsets.flatMap((onset) => {
        const prepared = arriving.get(placeKey(bar, onset.at)) ?? [];
        const here = onset.markings.filter((marking) => !effective.has(marking));
        return builder.read(onset, bar, [...prepared, ...here]) ?? [];
      });
    }),
  };
};

const placeKey = (bar: number, at: Rational): string => `${bar} ${at.num}/${at.den}`;

const findEffects = (score: Score, events: readonly BarEvents[]): EffectiveAt => {
  const found = new Map<number, { bar: number; at: Rational } | null>();
  const waiting = new Set<number>();
  for (const [bar, { onsets }] of events.entries()) {
    for (const onset of onsets) {
      for (const marking of waiting) {
        const { positions } = score.markings[marking]!;
        if (![...onset.graces, ...onset.notes].some(({ need }) => positions[need.letter] === need.position))
          continue;
        waiting.delete(marking);
        found.set(marking, { bar, at: onset.at });
      }
      for (const marking of onset.markings) {
        if (!score.markings[marking]!.ahead) continue;
        const own = [...onset.graces, ...onset.notes];
        const { positions } = score.markings[marking]!;
        const isAsked = own.some(({ need }) => positions[need.letter] === need.position);
        found.set(marking, isAsked ? { bar, at: onset.at } : null);
        if (!isAsked) waiting.add(marking);
      }
    }
  }
  return found;
};

class TrackBuilder {
  readonly #score: Score;
  readonly #letter: Letter;
  readonly #passes: readonly BarPasses[];
  /** What still goes on. */
  #held: Need[] = [];
  #window: Pick<MarkingWindow, 'after' | 'closed'> = { after: null, closed: true };

  constructor(score: Score, letter: Letter, passes: readonly BarPasses[]) {
    this.#score = score;
    this.#letter = letter;
    this.#passes = passes;
  }

  /** A marking cannot stand in an earlier bar where this one is come to otherwise too, or that one left otherwise. */
  startBar(bar: number): void {
    const own = this.#passes[bar]!;
    const before = this.#passes[bar - 1];
    const goesOn =
      before !== undefined &&
      before.exits.length === 0 &&
      own.entries.length === before.entries.length &&
      own.entries.every(({ from }) => from === 'before');
    if (goesOn || (bar === 0 && own.entries.length < 2)) return;
    this.#held = [];
    this.#window = { after: this.#score.bars[bar]!.onset, closed: true };
  }

  read(
    { at, graces, notes, markings }: OnsetEvents,
    bar: number,
    effective: readonly number[],
  ): TrackStep | null {
    const letter = this.#letter;
    this.#held = this.#held.filter((need) => compare(at, need.heldUntil) < 0);
    const own = notes.map(({ need }) => need).filter((need) => need.letter === letter);
    const ownGraces = graces.map(({ need }) => need).filter((need) => need.letter === letter);
    const statements = effective.flatMap((marking) =>
      statementOf(this.#score.markings[marking]!, marking, letter),
    );
    if (own.length + ownGraces.length + statements.length === 0) return null;
    const latest = this.#held.reduce<Rational | null>(
      (end, need) => (end === null || compare(need.heldUntil, end) > 0 ? need.heldUntil : end),
      null,
    );
    const { after, closed } = this.#window;
    const isLater = latest !== null && (after === null || compare(latest, after) >= 0);
    const from = isLater ? { after: latest, closed: true } : { after, closed };
    const isOpen = from.after === null || compare(from.after, at) < (from.closed ? 1 : 0);
    const stated = markings.filter((marking) => {
      return (
        this.#score.markings[marking]!.positions[letter] !== undefined &&
        readOnlyAt(this.#score.markings[marking]!) === null
      );
    });
    const step: TrackStep = {
      at,
      bar,
      statements,
      graces: distinct(ownGraces),
      hasGraces: graces.length > 0,
      needs: distinct(own.filter(({ kind }) => kind !== 'swept')),
      swept: distinct(own.filter(({ kind }) => kind === 'swept')),
      held: distinct(this.#held),
      window: isOpen ? { ...from, until: at, bar } : null,
      stated,
    };
    this.#held.push(...own.filter((need) => isHeld(need, letter)));
    this.#window = { after: at, closed: false };
    return step;
  }
}

const isHeld = (need: Need, letter: Letter): boolean =>
  need.letter === letter && compare(need.onset, need.heldUntil) < 0;

const distinct = (needs: readonly Need[]): readonly Position[] => [
  ...new Set(needs.map(({ position }) => position)),
];

const statementOf = (marking: SourceMarking, index: number, letter: Letter): readonly Statement[] => {
  const position = marking.positions[letter];
  if (position === undefined) return [];
  const inSetting = LETTERS.every((each) => marking.positions[each] !== undefined);
  const { at, bar } = marking;
  return [{ marking: index, letter, position, at, bar, inSetting, onlyAt: readOnlyAt(marking) }];
};

/** The first step from a place on at which a note wants a position. */
export const firstNeeding = (
  { bars }: LetterTrack,
  bar: number,
  at: Rational,
  position: Position,
): TrackStep | undefined => {
  for (const steps of bars.slice(bar)) {
    const found = steps.find((step) => compare(step.at, at) >= 0 && step.needs.includes(position));
    if (found !== undefined) return found;
  }
  return undefined;
};

/** Whether a score time lies in a window. */
export const isInside = ({ after, closed, until }: MarkingWindow, at: Rational): boolean =>
  compare(at, until) <= 0 && (after === null || compare(after, at) < (closed ? 1 : 0));

/** The end of a bar. */
export const endOf = ({ bars }: Score, bar: number): Rational => add(bars[bar]!.onset, bars[bar]!.duration);
