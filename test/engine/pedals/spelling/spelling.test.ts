import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatSetting } from '../../../../engine/harp/setting.ts';
import { LETTERS, type Letter, midiOf, type Pitch, pitchName } from '../../../../engine/music/pitch.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../../engine/pedals/options.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import {
  chooseSpelling,
  programmePrices,
  type SpellingChoice,
} from '../../../../engine/pedals/spelling/spelling.ts';
import { DEFAULT_WEIGHTS } from '../../../../engine/pedals/weights.ts';
import { otherStrings } from '../../../../engine/sounding/needs.ts';
import { type SmallPart, smallPart } from '../../../part-builder.ts';
import { cases } from '../../../thorough.ts';

const freely = (part: SmallPart) =>
  planPedals(smallPart(part), { ...DEFAULT_PLAN_OPTIONS, spelling: 'free' });
const suggested = (part: SmallPart) =>
  planPedals(smallPart(part), { ...DEFAULT_PLAN_OPTIONS, spelling: 'suggest' });

const NATURALS = LETTERS.map((letter): Pitch => ({ letter, alter: 0, octave: 4 }));
const ALL_PITCHES = NATURALS.flatMap((pitch) => [-1, 0, 1].map((alter) => ({ ...pitch, alter })));

describe('strings of one pitch', () => {
  // Shared facts, ct-homonyms; H. Berlioz names the three after the Parish Alvars passage (from memory).
  it('D, G and A natural have no second string, every other pitch class has one', () => {
    const without = ALL_PITCHES.filter((pitch) => otherStrings(pitch).length === 0).map(pitchName);
    expect(without.sort()).toEqual(['A4', 'D4', 'G4']);
    for (const pitch of ALL_PITCHES) {
      for (const other of otherStrings(pitch)) expect(midiOf(other)).toBe(midiOf(pitch));
      expect(otherStrings(pitch).length).toBeLessThanOrEqual(1);
    }
  });
});

describe('free spelling', () => {
  // S. Canton and M. Overlach, Composing for Harp, sheet “Pedals”.
  it('C, C sharp and D sound together as B sharp, C sharp and D', () => {
    const plan = freely({ upper: 'C4+C#4+D4/4' });
    expect(plan.findings.filter((f) => f.severity === 'stop')).toEqual([]);
    expect(formatSetting(plan.initial)).toMatch(/D♮ C♯ B♯|D♮ C♮/);
  });

  // H. Berlioz, Traité d'instrumentation (1844/1855), La Harpe: that chord lies on the strings C, F flat, G and B.
  it('D double flat, F flat, A double flat and C flat lie on C, F flat, G and B', () => {
    const { summary, initial } = freely({ upper: 'Dbb4+Fb4+Abb4+Cb5/4' });
    expect(summary.playable).toBe(true);
    expect(formatSetting(initial)).toMatch(/C♮ B♮ \| E. F♭ G♮/);
  });

  it('G, G sharp and A never sound together', () => {
    expect(freely({ upper: 'G4+G#4+A4/4' }).summary.playable).toBe(false);
  });

  it('a chromatic turn is served by two strings and no move', () => {
    const moving = { upper: 'D4/1 Db4/1 D4/1 Db4/1 | C4/1 E4/1 F4/1 G4/1', quartersPerMinute: 60 };
    expect(freely(moving).moves.length).toBeLessThan(planPedals(smallPart(moving)).moves.length);
  });

  it('saves moves only where respelling is cheaper than moving', () => {
    const part = { upper: 'F#4/1 r/1 G4/1 r/1 | F4/1 r/1 E4/1 r/1 | F#4/1 r/3' };
    const plan = freely(part);
    expect(plan.summary.moves).toBeLessThan(planPedals(smallPart(part)).summary.moves);
    for (const { from, to } of plan.respellings) expect(midiOf(from)).toBe(midiOf(to));
  });

  it('never takes a string that sounds or is needed at the same time', () => {
    const part = { upper: 'C#4+D4/2 C4/2 | C#4+D4/4' };
    for (const { to } of freely(part).respellings) expect(pitchName(to)).not.toBe('D♭4');
  });
});

