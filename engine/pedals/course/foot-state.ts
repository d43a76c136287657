import { hasRested } from '../../time/rested.ts';
import type { Arrival, PrintedMove } from './printing.ts';
import { differing, type Pedals, pedalsOf, type Stand } from './stand.ts';

/** How a foot may have come to a moment: all that the cost of what follows depends on, and how it came there. */
export interface State {
  readonly initial: Stand;
  readonly stand: Stand;
  /** Seconds since the foot moved. */
  readonly since: number;
  readonly open: OpenJumps;
  readonly cost: number;
  readonly trail: Trail | null;
}

/** What was decided, newest first; `hurried` names moves that a later jump leaves no time for. */
export interface Trail {
  readonly moves: readonly PrintedMove[];
  readonly hurried: readonly { readonly moment: number; readonly pedal: number }[];
  readonly earlier: Trail | null;
}

export const startState = (stand: Stand, cost: number): State => ({
  initial: stand,
  stand,
  since: Number.POSITIVE_INFINITY,
  open: NO_JUMPS,
  cost,
  trail: null,
});

export const letTimePass = (state: State, seconds: number, rest: number): State => {
  const { landings, departures } = state.open;
  return {
    ...state,
    since: capped(state.since + seconds, rest),
    open: changeJumps(state.open, ageLandings(landings, seconds, rest), departures),
  };
};

/** What states share that are alike for all that follows. */
export type Kind = Pick<State, 'stand' | 'since' | 'open'>;

/** So few states are looked through one by one. */
const FEW = 12;

/** The cheapest state of each kind, in the order in which the kinds came first. */
export class Shortlist {
  readonly states: State[] = [];
  /** Places by the key of the open jumps and the number of stand and time, once there are many. */
  readonly #places = new Map<string, Map<number, number>>();

  /** Whether a state of this cost would be the cheapest of its kind. */
  wants(kind: Kind, cost: number): boolean {
    const place = this.#placeOf(kind);
    return place < 0 || cost < this.states[place]!.cost;
  }

  offer(state: State): void {
    const place = this.#placeOf(state);
    if (place < 0) this.#append(state);
    else if (state.cost < this.states[place]!.cost) this.states[place] = state;
  }

  #placeOf({ stand, since, open }: Kind): number {
    if (this.states.length > FEW) return this.#places.get(open.key)?.get(numberOf(stand, since)) ?? -1;
    return this.states.findIndex(
      (known) => known.stand === stand && known.since === since && known.open.key === open.key,
    );
  }

  #append(state: State): void {
    this.states.push(state);
    if (this.states.length > FEW + 1) this.#index(this.states.length - 1);
    else if (this.states.length > FEW) {
      for (const place of this.states.keys()) this.#index(place);
    }
  }

  #index(place: number): void {
    const { open, stand, since } = this.states[place]!;
    let places = this.#places.get(open.key);
    if (places === undefined) {
      places = new Map();
      this.#places.set(open.key, places);
    }
    places.set(numberOf(stand, since), place);
  }
}

const STANDS = 256;

/** One number for the stand and the whole microseconds since the foot moved. */
const numberOf = (stand: Stand, since: number): number =>
  stand + STANDS * (since === Number.POSITIVE_INFINITY ? 0 : Math.round(since * 1e6) + 1);

/** What is remembered of a moment to which the music will jump back. */
export interface Landing {
  readonly stand: Stand;
  /** Pedals whose move is printed here, and those of them for which there is no time. */
  readonly printed: Pedals;
  readonly hurried: Pedals;
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
  for (const [at, { stand, printed, hurried, pending, waiting }] of landings) {
    const next = waiting.map((move) => `${move.moment}.${move.pedal}.${move.seconds}`).join(' ');
    key += `;L${at}:${stand},${printed},${hurried},${pending},${next}`;
  }
  for (const [from, departure] of departures) {
    const pending = [...departure.pending].map(([at, seconds]) => `${at}.${seconds}`).join(' ');
    key += `;D${from}:${departure.stand},${departure.since},${pending}`;
  }
  return key;
};

/** The landings as changed; the same map where none of them is. */
export const mapLandings = (
  landings: Landings,
  change: (landing: Landing, at: number) => Landing,
): Landings => {
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

/** No move is printed: the time since the landing runs on. */
export const waitOn = (landing: Landing, pending: number | null): Landing =>
  pending === landing.pending ? landing : { ...landing, pending };

/** A move is printed: it is the next one after the landing on the arrivals that made none since. */
export const moveAfter = (landing: Landing, next: readonly NextMove[]): Landing =>
  next.length === 0
    ? waitOn(landing, null)
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
export const nextMoves = (
  arrivals: readonly Departure[],
  landing: number,
  stand: Stand,
  moment: number,
  hurried: Pedals,
): NextMove[] =>
  arrivals.flatMap((arrival) => {
    const seconds = arrival.pending.get(landing);
    const [pedal] = pedalsOf(differing(arrival.stand, stand));
    return seconds === undefined || pedal === undefined || hurried & (1 << pedal)
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
export const capped = (since: number, rest: number): number =>
  hasRested(since, rest) ? Number.POSITIVE_INFINITY : Math.round(since * 1e6) / 1e6;
