import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LEVER_FINDINGS } from '../../../engine/findings/catalogue/levers.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import {
  findHurriedStretches,
  type MoveAt,
  UNHURRIED_FEET,
  unhurriedPercent,
} from '../../../engine/time/hurried-stretches.ts';
import { smallPart } from '../../part-builder.ts';
import '../../property-seed.ts';

const at = (side: 'left' | 'right', ...seconds: readonly number[]): readonly MoveAt[] =>
  seconds.map((each) => ({ side, seconds: each }));

const inOrder = (...moves: readonly (readonly MoveAt[])[]): readonly MoveAt[] =>
  moves.flat().toSorted((a, b) => a.seconds - b.seconds);

describe('feet are hurried', () => {
  it('not by a whole new setting in five seconds: three pedals on the left, four on the right', () => {
    expect(
      findHurriedStretches(inOrder(at('left', 0, 2, 4), at('right', 0, 1, 3, 5)), UNHURRIED_FEET),
    ).toEqual([]);
  });

  it('by one move more', () => {
    const moves = inOrder(at('left', 0, 1.5, 3, 4), at('right', 0, 1, 3, 5));
    expect(findHurriedStretches(moves, UNHURRIED_FEET)).toEqual([[0, 7]]);
  });

  it('by more than one move a second of one foot, not by one a second', () => {
    expect(findHurriedStretches(at('left', 0, 1.1, 2.2, 3.3, 4.4, 5.5, 6.6), UNHURRIED_FEET)).toEqual([]);
    expect(findHurriedStretches(at('left', 0, 1, 2, 3, 4, 5), UNHURRIED_FEET)).toEqual([[0, 5]]);
  });

  const movesWithin = (halfSeconds: number) =>
    fc
      .array(
        fc.record({
          side: fc.constantFrom('left' as const, 'right' as const),
          seconds: fc.integer({ min: 0, max: halfSeconds }).map((each) => each / 2),
        }),
        { maxLength: 40 },
      )
      .map((moves) => moves.toSorted((a, b) => a.seconds - b.seconds));

  it('exactly where some five seconds hold too many, tried one by one', () => {
    fc.assert(
      fc.property(movesWithin(40), (moves) => {
        const told = new Set(
          findHurriedStretches(moves, UNHURRIED_FEET).flatMap(([first, last]) =>
            Array.from({ length: last - first + 1 }, (_, i) => first + i),
          ),
        );
        const hurried = new Set<number>();
        moves.forEach((start) => {
          const inside = moves.flatMap(({ side, seconds }, i) =>
            seconds >= start.seconds && seconds <= start.seconds + 5 ? [{ side, i }] : [],
          );
          const left = inside.filter(({ side }) => side === 'left').length;
          if (inside.length <= 7 && left <= 5 && inside.length - left <= 5) return;
          for (const { i } of inside) hurried.add(i);
        });
        expect([...told].sort((a, b) => a - b)).toEqual([...hurried].sort((a, b) => a - b));
      }),
    );
  });

  it('no more at the percentage of the tempo that is told, and still at one per cent more', () => {
    fc.assert(
      fc.property(movesWithin(16), (moves) => {
        const hurriedAt = (percent: number): number =>
          findHurriedStretches(
            moves.map(({ side, seconds }) => ({ side, seconds: (seconds * 100) / percent })),
            UNHURRIED_FEET,
          ).length;
        fc.pre(hurriedAt(100) > 0);
        const percent = unhurriedPercent(moves, UNHURRIED_FEET);
        if (percent !== null) expect(hurriedAt(percent)).toBe(0);
        expect(hurriedAt((percent ?? 24) + 1)).toBeGreaterThan(0);
      }),
    );
  });
});

describe('a passage of many moves at a walking tempo', () => {
  const bar = 'C4+E4+D4+F4/1 C#4+E4/1 D#4+F#4/1 C4+E4/1';
  const next = 'D4+F4/1 C#4+F#4/1 D#4+F4/1 C4+F#4/1';
  const { findings, summary } = planPedals(
    smallPart({ upper: `${bar} | ${next} | ${bar} | ${next}`, quartersPerMinute: 72 }),
  );

  it('is told, with its extent and every move, though each move alone has time', () => {
    const found = findings.filter(({ code }) => code === 'feet-hurried-passage');
    expect(found).toHaveLength(1);
    expect(found[0]!.severity).toBe('warn');
    expect(found[0]!.places.length).toBeGreaterThan(7);
    expect(found[0]!.sentence).toMatch(
      /^The feet have to hurry: \d+ moves in \d+\.\d s, \d+ of the left foot/,
    );
    expect(found[0]!.places.at(-1)!.bar).toBeGreaterThan(found[0]!.bar);
    expect(found[0]!.places[1]!.sentence).toMatch(/^[A-G][♭♮♯], (left|right) foot\.$/);
  });

  it('tells the tempo at which there is time for its moves, and planned at that tempo there is', () => {
    const [, percent] = /At (\d+)% of the tempo these moves are not hurried/.exec(
      findings.find(({ code }) => code === 'feet-hurried-passage')!.suggestions.join(' '),
    )!;
    const slower = planPedals(
      smallPart({
        upper: `${bar} | ${next} | ${bar} | ${next}`,
        quartersPerMinute: (72 * Number(percent)) / 100,
      }),
    );
    expect(slower.findings.filter(({ code }) => code === 'feet-hurried-passage')).toEqual([]);
  });

  it('has no move of a rest of several bars before it, for which the player has all of the rest', () => {
    const score = smallPart({
      upper: `C#4+E#4/4 | r/4 | r/4 | ${bar} | ${next} | ${bar} | ${next}`,
      quartersPerMinute: 72,
    });
    const { moves, findings: found } = planPedals(score);
    expect(moves.some((move) => move.bar === 2)).toBe(true);
    expect(found.find(({ code }) => code === 'feet-hurried-passage')!.bar).toBe(3);
  });

  it('does not go on from one ending into the next, which is never played after it', () => {
    const played = (playOrder: readonly number[]) =>
      planPedals(
        smallPart({ upper: `r/4 | ${bar} | ${next} | r/4`, quartersPerMinute: 72, playOrder }),
      ).findings.filter(({ code }) => code === 'feet-hurried-passage');
    expect(played([0, 1, 2, 3])).toHaveLength(1);
    expect(played([0, 1, 0, 2, 3])).toEqual([]);
  });

  it('is playable, but hard, and says so', () => {
    expect(summary.playable).toBe(true);
    expect(['hard', 'very-hard']).toContain(summary.difficulty.grade);
    expect(summary.difficulty.reasons.join(' ')).toMatch(/pedal moves in ten seconds/);
  });
});

describe('the moves of a hurried passage', () => {
  it('are told by sides, and of one side alone where it makes all', () => {
    const tell = (left: number, right: number) =>
      LEVER_FINDINGS['hands-hurried-passage'].sentence({ moves: left + right, seconds: 4, left, right });
    expect(tell(3, 2)).toMatch(/, 3 of the left hand and 2 of the right\.$/);
    expect([tell(5, 0), tell(0, 5)]).toEqual([
      expect.stringMatching(/, all of the left hand\.$/),
      expect.stringMatching(/, all of the right hand\.$/),
    ]);
  });
});
