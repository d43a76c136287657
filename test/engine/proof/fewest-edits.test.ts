import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Position } from '../../../engine/harp/setting.ts';
import type { Letter } from '../../../engine/music/pitch.ts';
import { compare, type Rational, toNumber } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import type { SourceMarking } from '../../../engine/score/model/markings.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { smallPart } from '../../part-builder.ts';
import { printPlan } from '../../printed-plan.ts';
import { cases } from '../../thorough.ts';
import { drawFrom, plantFaults } from './plant-faults.ts';

type Markings = readonly SourceMarking[];

/** The letters of these parts: one of each foot. */
const LETTERS: readonly Letter[] = ['C', 'F'];
const POSITIONS: readonly Position[] = [-1, 0, 1];

const said = (at: Rational, bar: number, positions: SourceMarking['positions']): SourceMarking => ({
  at,
  bar,
  span: { start: 0, end: 0 },
  form: 'words',
  positions,
  ahead: false,
  text: '',
});

const namesOf = ({ positions }: SourceMarking): [Letter, Position][] =>
  Object.entries(positions) as [Letter, Position][];

const named = (names: readonly (readonly [Letter, Position])[]): SourceMarking['positions'] =>
  Object.fromEntries(names);

/** All sets of names that one new marking can have. */
const NAMES: readonly (readonly [Letter, Position])[][] = [...POSITIONS, null].flatMap((c) =>
  [...POSITIONS, null].map((f) => [
    ...(c === null ? [] : [['C', c] as const]),
    ...(f === null ? [] : [['F', f] as const]),
  ]),
);

/** Every way to edit one marking, or to add one. */
const everyEdit = (part: Score, markings: Markings): readonly Markings[] => {
  const places = part.notes.map(({ onset, bar }) => ({ at: onset, bar }));
  const changed = markings.flatMap((marking, index): Markings[] => {
    const names = namesOf(marking);
    const withNames = (next: readonly (readonly [Letter, Position])[]): Markings =>
      markings.with(index, { ...marking, positions: named(next) });
    const moved = [names, ...(names.length > 1 ? names.map((name) => [name]) : [])].flatMap((taken) =>
      places
        .filter(({ bar }) => Math.abs(bar - marking.bar) <= 4)
        .map(({ at, bar }) => [
          ...withNames(names.filter((name) => !taken.includes(name))),
          said(at, bar, named(taken)),
        ]),
    );
    return [
      markings.toSpliced(index, 1),
      ...names.map((name) => withNames(names.filter((each) => each !== name))),
      ...names.flatMap(([letter]) =>
        POSITIONS.map((position) =>
          withNames(names.map((each) => (each[0] === letter ? [letter, position] : each))),
        ),
      ),
      ...names.flatMap(([letter, position]) =>
        LETTERS.filter((to) => marking.positions[to] === undefined).map((to) =>
          withNames(names.map((each) => (each[0] === letter ? [to, position] : each))),
        ),
      ),
      ...moved,
    ];
  });
  const added = places.flatMap(({ at, bar }) =>
    NAMES.map((names) => [...markings, said(at, bar, named(names))]),
  );
  return [...changed, ...added];
};

/** Whether every note finds its pedal, and no two markings of one place disagree. */
const isFaultless = (part: Score, markings: Markings): boolean => {
  const ordered = markings.toSorted((a, b) => compare(a.at, b.at));
  const places = new Map<string, Position>();
  for (const { at, positions } of ordered) {
    for (const [letter, position] of Object.entries(positions)) {
      const key = `${letter} ${toNumber(at)}`;
      if ((places.get(key) ?? position) !== position) return false;
      places.set(key, position);
    }
  }
  const stands = new Map<string, Position>();
  return part.playOrder.every((bar) => {
    const here = ordered.filter((marking) => marking.bar === bar);
    const read = (until: Rational | null): void => {
      while (here.length > 0 && (until === null || compare(here[0]!.at, until) <= 0))
        for (const [name, position] of namesOf(here.shift()!)) stands.set(name, position);
    };
    const isServed = part.notes
      .filter((note) => note.bar === bar)
      .every(({ onset, pitch: { letter, alter } }) => {
        read(onset);
        return stands.get(letter) === alter;
      });
    read(null);
    return isServed;
  });
};

/** Whether fewer edits than so many would do, tried one after the other. */
const wouldFewerDo = (part: Score, markings: Markings, edits: number): boolean => {
  if (edits === 0) return false;
  if (isFaultless(part, markings)) return true;
  return edits > 1 && everyEdit(part, markings).some((next) => wouldFewerDo(part, next, edits - 1));
};

const pitch = fc.constantFrom('C4', 'C#4', 'F4', 'F#4', 'Fb4');
const bars = fc.array(fc.array(pitch, { minLength: 1, maxLength: 2 }), { minLength: 2, maxLength: 4 });

/** A slow part of two pedals, its bars played twice or once. */
const partOf = (notes: readonly (readonly string[])[], isRepeated: boolean): Score => {
  const order = notes.map((_, bar) => bar);
  return smallPart({
    upper: notes.map((bar) => bar.map((each) => `${each}/${4 / bar.length}`).join(' ')).join(' | '),
    quartersPerMinute: 20,
    playOrder: isRepeated ? [...order, ...order] : order,
  });
};

/** The first setting as words for the two pedals alone, so that its entries can be edited like any others. */
const inWords = (markings: Markings): Markings =>
  markings.map((marking) => ({
    ...marking,
    positions: named(namesOf(marking).filter(([letter]) => LETTERS.includes(letter))),
  }));

describe('a repair', () => {
  it('has the fewest edits of all where it says so, and nearly always where it does not', () => {
    const counts = { proven: 0, repairs: 0, notFewest: 0 };
    fc.assert(
      fc.property(
        bars,
        fc.boolean(),
        fc.integer({ min: 1, max: 3 }),
        fc.nat(1_000_000),
        (notes, again, count, seed) => {
          const part = partOf(notes, again);
          const plan = planPedals(part);
          const { markings } = plantFaults(part, inWords(printPlan(part, plan)), count, drawFrom(seed));
          const { repair } = proofreadScore({ ...part, markings }, undefined, () => plan);
          if (repair.faultsLeft > 0 || repair.edits.length === 0) return;
          const isFewest = !wouldFewerDo(part, markings, repair.edits.length);
          counts.repairs += 1;
          counts.proven += repair.proven ? 1 : 0;
          counts.notFewest += isFewest ? 0 : 1;
          expect(isFewest || !repair.proven).toBe(true);
        },
      ),
      { numRuns: cases(60) },
    );
    expect(counts.notFewest).toBeLessThanOrEqual(counts.repairs / 50);
    expect(counts.proven).toBeGreaterThan(counts.repairs / 3);
  });
});
