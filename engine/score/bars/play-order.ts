import type { BarRepeat, Jump } from '../model/bar.ts';
import type { Remarked } from '../model/remark.ts';
import { type Ending, findRepeats, type Repeat } from './repeats.ts';

/** What the order of play needs of a bar. */
export interface RepeatBar {
  readonly repeat: BarRepeat;
}

/** Bars played, as indices, and what the user should know where the signs do not make sense. */
export interface PlayOrder {
  readonly order: readonly number[];
  readonly remarks: readonly Remarked[];
}

/** Bars as they are played, repeats written out: no piece comes near it, and signs that ask for more are taken for an error. */
export const MAX_PLAYED_BARS = 40_000;

/**
 * Follows repeats, endings, da capo, dal segno, fine and coda.
 *
 * Repeats may nest; a repeat without a start goes back to the end of the one before. Each da capo or dal segno is
 * obeyed once, after the repeats around it; from then on repeats already played are not taken again and their last
 * ending is played, fine ends the piece and “to coda” leads to the coda (common practice; MusicXML 4.0, `sound`).
 *
 * @returns the printed order with a remark where signs contradict each other; time in proportion to the bars played
 * @example // |: A :| B  gives A A B
 */
export const findPlayOrder = (bars: readonly RepeatBar[]): PlayOrder => {
  const { repeats, faults, ignoredSigns } = findRepeats(bars);
  const { routes, faults: jumpFaults } = findRoutes(bars);
  const [fault] = [...faults, ...jumpFaults];
  const remarks = ignoredSigns.map((sign) => illFormed(sign.bar, sign.why));
  const printed = bars.map((_, index) => index);
  if (fault !== undefined) {
    const remark = illFormed(fault.bar, `${fault.why}; the bars are read in printed order`);
    return { order: printed, remarks: [...remarks, remark] };
  }
  const order = followSigns(bars, repeats, routes);
  if (order === null) {
    const why = `the repeats make more than ${MAX_PLAYED_BARS} bars; the bars are read in printed order`;
    return {
      order: printed,
      remarks: [...remarks, { code: 'repeat-ill-formed', bar: null, message: sentence(why) }],
    };
  }
  return { order, remarks };
};

