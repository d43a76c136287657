import { hasRested } from '../../time/rested.ts';
import type { Arrival, ChangesAtMoment } from './foot-changes.ts';
import { type FootPositions, movedPedals, type PedalMask, pedalIndices } from './foot-positions.ts';

/** How a foot may have come to a moment: all that the cost of what follows depends on, and how it came there. */
export interface FootState {
  readonly initial: FootPositions;
  readonly positions: FootPositions;
  /** Seconds since the foot moved, infinite once it has rested. */
  readonly since: number;
  /** Seconds since it moved as the player reads on, infinite from the comfortable spacing on. */
  readonly sinceRead: number;
  readonly open: OpenJumps;
  readonly cost: number;
  readonly history: FootHistory | null;
}

/**
 * What was decided, newest first: moves as `movesOf` reads them, which are read of the cheapest course alone. `tooSoon`
 * names moves that a later jump leaves no time for.
 */
export interface FootHistory {
  readonly changes: ChangesAtMoment;
  readonly moment: number;
  readonly arrivals: readonly Arrival[];
  readonly positions: FootPositions;
  readonly tooSoon: readonly { readonly moment: number; readonly pedal: number }[];
  readonly earlier: FootHistory | null;
}

export const NONE_TOO_SOON: FootHistory['tooSoon'] = [];

export const startState = (positions: FootPositions, cost: number): FootState => ({
  initial: positions,
  positions,
  since: Number.POSITIVE_INFINITY,
  sinceRead: Number.POSITIVE_INFINITY,
  open: NO_JUMPS,
  cost,
  history: null,
});

export const advanceTime = (
  state: FootState,
  seconds: number,
  rest: number,
  comfortable: number,
): FootState => ({
  ...state,
  since: roundedUntilRested(state.since + seconds, rest),
  sinceRead: roundedUntilRested(state.sinceRead + seconds, comfortable),
  open: ageJumps(state.open, seconds, rest),
});

/** What states share that are alike for all that follows. */
export type FootStateKey = Pick<FootState, 'positions' | 'since' | 'sinceRead' | 'open'>;

/** So few states are looked through one by one. */
const FEW = 12;

/** The cheapest state of each kind, in the order in which the kinds came first. */
export class BestStates {
  readonly states: FootState[] = [];
  /** Places by the key of the open jumps, then both times, the second with the stand, once there are many. */
  #places: Map<string, Map<number, Map<number, number>>> | null = null;

  /** Whether a state of this cost would be the cheapest of its kind. */
  wants(kind: FootStateKey, cost: number): boolean {
    const place = this.#placeOf(kind);
    return place < 0 || cost < this.states[place]!.cost;
  }

  offer(state: FootState): void {
    const place = this.#placeOf(state);
    if (place < 0) this.#append(state);
    else if (state.cost < this.states[place]!.cost) this.states[place] = state;
  }

  #placeOf({ positions, since, sinceRead, open }: FootStateKey): number {
    if (this.states.length > FEW) {
      return this.#places?.get(open.key)?.get(since)?.get(numberOf(positions, sinceRead)) ?? -1;
    }
    for (let place = 0; place < this.states.length; place += 1) {
      const known = this.states[place]!;
      if (
        known.positions === positions &&
        known.since === since &&
        known.sinceRead === sinceRead &&
        known.open.key === open.key
      ) {
        return place;
      }
    }
    return -1;
  }

  #append(state: FootState): void {
    this.states.push(state);
    if (this.states.length > FEW + 1) this.#index(this.states.length - 1);
    else if (this.states.length > FEW) {
      for (const place of this.states.keys()) this.#index(place);
    }
  }

  #index(place: number): void {
    const { open, positions, since, sinceRead } = this.states[place]!;
    this.#places ??= new Map();
    let bySince = this.#places.get(open.key);
    if (bySince === undefined) {
      bySince = new Map();
      this.#places.set(open.key, bySince);
    }
    let places = bySince.get(since);
    if (places === undefined) {
      places = new Map();
      bySince.set(since, places);
    }
    places.set(numberOf(positions, sinceRead), place);
  }
}

const STANDS = 256;

/** One number for the stand and the whole microseconds since the foot moved. */
const numberOf = (positions: FootPositions, since: number): number =>
  positions + STANDS * (since === Number.POSITIVE_INFINITY ? 0 : Math.round(since * 1e6) + 1);

/** What is remembered of a moment to which the music will jump back. */
export interface Landing {
  readonly positions: FootPositions;
  /** Pedals whose move is printed here, and those of them for which there is no time. */
  readonly printed: PedalMask;
  readonly tooSoon: PedalMask;
  /** Seconds from here to the moment in hand, where no move has been printed since; else null. */
  readonly pending: number | null;
  /** The next moves after this place that have had time so far: a move here, or shortly before, may leave them none. */
  readonly waiting: readonly NextMove[];
}

export interface NextMove {
  readonly seconds: number;
  readonly moment: number;
  readonly pedal: number;
}

/** What is remembered of a moment from which the music jumps ahead. */
export interface Departure extends Arrival {
  /** Seconds since landings after which no move has been printed, by the landing's moment. */
  readonly pending: ReadonlyMap<number, number>;
}

