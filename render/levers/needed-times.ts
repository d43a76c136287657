import { rollup } from 'd3-array';
import {
  compare,
  isMadeAt,
  type LeverMove,
  type LeverPlan,
  nameString,
  numberPasses,
  type OneTime,
  type Pitch,
  type Score,
} from '../../engine/index.ts';

/** A change each time that it is made: whether its string is played, or the levers are told, before the lever moves again. */
interface Made {
  readonly move: LeverMove;
  /** The change of the same lever before it; null for the first of all. */
  readonly before: Made | null;
  isNeeded: boolean;
}

type Event =
  | { readonly kind: 'move'; readonly move: LeverMove }
  | { readonly kind: 'pluck'; readonly strings: readonly string[] }
  | { readonly kind: 'table' };

/**
 * Says at which time of playing a change is made or needed alone: that of the plan, else one at which alone it is needed. A change before the sign that ends a repeat may be for the return
 * alone; one that is made for what follows a repeat is often needed the last time alone. Who leaves such a change out at
 * another time plays no other note: the lever moves again before its string is played, or the piece ends.
 *
 * No time is told where the change that follows it would then move nothing whenever it is met: that is printed all the
 * same, and a player would ask what it is for.
 *
 * A table of the levers that is printed between them needs every change before it, and in a part with glissandi, which
 * sweep strings that nothing names, every change counts as needed each time.
 *
 * @param moves where they are told
 * @param tables bars (indices) at whose start the levers are told again
 */
export const neededTimes = (
  score: Score,
  { moves, respellings }: Pick<LeverPlan, 'moves' | 'respellings'>,
  tables: readonly number[],
): ((move: LeverMove) => OneTime | null) => {
  if (score.sweeps.length > 0) return ({ onlyAt }) => onlyAt;
  const made = playChanges(score.playOrder, listEvents(score, moves, respellings, tables));
  const all = [...made.values()].flat();
  /** Changes that move something at some time, when those before them are left out where nothing needs them. */
  const moving = new Set(
    all.filter(({ before }) => before === null || before.isNeeded).map(({ move }) => move),
  );
  const next = new Map(
    all.flatMap((change) => (change.before === null ? [] : [[change.before, change.move]])),
  );
  const isFollowed = (change: Made): boolean => {
    const following = next.get(change);
    return following === undefined || moving.has(following);
  };
  return (move) => {
    if (move.onlyAt !== null) return move.onlyAt;
    // The page tells by itself when a change for who comes back is made, and grace notes are beside their beat.
    if (move.restores || move.graceNote !== null) return null;
    const [first, ...later] = made.get(move) ?? [];
    if (first === undefined || later.length === 0) return null;
    if (later.some(({ isNeeded }) => isNeeded === first.isNeeded)) return null;
    if (![first, ...later].filter(({ isNeeded }) => !isNeeded).every(isFollowed)) return null;
    return first.isNeeded ? 'first' : 'later';
  };
};

/**
 * The levers that are up before the start only as a jump back leaves them: none of their notes is played before they are
 * set down. None in a part with glissandi, which sweep strings that nothing names.
 */
export const leversUpForRepeat = (
  score: Score,
  { initial, moves, respellings }: Pick<LeverPlan, 'initial' | 'moves' | 'respellings'>,
): LeverPlan['initial'] => {
  if (score.sweeps.length > 0) return [];
  const events = listEvents(score, moves, respellings, []);
  const played = [...playEvents(score.playOrder, events)];
  return initial.filter((lever) => {
    const name = nameString(lever);
    const own = played.filter((event) =>
      event.kind === 'move' ? nameString(event.move.string) === name : isPluckOf(event, name),
    );
    const [first] = own;
    if (first?.kind !== 'move' || first.move.to !== 'down') return false;
    // The jump back leaves it up where the same change finds it so again.
    return own.some((event, i) => {
      const before = own.slice(0, i).findLast(({ kind }) => kind === 'move');
      return event.kind === 'move' && event.move === first.move && i > 0 && isUpAfter(before);
    });
  });
};

const isPluckOf = (event: Event, name: string): boolean =>
  event.kind === 'pluck' && event.strings.includes(name);

const isUpAfter = (event: Event | undefined): boolean => event?.kind === 'move' && event.move.to === 'up';

/** What happens in the order in which it is played; changes only when they are made. */
function* playEvents(
  playOrder: readonly number[],
  events: ReadonlyMap<number, readonly Event[]>,
): Iterable<Event> {
  for (const { item: bar, pass } of numberPasses(playOrder)) {
    for (const event of events.get(bar) ?? []) {
      if (event.kind !== 'move' || isMadeAt(event.move.onlyAt, pass)) yield event;
    }
  }
}

const playChanges = (
  playOrder: readonly number[],
  events: ReadonlyMap<number, readonly Event[]>,
): ReadonlyMap<LeverMove, readonly Made[]> => {
  const made = new Map<LeverMove, Made[]>();
  const latest = new Map<string, Made>();
  for (const event of playEvents(playOrder, events)) {
    if (event.kind === 'move') {
      const string = nameString(event.move.string);
      const change = { move: event.move, before: latest.get(string) ?? null, isNeeded: false };
      made.set(event.move, [...(made.get(event.move) ?? []), change]);
      latest.set(string, change);
    } else {
      const strings = event.kind === 'table' ? [...latest.keys()] : event.strings;
      for (const string of strings) {
        const change = latest.get(string);
        if (change !== undefined) change.isNeeded = true;
      }
    }
  }
  return made;
};

/** What happens in each bar (index), in order: tables first, changes before the notes of their moment. */
const listEvents = (
  score: Score,
  moves: LeverPlan['moves'],
  respellings: LeverPlan['respellings'],
  tables: readonly number[],
): ReadonlyMap<number, readonly Event[]> => {
  const respelled = rollup(
    respellings,
    (own) => own.map(({ to }) => to),
    ({ note }) => note,
  );
  const placed = [
    ...tables.map((bar) => ({ bar, at: score.bars[bar]!.onset, event: { kind: 'table' } as const })),
    ...moves.map((move) => ({ bar: move.bar, at: move.at, event: { kind: 'move', move } as const })),
    ...score.notes.map(({ id, bar, onset, pitch, ornament, harmonic }) => {
      const played: readonly (Pitch | null | undefined)[] = [
        pitch,
        harmonic?.string,
        ornament?.upper,
        ornament?.lower,
        ...(respelled.get(id) ?? []),
      ];
      const strings = played.flatMap((each) =>
        each === null || each === undefined ? [] : [nameString(each)],
      );
      return { bar, at: onset, event: { kind: 'pluck', strings } as const };
    }),
  ].sort((a, b) => compare(a.at, b.at));
  return rollup(
    placed,
    (own) => own.map(({ event }): Event => event),
    ({ bar }) => bar,
  );
};
