import { POSITIONS, type Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import type { LetterTrack, MarkingWindow, Statement, TrackStep } from './letter-track.ts';
import type { BarPasses, Entry } from './passes.ts';

/** One change to what is said of one pedal. */
export type LetterEdit =
  | {
      readonly kind: 'add';
      readonly letter: Letter;
      readonly position: Position;
      readonly window: MarkingWindow;
    }
  | { readonly kind: 'alter'; readonly statement: Statement; readonly position: Position }
  | { readonly kind: 'move'; readonly statement: Statement; readonly window: MarkingWindow }
  | { readonly kind: 'remove'; readonly statement: Statement };

/** The cheapest way to set one pedal right. */
export interface LetterRepair {
  readonly letter: Letter;
  readonly edits: readonly LetterEdit[];
  /** Notes and signs that no marking can serve. */
  readonly unmet: number;
  /** Edits first, then how likely they are. */
  readonly cost: number;
  /** Nothing was left out of the search. */
  readonly exact: boolean;
}

/** What the search takes as given besides the track. */
export interface GivenChanges {
  /** Statements that are as good as not there. */
  readonly without: readonly Statement[];
  /** What is said besides, free of charge. */
  readonly also: readonly GivenStatement[];
}

/** Something that is said before the notes of a step. */
export interface GivenStatement {
  readonly step: TrackStep;
  readonly position: Position;
  readonly inWords: boolean;
}

const NOTHING_GIVEN: GivenChanges = { without: [], also: [] };

/**
 * Prices. No number of edits weighs as one note that is not served, and what makes an edit likely never as one edit
 * (common practice, no source): a wrong sign is more likely than a marking out of place, that than one left out, and
 * that than one too many.
 */
export const REPAIR_PRICES = {
  unmet: 1e10,
  edit: 1e6,
  alter: 10,
  alterEntry: 20,
  move: 20,
  add: 40,
  remove: 60,
  perBarMoved: 15,
  /** A change that is left though no note needs it, or though the pedal stands there. */
  needless: 400,
  repeated: 200,
  /** A glissando that sounds otherwise than its notes and the key say. */
  unlikeKey: 300,
} as const;

/** A marking further than this from its place is one too many there and one left out here. */
const MOST_BARS_MOVED = 4;

/** The states kept at a step. */
const MOST_STATES = 4000;

const UNSET = 2;
type Place = Position | typeof UNSET;

/** A statement that was taken out and may be put in later, or one put in that may be taken out later. */
type Token =
  | { readonly kind: 'taken'; readonly statement: Statement; readonly bar: number }
  | {
      readonly kind: 'given';
      readonly position: Position;
      readonly window: MarkingWindow;
      readonly bar: number;
    };

interface Choice {
  readonly edit: LetterEdit;
  readonly before: Choice | null;
}

interface State {
  /** Where the pedal stands on each pass of the bar. */
  readonly values: readonly Place[];
  /** Where it stands after a jump that is still to come in printed order, or before one that has been. */
  readonly open: readonly (readonly [jump: number, value: Place])[];
  readonly tokens: readonly Token[];
  /** The last change was in words, and no note has needed it yet. */
  readonly idle: boolean;
  readonly cost: number;
  readonly choices: Choice | null;
}

/**
 * Finds the edits with which every note finds this pedal, on every pass.
 *
 * A dynamic programme along the printed order: its states are where the pedal stands on each pass of a bar, and at the
 * open end of each jump, so that an edit counts once however often its bar is played; a marking that is moved is taken
 * out at one step and put in at another. Of two states that are alike the cheaper is kept, so that the cheapest end is
 * the best of all. Linear in the steps for parts read straight through.
 */
export const repairLetter = (
  track: LetterTrack,
  passes: readonly BarPasses[],
  given: GivenChanges = NOTHING_GIVEN,
): LetterRepair => {
  const possible = positionsIn(track);
  let states: readonly State[] = [{ values: [], open: [], tokens: [], idle: false, cost: 0, choices: null }];
  let exact = true;
  const keep = (next: readonly State[]): void => {
    const kept = keepBest(next);
    exact &&= kept.exact;
    states = kept.states;
  };
  for (const [bar, steps] of track.bars.entries()) {
    const { entries, exits } = passes[bar]!;
    if (entries.length === 0) continue;
    const isPlain = entries.length === 1 && entries[0]!.from === 'before' && states[0]!.values.length === 1;
    if (!isPlain) keep(states.flatMap((state) => enterBar(state, entries, possible)));
    if (states.some(({ tokens }) => tokens.some((token) => bar - token.bar > MOST_BARS_MOVED)))
      keep(states.map((state) => dropOld(state, bar)));
    for (const step of steps) keep(states.flatMap((state) => takeStep(state, step, given, track.letter)));
    for (const { pass, jump, leadsBack } of exits) {
      keep(states.flatMap((state) => leaveBar(state, pass, jump, leadsBack)));
    }
  }
  const best = states.reduce((a, b) => (endCost(b) < endCost(a) ? b : a));
  const cost = endCost(best);
  const unmet = Math.floor(cost / REPAIR_PRICES.unmet);
  return {
    letter: track.letter,
    edits: editsOf(best.choices),
    unmet,
    cost: cost % REPAIR_PRICES.unmet,
    exact,
  };
};

/** How many edits a cost stands for. */
export const editsIn = (cost: number): number => Math.floor(cost / REPAIR_PRICES.edit);

const endCost = ({ cost, idle }: State): number => cost + (idle ? REPAIR_PRICES.needless : 0);

const positionsIn = ({ bars }: LetterTrack): readonly Place[] => {
  const found = new Set<Place>([UNSET]);
  for (const steps of bars) {
    for (const { needs, graces, statements } of steps) {
      for (const position of [...needs, ...graces, ...statements.map((each) => each.position)])
        found.add(position);
    }
  }
  return [...found];
};

const enterBar = (state: State, entries: readonly Entry[], possible: readonly Place[]): readonly State[] =>
  entries.reduce<readonly State[]>(
    (found, entry) => found.flatMap((each) => enterPass(state.values, each, entry, possible)),
    [{ ...state, values: [] }],
  );

/** @param left where the pedal stood at the end of the bar before, on each pass of that */
const enterPass = (
  left: readonly Place[],
  state: State,
  entry: Entry,
  possible: readonly Place[],
): readonly State[] => {
  const withValue = (value: Place, open = state.open): State => ({
    ...state,
    values: [...state.values, value],
    open,
  });
  switch (entry.from) {
    case 'start':
      return [withValue(UNSET)];
    case 'before':
      return [withValue(left[entry.pass] ?? UNSET)];
    case 'earlier': {
      const value = state.open.find(([jump]) => jump === entry.jump)?.[1] ?? UNSET;
      return [
        withValue(
          value,
          state.open.filter(([jump]) => jump !== entry.jump),
        ),
      ];
    }
    case 'later':
      return possible.map((value) => withValue(value, [...state.open, [entry.jump, value]]));
  }
};

/** At a jump back it comes out whether what was taken for its landing is so. */
const leaveBar = (state: State, pass: number, jump: number, leadsBack: boolean): readonly State[] => {
  const value = state.values[pass]!;
  if (!leadsBack) return [{ ...state, open: [...state.open, [jump, value]] }];
  const taken = state.open.find(([each]) => each === jump)?.[1];
  return taken === value ? [{ ...state, open: state.open.filter(([each]) => each !== jump) }] : [];
};

const dropOld = (state: State, bar: number): State => ({
  ...state,
  tokens: state.tokens.filter((token) => bar - token.bar <= MOST_BARS_MOVED),
});

const takeStep = (state: State, step: TrackStep, given: GivenChanges, letter: Letter): readonly State[] => {
  let before: readonly State[] = [state];
  const also = given.also.find((each) => each.step === step);
  if (also !== undefined) before = [set(state, also.position, also.inWords)];
  const { window } = step;
  if (window !== null) before = before.flatMap((each) => [each, ...addBefore(each, step, window, letter)]);
  const isPlain = step.statements.length === 0 && step.graces.length === 0;
  if (isPlain) return before.map((each) => serve(each, step, each.values, NO_VISITS));
  return before.flatMap((each) => {
    let readings: readonly Reading[] = [
      { state: each, stated: null, visited: each.values.map((value) => [value]) },
    ];
    for (const statement of step.statements) {
      if (given.without.includes(statement)) continue;
      readings = readings.flatMap((reading) => readStatement(reading, statement, step));
    }
    return readings.map((reading) => serve(reading.state, step, each.values, reading.visited));
  });
};

/** A state while the statements of one time are read. */
interface Reading {
  readonly state: State;
  /** What the last of them said. */
  readonly stated: Position | null;
  /** Where the pedal has stood at this time, on each pass. */
  readonly visited: readonly (readonly Place[])[];
}

const NO_VISITS: readonly (readonly Place[])[] = [];

/** All ways to take what a marking says: as it stands, corrected, or not at all. */
const readStatement = (reading: Reading, statement: Statement, step: TrackStep): readonly Reading[] => {
  const kept = readAs(reading, statement.position, step, !statement.inSetting);
  const price = statement.inSetting ? REPAIR_PRICES.alterEntry : REPAIR_PRICES.alter;
  const altered = POSITIONS.filter((position) => position !== statement.position).map((position) =>
    charge(
      readAs(reading, position, step, !statement.inSetting),
      { kind: 'alter', statement, position },
      price,
    ),
  );
  if (statement.inSetting) return [kept, ...altered];
  const taken = charge(reading, { kind: 'remove', statement }, REPAIR_PRICES.remove, [
    ...reading.state.tokens,
    { kind: 'taken', statement, bar: step.bar },
  ]);
  const given = reading.state.tokens.findLast(
    (token) => token.kind === 'given' && token.position === statement.position,
  );
  if (given?.kind !== 'given') return [kept, ...altered, taken];
  const moved: Reading = {
    ...reading,
    state: withEdit(
      { ...reading.state, tokens: reading.state.tokens.filter((token) => token !== given) },
      { kind: 'move', statement, window: given.window },
      movePrice(step.bar - given.bar) - REPAIR_PRICES.add,
    ),
  };
  return [kept, ...altered, taken, moved];
};

const movePrice = (bars: number): number => REPAIR_PRICES.move + REPAIR_PRICES.perBarMoved * Math.abs(bars);

const charge = (reading: Reading, edit: LetterEdit, price: number, tokens?: readonly Token[]): Reading => ({
  ...reading,
  state: {
    ...withEdit(reading.state, edit, REPAIR_PRICES.edit + price),
    tokens: tokens ?? reading.state.tokens,
  },
});

const withEdit = (state: State, edit: LetterEdit, price: number): State => ({
  ...state,
  cost: state.cost + price,
  choices: { edit, before: state.choices },
});

/** Reads one statement. */
const readAs = (reading: Reading, position: Position, step: TrackStep, inWords = true): Reading => {
  const disagrees = reading.stated !== null && reading.stated !== position && !step.hasGraces;
  const state = set(reading.state, position, inWords);
  return {
    state: disagrees ? { ...state, cost: state.cost + REPAIR_PRICES.unmet } : state,
    stated: position,
    visited: reading.visited.map((places) => [...places, position]),
  };
};

const set = (state: State, position: Position, inWords = true): State => {
  const { values, idle } = state;
  const changes = values.some((value) => value !== position);
  const price = changes ? (idle ? REPAIR_PRICES.needless : 0) : inWords ? REPAIR_PRICES.repeated : 0;
  return {
    ...state,
    values: changes ? values.map(() => position) : values,
    idle: changes ? inWords : idle,
    cost: state.cost + price,
  };
};

/** Puts in a marking for the notes of a step: a new one, or one that was taken out before. */
const addBefore = (state: State, step: TrackStep, window: MarkingWindow, letter: Letter): readonly State[] =>
  [...new Set([...step.needs, ...step.graces, ...step.swept])].flatMap((position): State[] => {
    if (state.values.every((value) => value === position)) return [];
    const after = set(state, position);
    const taken = state.tokens.findLast(
      (token) => token.kind === 'taken' && token.statement.position === position,
    );
    const add: LetterEdit = { kind: 'add', letter, position, window };
    const fresh: State = {
      ...withEdit(after, add, REPAIR_PRICES.edit + REPAIR_PRICES.add),
      tokens: [...state.tokens, { kind: 'given', position, window, bar: step.bar }],
    };
    if (taken?.kind !== 'taken') return [fresh];
    const moved = withEdit(
      { ...after, tokens: state.tokens.filter((token) => token !== taken) },
      { kind: 'move', statement: taken.statement, window },
      movePrice(step.bar - taken.bar) - REPAIR_PRICES.remove,
    );
    return [fresh, moved];
  });

/** Plays the notes of a step. @param stood where the pedal stood on each pass before the statements of this time */
const serve = (
  state: State,
  step: TrackStep,
  stood: readonly Place[],
  visited: readonly (readonly Place[])[],
): State => {
  const { values } = state;
  let unmet = 0;
  for (const held of step.held) {
    if (values.some((value, pass) => value !== held && stood[pass] === held)) unmet += 1;
  }
  for (const grace of step.graces) {
    if (values.some((value, pass) => value !== grace && !(visited[pass] ?? []).includes(grace))) unmet += 1;
  }
  for (const need of step.needs) if (values.some((value) => value !== need)) unmet += 1;
  let price = unmet * REPAIR_PRICES.unmet;
  for (const swept of step.swept) {
    if (values.some((value) => value === UNSET)) price += REPAIR_PRICES.unmet;
    else if (values.some((value) => value !== swept)) price += REPAIR_PRICES.unlikeKey;
  }
  const isAsked = step.needs.length + step.graces.length + step.swept.length > 0;
  if (price === 0 && !(isAsked && state.idle)) return state;
  return { ...state, cost: state.cost + price, idle: isAsked ? false : state.idle };
};

/**
 * Of states that are alike the cheapest. One that costs more than the best by the edits that lead anywhere (one, and
 * one for each marking in the hand and each open jump) is never better than going on from the best.
 */
const keepBest = (
  states: readonly State[],
): { readonly states: readonly State[]; readonly exact: boolean } => {
  if (states.length === 1) return { states, exact: true };
  const least = states.reduce((cost, state) => Math.min(cost, state.cost), Number.POSITIVE_INFINITY);
  const best = new Map<string, State>();
  for (const state of states) {
    const margin = 2 + state.tokens.length + 2 * state.open.length;
    if (state.cost > least + margin * REPAIR_PRICES.edit && state.open.length === 0) continue;
    const key = keyOf(state);
    const known = best.get(key);
    if (known === undefined || state.cost < known.cost) best.set(key, state);
  }
  const kept = [...best.values()];
  if (kept.length <= MOST_STATES) return { states: kept, exact: true };
  return { states: kept.sort((a, b) => a.cost - b.cost).slice(0, MOST_STATES), exact: false };
};

const keyOf = ({ values, open, tokens, idle }: State): string =>
  `${values.join()};${
    open.length === 0
      ? ''
      : open
          .map((each) => each.join())
          .sort()
          .join(' ')
  };${tokens.length === 0 ? '' : tokens.map(tokenKey).sort().join(' ')};${idle}`;

const tokenKey = (token: Token): string =>
  token.kind === 'taken' ? `t${token.statement.position}@${token.bar}` : `g${token.position}@${token.bar}`;

/** A move stands for the removal and the addition that it joins. */
const editsOf = (choices: Choice | null): readonly LetterEdit[] => {
  const edits: LetterEdit[] = [];
  for (let choice = choices; choice !== null; choice = choice.before) edits.push(choice.edit);
  const moves = edits.filter((edit) => edit.kind === 'move');
  const movedStatements = new Set(moves.map(({ statement }) => statement));
  const movedWindows = new Set(moves.map(({ window }) => window));
  return edits
    .filter(
      (edit) =>
        !(edit.kind === 'remove' && movedStatements.has(edit.statement)) &&
        !(edit.kind === 'add' && movedWindows.has(edit.window)),
    )
    .reverse();
};