describe('a fix by respelling', () => {
  const fixesOf = (upper: string) =>
    planPedals(smallPart({ upper, quartersPerMinute: 240 }))
      .findings.filter(({ severity }) => severity === 'stop')
      .flatMap(({ fixes }) => fixes);

  it('names every note that goes with it, and comes before leaving a note out', () => {
    expect(fixesOf('D4+D#4+E4/4').map(({ sentence }) => sentence)).toEqual([
      'Write E♭4 for the D♯4 in bar 1. Write F♭4 for the E4 in bar 1.',
      'Leave out the D♯4 in bar 1.',
    ]);
  });

  it('is found for runs in which more than three notes go together', () => {
    const [fix] = fixesOf('A4/1:4 A#4/1:4 B4/1:4 A#4/1:4 A4/1:4 A#4/1:4 B4/1:2 r/2');
    expect(fix!.changes.map(({ kind }) => kind)).toEqual(Array(5).fill('respell'));
  });
});

describe('suggested spelling', () => {
  it('says what each respelling would save, and leaves the notes as written', () => {
    const plan = suggested({ upper: 'D4/1 Db4/1 D4/1 Db4/1 | D4/1 Db4/1 D4/1 r/1' });
    expect(plan.respellings).toEqual([]);
    expect(plan.suggestions[0]).toMatchObject({
      from: { letter: 'D', alter: -1 },
      to: { letter: 'C', alter: 1 },
    });
    expect(plan.suggestions[0]!.savesMoves).toBeGreaterThan(0);
  });

  it.each([
    ['D4/1:4 D#4/1:4 E4/1:4 D#4/1:4 D4/1:4 D#4/1:4 E4/1:2 r/2', 'D♯4 as E♭4 (3), E4 as F♭4 (2)'],
    ['A4/1:4 A#4/1:4 B4/1:4 A#4/1:4 A4/1:4 A#4/1:4 B4/1:2 r/2', 'A♯4 as B♭4 (3), B4 as C♭5 (2)'],
    ['D4+D#4+E4/4', 'D♯4 as E♭4 (1), E4 as F♭4 (1)'],
  ])('respells notes together that make room for each other: %s', (upper, told) => {
    const [suggestion] = suggested({ upper, quartersPerMinute: 100 }).suggestions;
    const runs = [suggestion!, ...suggestion!.alongside].map(
      ({ from, to, notes }) => `${pitchName(from)} as ${pitchName(to)} (${notes.length})`,
    );
    expect(runs.join(', ')).toBe(told);
    expect(suggestion!.fixesPlaces).toBe(1);
  });

  it('gives each note of a run the string of its own octave', () => {
    const score = smallPart({ upper: 'D4/1 Db4/1 D5/1 Db5/1 | D4/1 Db6/1 D4/1 r/1' });
    const [suggestion] = suggested({ upper: 'D4/1 Db4/1 D5/1 Db5/1 | D4/1 Db6/1 D4/1 r/1' }).suggestions;
    expect(suggestion!.changes.map(({ note }) => note)).toEqual(suggestion!.notes);
    const told = suggestion!.changes.map((change) => [
      pitchName(change.from),
      change.kind === 'respell' ? pitchName(change.to) : null,
    ]);
    expect(told).toEqual([
      ['D♭4', 'C♯4'],
      ['D♭5', 'C♯5'],
      ['D♭6', 'C♯6'],
    ]);
    for (const { note, from } of suggestion!.changes) {
      expect(score.notes.find(({ id }) => id === note)!.pitch).toEqual(from);
    }
  });

  it('has nothing to say of a part that needs no moves', () => {
    expect(suggested({ upper: 'C4/1 D4/1 E4/1 F4/1' }).suggestions).toEqual([]);
  });
});

const PRICES = programmePrices(DEFAULT_WEIGHTS);