export type Landings = ReadonlyMap<number, Landing>;
export type Departures = ReadonlyMap<number, Departure>;

/** The jumps whose other end is still to come, by moment. Those with equal keys are alike. */
export interface OpenJumps {
  readonly landings: Landings;
  readonly departures: Departures;
  readonly key: string;
}

const NO_JUMPS: OpenJumps = { landings: new Map(), departures: new Map(), key: '' };

/** The open jumps after a change; the same object where nothing changed. */
export const changeJumps = (open: OpenJumps, landings: Landings, departures: Departures): OpenJumps =>
  landings === open.landings && departures === open.departures
    ? open
    : { landings, departures, key: keyOf(landings, departures) };

const keyOf = (landings: Landings, departures: Departures): string => {
  let key = '';
  for (const [at, { positions, printed, tooSoon, pending, waiting }] of landings) {
    const next = waiting.map((move) => `${move.moment}.${move.pedal}.${move.seconds}`).join(' ');
    key += `;L${at}:${positions},${printed},${tooSoon},${pending},${next}`;
  }
  for (const [from, departure] of departures) {
    const pending = [...departure.pending].map(([at, seconds]) => `${at}.${seconds}`).join(' ');
    key += `;D${from}:${departure.positions},${departure.since},${pending}`;
  }
  return key;
};

/** The landings as changed; the same map where none of them is. */
export const mapLandings = (
  landings: Landings,
  change: (landing: Landing, at: number) => Landing,
): Landings => {
  if (landings.size === 0) return landings;
  let changed: Map<number, Landing> | null = null;
  for (const [at, landing] of landings) {
    const now = change(landing, at);
    if (now === landing) continue;
    changed ??= new Map(landings);
    changed.set(at, now);
  }
  return changed ?? landings;
};

export const ageLandings = (landings: Landings, seconds: number, rest: number): Landings =>
  mapLandings(landings, (landing) =>
    landing.pending === null ? landing : { ...landing, pending: agePending(landing.pending, seconds, rest) },
  );

/** The open jumps some time later, without a move. */
export const ageJumps = (open: OpenJumps, seconds: number, rest: number): OpenJumps =>
  changeJumps(open, ageLandings(open.landings, seconds, rest), open.departures);

/** No move is printed: the time since the landing runs on. */
export const keepPending = (landing: Landing, pending: number | null): Landing =>
  pending === landing.pending ? landing : { ...landing, pending };

/** A move to a stand is printed: of each landing it is the next one on the arrivals that made none since. */
export const recordMoves = (
  landings: Landings,
  arrivals: readonly Departure[],
  positions: FootPositions,
  moment: number,
  tooSoon: PedalMask,
): Landings =>
  mapLandings(landings, (landing, at) =>
    recordNext(landing, nextMoves(arrivals, at, positions, moment, tooSoon)),
  );

const recordNext = (landing: Landing, next: readonly NextMove[]): Landing =>
  next.length === 0
    ? keepPending(landing, null)
    : { ...landing, pending: null, waiting: [...landing.waiting, ...next] };

export const pendingOf = (landings: Landings): Departure['pending'] =>
  landings.size === 0
    ? NOTHING_PENDING
    : new Map(
        [...landings].flatMap(([at, { pending }]): [number, number][] =>
          pending === null ? [] : [[at, pending]],
        ),
      );

const NOTHING_PENDING: Departure['pending'] = new Map();

export const leastPending = (arrivals: readonly Departure[], landing: number): number | null => {
  let least: number | null = null;
  for (const { pending } of arrivals) {
    const seconds = pending.get(landing);
    if (seconds !== undefined && (least === null || seconds < least)) least = seconds;
  }
  return least;
};

/** The first move on each arrival that comes from a landing without a move between, unless it is too soon already. */
const nextMoves = (
  arrivals: readonly Departure[],
  landing: number,
  positions: FootPositions,
  moment: number,
  tooSoon: PedalMask,
): NextMove[] =>
  arrivals.flatMap((arrival) => {
    const seconds = arrival.pending.get(landing);
    const [pedal] = pedalIndices(movedPedals(arrival.positions, positions));
    return seconds === undefined || pedal === undefined || tooSoon & (1 << pedal)
      ? []
      : [{ seconds, moment, pedal }];
  });

/** What is pending, some time later. */
export const agePendings = (
  pending: Departure['pending'],
  seconds: number,
  rest: number,
): Departure['pending'] =>
  pending.size === 0
    ? pending
    : new Map(
        [...pending].flatMap(([at, since]): [number, number][] => {
          const aged = agePending(since, seconds, rest);
          return aged === null ? [] : [[at, aged]];
        }),
      );

const agePending = (pending: number, seconds: number, rest: number): number | null =>
  hasRested(pending + seconds, rest) ? null : Math.round((pending + seconds) * 1e6) / 1e6;

/** Rounded so that equal times reached by different sums are one state; infinite once the foot has rested. */
export const roundedUntilRested = (since: number, rest: number): number =>
  hasRested(since, rest) ? Number.POSITIVE_INFINITY : Math.round(since * 1e6) / 1e6;
