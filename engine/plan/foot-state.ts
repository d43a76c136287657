import type { Arrival, PrintedMove, Stand } from './printing.ts';
import { isBefore } from './printing.ts';

/** What is remembered of a moment to which the music will jump back. */
export interface Landing {
  readonly stand: Stand;
  /** Pedals whose move is printed here, and those of them for which there is no time, as bits. */
  readonly printed: number;
  readonly hurried: number;
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

export interface State {
  readonly initial: Stand;
  readonly stand: Stand;
  readonly since: number;
  readonly landings: ReadonlyMap<number, Landing>;
  readonly departures: ReadonlyMap<number, Departure>;
  readonly cost: number;
  readonly trail: Trail | null;
}

/** What was decided, newest first; `hurried` names moves that a later jump leaves no time for. */
export interface Trail {
  readonly moves: readonly PrintedMove[];
  readonly hurried: readonly { readonly moment: number; readonly pedal: number }[];
  readonly earlier: Trail | null;
}

export const startState = (stand: Stand): State => ({
  initial: stand,
  stand,
  since: Number.POSITIVE_INFINITY,
  landings: new Map(),
  departures: new Map(),
  cost: 0,
  trail: null,
});

export const letTimePass = (state: State, seconds: number, rest: number): State => ({
  ...state,
  since: capped(state.since + seconds, rest),
  landings: mapLandings(state.landings, (landing) => ({
    ...landing,
    pending: agePending(landing.pending, seconds, rest),
  })),
});

export const mapLandings = (
  landings: ReadonlyMap<number, Landing>,
  change: (landing: Landing, at: number) => Landing,
): ReadonlyMap<number, Landing> =>
  landings.size === 0 ? landings : new Map([...landings].map(([at, landing]) => [at, change(landing, at)]));

export const agePending = (pending: number | null, seconds: number, rest: number): number | null =>
  pending !== null && isBefore(pending + seconds, rest) ? Math.round((pending + seconds) * 1e6) / 1e6 : null;

/** Rounded so that equal times reached by different sums are one state; infinite once the foot has rested. */
export const capped = (since: number, rest: number): number =>
  isBefore(since, rest) ? Math.round(since * 1e6) / 1e6 : Number.POSITIVE_INFINITY;

export const keepCheapest = (states: readonly State[]): State[] => {
  if (states.length < 2) return [...states];
  const best = new Map<string, State>();
  for (const state of states) {
    const key = keyOf(state);
    const known = best.get(key);
    if (known === undefined || state.cost < known.cost) best.set(key, state);
  }
  return [...best.values()];
};

export const keyOf = (state: State): string => {
  let key = `${state.stand.join('')};${state.since}`;
  for (const [at, landing] of state.landings) {
    const waiting = landing.waiting.map((next) => `${next.moment}.${next.pedal}.${next.seconds}`).join(' ');
    key += `;L${at}:${landing.stand.join('')},${landing.printed},${landing.hurried},${landing.pending},${waiting}`;
  }
  for (const [from, departure] of state.departures) {
    const pending = [...departure.pending].map(([at, seconds]) => `${at}.${seconds}`).join(' ');
    key += `;D${from}:${departure.stand.join('')},${departure.since},${pending}`;
  }
  return key;
};
