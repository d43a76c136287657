import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { equals } from '../../music/rational.ts';
import { isMadeAt } from '../../score/bars/one-time.ts';
import { type GivenChanges, type LetterEdit, REPAIR_PRICES } from './letter-edits.ts';
import { type Place, type State, type Token, UNSET, withEdit } from './letter-states.ts';
import type { LetterTrack, MarkingWindow, Statement, TrackStep } from './letter-track.ts';

/** Everything that may be said and edited at a step, and what comes of it. */
export const takeStep = (
  state: State,
  step: TrackStep,
  given: GivenChanges,
  { letter, positions }: Pick<LetterTrack, 'letter' | 'positions'>,
): readonly State[] => {
  let before: readonly State[] = [state];
  const also = given.also.find((each) => each.bar === step.bar && equals(each.at, step.at));
  if (also !== undefined) before = [set(state, also.position, also.inWords)];
  const { window, stated } = step;
  const isFree = stated.every((index) => given.without.some(({ marking }) => marking === index));
  if (window !== null && isFree)
    before = before.flatMap((each) => [each, ...addBefore(each, step, window, letter)]);
  const isPlain = step.statements.length === 0 && step.graces.length === 0;
  if (isPlain) return before.map((each) => serve(each, step, each.values, NO_VISITS));
  return before.flatMap((each) => {
    let readings: readonly Reading[] = [
      { state: each, stated: also?.position ?? null, visited: each.values.map((value) => [value]) },
    ];
    for (const statement of step.statements) {
      if (given.without.includes(statement)) continue;
      readings = readings.flatMap((reading) => readStatement(reading, statement, step, positions));
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
const readStatement = (
  reading: Reading,
  statement: Statement,
  step: TrackStep,
  positions: readonly Position[],
): readonly Reading[] => {
  const kept = readAs(reading, statement, statement.position, step);
  const price = statement.inSetting ? REPAIR_PRICES.alterEntry : REPAIR_PRICES.alter;
  const altered = positions
    .filter((position) => position !== statement.position)
    .map((position) =>
      charge(readAs(reading, statement, position, step), { kind: 'alter', statement, position }, price),
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

/** Reads one statement as saying a position, on the passes that it is for. */
const readAs = (
  reading: Reading,
  { inSetting, onlyAt }: Statement,
  position: Position,
  step: TrackStep,
): Reading => {
  const disagrees = reading.stated !== null && reading.stated !== position && !step.hasGraces;
  const isRead = (pass: number): boolean => isMadeAt(onlyAt, pass + 1);
  const state = set(reading.state, position, !inSetting, isRead);
  return {
    state: disagrees ? { ...state, cost: state.cost + REPAIR_PRICES.unmet } : state,
    stated: position,
    visited: reading.visited.map((places, pass) => (isRead(pass) ? [...places, position] : places)),
  };
};

const set = (
  state: State,
  position: Position,
  inWords = true,
  isRead: (pass: number) => boolean = () => true,
): State => {
  const { values, idle } = state;
  const changes = values.some((value, pass) => isRead(pass) && value !== position);
  const price = changes ? (idle ? REPAIR_PRICES.needless : 0) : inWords ? REPAIR_PRICES.repeated : 0;
  return {
    ...state,
    values: changes ? values.map((value, pass) => (isRead(pass) ? position : value)) : values,
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
