import { ageLandings, capped, changeJumps, NO_JUMPS, type OpenJumps } from './open-jumps.ts';
import type { PrintedMove } from './printing.ts';
import type { Stand } from './stand.ts';

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