const sentence = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}.`;

const illFormed = (bar: number, why: string): Remarked => ({
  code: 'repeat-ill-formed',
  bar,
  message: sentence(why),
});

/** More signs for jumps are taken for an error. */
const MOST_JUMPS = 1000;

/** Where the jumps of a bar lead: bar indices. */
interface Routes {
  /** Bar of a da capo or dal segno, and where it goes back to. */
  readonly back: ReadonlyMap<number, number>;
  /** Bar that ends with “to coda”, and the coda's first bar. */
  readonly toCoda: ReadonlyMap<number, number>;
}

const findRoutes = (
  bars: readonly RepeatBar[],
): { readonly routes: Routes; readonly faults: readonly { bar: number; why: string }[] } => {
  const back = new Map<number, number>();
  const toCoda = new Map<number, number>();
  const faults: { bar: number; why: string }[] = [];
  const signs = bars.flatMap((bar, index) => bar.repeat.jumps.map((jump) => ({ bar: index, jump })));
  if (signs.length > MOST_JUMPS)
    faults.push({ bar: signs[0]!.bar, why: `there are more than ${MOST_JUMPS} signs for jumps` });
  if (faults.length > 0) return { routes: { back, toCoda }, faults };
  const segnos = signs.filter((sign) => sign.jump.kind === 'segno');
  const goesBack = signs.some(({ jump }) => jump.kind === 'da-capo' || jump.kind === 'dal-segno');
  const codas = readCodas(signs, goesBack);
  for (const { bar, jump } of signs) {
    if (jump.kind === 'da-capo') back.set(bar, 0);
    if (jump.kind === 'dal-segno') {
      const target = labelled(segnos, jump.label).findLast((segno) => segno.bar <= bar) ?? segnos[0];
      if (target === undefined) faults.push({ bar, why: 'a dal segno has no segno to go back to' });
      else back.set(bar, target.bar);
    }
  }
  for (const { bar, label } of codas.leaving) {
    const target = labelled(codas.arriving, label).find((coda) => coda.bar > bar) ?? codas.arriving.at(-1);
    if (target !== undefined) toCoda.set(bar, target.bar);
    else if (goesBack) faults.push({ bar, why: 'a “to coda” has no coda to go to' });
  }
  return { routes: { back, toCoda }, faults };
};

interface Sign {
  readonly bar: number;
  readonly jump: Jump;
}

const labelOf = (jump: Jump): string => ('label' in jump ? jump.label : '');

/** Signs of that label, or all of them if none bears it. */
const labelled = (signs: readonly Sign[], label: string): readonly Sign[] => {
  const same = signs.filter((sign) => labelOf(sign.jump) === label);
  return same.length > 0 ? same : signs;
};

/**
 * Where play leaves for a coda and where it arrives. Of two coda signs without “to coda”, the first is where it leaves,
 * at the bar line before (common practice, no source).
 */
const readCodas = (
  signs: readonly Sign[],
  goesBack: boolean,
): { readonly leaving: readonly { bar: number; label: string }[]; readonly arriving: readonly Sign[] } => {
  const arriving = signs.filter((sign) => sign.jump.kind === 'coda');
  const leaving = signs
    .filter((sign) => sign.jump.kind === 'to-coda')
    .map((sign) => ({ bar: sign.bar, label: labelOf(sign.jump) }));
  const [first, second] = arriving;
  if (leaving.length === 0 && goesBack && arriving.length === 2 && first!.bar > 0) {
    return { leaving: [{ bar: first!.bar - 1, label: labelOf(second!.jump) }], arriving: [second!] };
  }
  return { leaving, arriving };
};

/** Plays the bars sign by sign; null once the cap is passed. */
const followSigns = (
  bars: readonly RepeatBar[],
  repeats: readonly Repeat[],
  routes: Routes,
): number[] | null => {
  const order: number[] = [];
  const player = new Player(bars, repeats, routes);
  let bar = player.enter(0);
  while (bar < bars.length) {
    if (order.length >= MAX_PLAYED_BARS) return null;
    order.push(bar);
    bar = player.enter(player.leave(bar));
  }
  return order;
};

/** What a player keeps in mind: the pass of each repeat, the jumps already obeyed, whether one was. */
class Player {
  readonly #bars: readonly RepeatBar[];
  readonly #repeats: readonly Repeat[];
  readonly #routes: Routes;
  readonly #pass: Map<Repeat, number>;
  readonly #placeOf: ReadonlyMap<Repeat, number>;
  readonly #around = new Map<number, readonly Repeat[]>();
  readonly #endingAt: ReadonlyMap<number, { readonly repeat: Repeat; readonly ending: Ending }>;
  readonly #backAt: ReadonlyMap<number, readonly Repeat[]>;
  readonly #obeyed = new Set<number>();
  #jumped = false;

  constructor(bars: readonly RepeatBar[], repeats: readonly Repeat[], routes: Routes) {
    this.#bars = bars;
    this.#repeats = repeats;
    this.#routes = routes;
    this.#pass = new Map(repeats.map((repeat) => [repeat, 1]));
    this.#placeOf = new Map(repeats.map((repeat, index) => [repeat, index]));
    this.#endingAt = endingsByFirstBar(repeats);
    this.#backAt = repeatsByBack(repeats);
  }

  /** The bar that is played at `bar`: endings of other passes are left out. */
  enter(bar: number): number {
    let next = bar;
    let found = this.#endingAt.get(next);
    while (found !== undefined && !found.ending.numbers.includes(this.#pass.get(found.repeat)!)) {
      next = found.ending.last + 1;
      found = this.#endingAt.get(next);
    }
    return next;
  }

  /** Where play goes on after `bar`; past the last bar at the end. */
  leave(bar: number): number {
    const again = this.#backAt.get(bar)?.find((repeat) => this.#pass.get(repeat)! < repeat.times);
    if (again !== undefined) return this.#goBack(again);
    if (this.#jumped && this.#bars[bar]!.repeat.jumps.some((jump) => jump.kind === 'fine')) {
      return this.#bars.length;
    }
    const coda = this.#routes.toCoda.get(bar);
    if (this.#jumped && coda !== undefined && !this.#obeyed.has(bar)) {
      this.#obeyed.add(bar);
      return coda;
    }
    const target = this.#routes.back.get(bar);
    return target !== undefined && this.#mayJump(bar) ? this.#jumpBack(bar, target) : bar + 1;
  }

  /** Repeats inside the passage start anew; they stand right before it in the list. */
  #goBack(again: Repeat): number {
    this.#pass.set(again, this.#pass.get(again)! + 1);
    for (let index = this.#placeOf.get(again)! - 1; index >= 0; index -= 1) {
      const inner = this.#repeats[index]!;
      if (inner.start < again.start) break;
      this.#pass.set(inner, 1);
    }
    return again.start;
  }

  /** Repeats that were entered before a jump are not taken again after it. */
  #jumpBack(bar: number, target: number): number {
    this.#obeyed.add(bar);
    this.#jumped = true;
    for (const repeat of this.#repeats) if (repeat.start <= bar) this.#pass.set(repeat, repeat.times);
    return target;
  }

  /** A jump is obeyed once; inside a repeat on its last pass, or in an ending that does not go back. */
  #mayJump(bar: number): boolean {
    if (this.#obeyed.has(bar)) return false;
    return this.#repeatsAround(bar).every((repeat) => {
      if (this.#pass.get(repeat)! >= repeat.times) return true;
      const ending = repeat.endings.find((each) => bar >= each.first && bar <= each.last);
      return (
        ending !== undefined && !repeat.backs.some((back) => back >= ending.first && back <= ending.last)
      );
    });
  }

  #repeatsAround(bar: number): readonly Repeat[] {
    const known = this.#around.get(bar);
    const around = known ?? this.#repeats.filter((repeat) => bar >= repeat.start && bar <= repeat.last);
    if (known === undefined) this.#around.set(bar, around);
    return around;
  }
}

const endingsByFirstBar = (
  repeats: readonly Repeat[],
): ReadonlyMap<number, { readonly repeat: Repeat; readonly ending: Ending }> =>
  new Map(
    repeats.flatMap((repeat) => repeat.endings.map((ending) => [ending.first, { repeat, ending }] as const)),
  );

/** The repeats whose sign sends back at a bar's end, innermost first. */
const repeatsByBack = (repeats: readonly Repeat[]): ReadonlyMap<number, readonly Repeat[]> => {
  const byBar = new Map<number, Repeat[]>();
  for (const repeat of repeats) {
    for (const bar of repeat.backs) byBar.set(bar, [...(byBar.get(bar) ?? []), repeat]);
  }
  for (const [bar, list] of byBar) {
    byBar.set(
      bar,
      list.toSorted((a, b) => b.start - a.start),
    );
  }
  return byBar;
};