/** The cheapest spelling and course of settings by trying: a shortest path over all settings of a few pedals. */
const cheapestByTrying = (choices: readonly SpellingChoice[], seconds: readonly number[]): number => {
  const letters = [...new Set(choices.flatMap((choice) => choice.strings.map((s) => s.letter)))];
  const stands = letters.reduce<Record<string, number>[]>(
    (all, letter) => all.flatMap((stand) => [-1, 0, 1].map((position) => ({ ...stand, [letter]: position }))),
    [{}],
  );
  const noteCost = (stand: Record<string, number>, moment: number): number =>
    choices
      .filter((choice) => choice.moment === moment)
      .reduce((sum, { strings }) => {
        const found = strings.findIndex((s) => stand[s.letter] === s.alter);
        return sum + (found < 0 ? PRICES.unmet : found === 0 ? 0 : PRICES.respelling);
      }, 0);
  const left = (letter: string): boolean => 'DCB'.includes(letter);
  interface State {
    stand: Record<string, number>;
    left: number;
    right: number;
    cost: number;
  }
  let states: State[] = stands.map((stand) => ({ stand, left: -1e9, right: -1e9, cost: noteCost(stand, 0) }));
  for (let moment = 1; moment < seconds.length; moment += 1) {
    const next = new Map<string, State>();
    for (const state of states) {
      for (const stand of stands) {
        const moved = letters.filter((letter) => stand[letter] !== state.stand[letter]);
        const lefts = moved.filter(left).length;
        const rights = moved.length - lefts;
        const rested = (since: number): boolean =>
          seconds[moment]! - since >= DEFAULT_WEIGHTS.footRestSeconds - 1e-6;
        if (lefts > 1 || rights > 1) continue;
        if ((lefts === 1 && !rested(state.left)) || (rights === 1 && !rested(state.right))) continue;
        const reached = {
          stand,
          left: lefts === 1 ? seconds[moment]! : state.left,
          right: rights === 1 ? seconds[moment]! : state.right,
          cost: state.cost + moved.length * DEFAULT_WEIGHTS.move + noteCost(stand, moment),
        };
        const key = JSON.stringify([stand, reached.left, reached.right]);
        const known = next.get(key);
        if (known === undefined || reached.cost < known.cost) next.set(key, reached);
      }
    }
    states = [...next.values()];
  }
  return Math.min(...states.map((state) => state.cost));
};

/** What a choice of strings costs at the least, each note bound to its chosen string. */
const costOfChosen = (
  choices: readonly SpellingChoice[],
  chosen: readonly number[],
  seconds: readonly number[],
): number =>
  cheapestByTrying(
    choices.map((choice, i) => ({
      ...choice,
      strings: chosen[i]! < 0 ? choice.strings : [choice.strings[chosen[i]!]!],
    })),
    seconds,
  ) +
  chosen.filter((index) => index > 0).length * DEFAULT_WEIGHTS.respelling;

describe('the programme over the 2,187 settings', () => {
  it('finds what trying every course of settings finds', () => {
    const pitch = fc.constantFrom<Pitch>(
      ...(['C', 'D', 'E', 'F'] as Letter[]).flatMap((letter) =>
        [-1, 0, 1].map((alter) => ({ letter, alter, octave: 4 })),
      ),
    );
    const inReach = (pitches: readonly Pitch[]): Pitch[] =>
      pitches.filter(({ letter }) => ['C', 'D', 'E', 'F'].includes(letter));
    fc.assert(
      fc.property(
        fc.array(fc.array(pitch, { maxLength: 2 }), { minLength: 1, maxLength: 5 }),
        fc.array(fc.constantFrom(0.1, 0.2, 0.5), { minLength: 5, maxLength: 5 }),
        (notes, gaps) => {
          let clock = 0;
          const seconds = notes.map((_, i) => (clock += gaps[i]!));
          const choices = notes.flatMap((chord, moment) =>
            chord.map((written) => ({
              moment,
              written,
              strings: [written, ...inReach(otherStrings(written))],
            })),
          );
          const chosen = chooseSpelling(
            choices,
            seconds.map((each) => ({ seconds: each })),
            DEFAULT_WEIGHTS,
          );
          expect(costOfChosen(choices, chosen.strings, seconds)).toBe(cheapestByTrying(choices, seconds));
        },
      ),
      { numRuns: cases(25) },
    );
  }, 60_000);
});
