import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareHarps, DEFAULT_COMPARE_OPTIONS } from '../../../engine/compare/compare.ts';
import { type OpenTuning, retunedLetters } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { POSITIONS, settingFrom } from '../../../engine/harp/setting.ts';
import type { TuningChoice } from '../../../engine/levers/catalogue.ts';
import { prepareLevers } from '../../../engine/levers/context.ts';
import { slotOf } from '../../../engine/levers/course/slots.ts';
import { boundTroubles, solveLevers } from '../../../engine/levers/course/solve.ts';
import type { LeverPlan } from '../../../engine/levers/model.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { buildLeverProblem } from '../../../engine/levers/problem.ts';
import { chooseTuning } from '../../../engine/levers/tuning/choose-tuning.ts';
import {
  compareTunings,
  costTuning,
  keyTunings,
  nearTunings,
  type Rank,
} from '../../../engine/levers/tuning/tunings.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { smallPart } from '../../part-builder.ts';
import { cases } from '../../thorough.ts';

const optionsWith = (tuning: TuningChoice) => ({ ...DEFAULT_LEVER_OPTIONS, tuning });

const stops = ({ findings }: LeverPlan): string[] =>
  findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code);

/** F sharp, F natural and F sharp again in eighths of both hands: no hand has time for the F lever. */
const BUSY = smallPart({
  upper:
    'A4/1:2 D5/1:2 F#4/1:2 A4/1:2 D5/1:2 F#4/1:2 A4/1:2 D5/1:2 | F4/1:2 A4/1:2 D5/1:2 F4/1:2 A4/1:2 D5/1:2 F#4/1:2 A4/1:2',
  lower:
    'D3/1:2 A3/1:2 D3/1:2 A3/1:2 D3/1:2 A3/1:2 D3/1:2 A3/1:2 | D3/1:2 A3/1:2 D3/1:2 A3/1:2 D3/1:2 A3/1:2 D3/1:2 A3/1:2',
  quartersPerMinute: 160,
});

describe('a tuning in which no hand has time for a change', () => {
  it.each(['sparing', 'best-key', 'best'] as const)('gives way to one without stops, with %s', (choice) => {
    const plan = planLevers(BUSY, optionsWith(choice));
    expect(stops(plan)).toEqual([]);
    expect(plan.summary.playable).toBe(true);
    expect(plan.tunings[0]!.name).not.toBe('E♭ major');
  });

  it('stays where the user named it, and the finding names a tuning in which every change has time', () => {
    const plan = planLevers(BUSY, optionsWith(LEVER_HARP.tuning));
    expect(plan.tunings[0]!.name).toBe('E♭ major');
    expect(stops(plan)).toContain('no-free-hand');
    // Nothing tells that a hand is away which has no time to be.
    expect(plan.moves.map(({ handAway }) => handAway)).toContain(null);
    for (const { code, suggestions } of plan.findings) {
      if (code === 'no-free-hand')
        expect(suggestions[0]).toBe('Tune to C D E F G A♭ B♭ instead: then no lever changes.');
    }
    // One letter to retune, where a key signature would ask for five.
    expect(plan.tunings[1]!.name).toBe('C D E F G A♭ B♭');
    const other = planLevers(BUSY, optionsWith(plan.tunings[1]!.tuning));
    // Both say how much is not playable in them; of those that could be no better it is not known.
    const failing = plan.findings.filter(({ severity }) => severity === 'stop');
    const places = failing.reduce((sum, finding) => sum + finding.places.length, 0);
    expect(plan.tunings.slice(0, 2).map((each) => each.stops)).toEqual([places, 0]);
    expect(stops(other)).toEqual([]);
    expect(other.moves).toEqual([]);
  });

  it('stays where none is better, and then no other is named', () => {
    const run = 'F4/1:2 F#4/1:2 G4/1:2 Ab4/1:2 A4/1:2 Bb4/1:2 B4/1:2 C5/1:2';
    const score = smallPart({ upper: run, lower: run.replaceAll('4/', '2/').replaceAll('5/', '3/') });
    const plan = planLevers(score, optionsWith(LEVER_HARP.tuning));
    expect(stops(plan).length).toBeGreaterThan(0);
    expect(plan.findings.flatMap(({ suggestions }) => suggestions).join(' ')).not.toContain('Tune in');
  });

  it('gives way in the comparison of the harps too', () => {
    const { lever } = compareHarps(BUSY, { ...DEFAULT_COMPARE_OPTIONS, maxSemitones: 0 });
    const plan = planLevers(BUSY);
    expect(lever).toMatchObject({ playable: true, stops: 0, tuning: plan.tunings[0]!.name });
  });
});

const CHROMATIC = ['F4', 'F#4', 'G4', 'G#4', 'A4', 'Bb4', 'B4', 'C5', 'C#5', 'D5', 'Eb5', 'E5'];
const ONE_CROSS_RELATION = ['F4', 'F#4', 'A4', 'D5', 'G4'];

/** Quick music that leaves the hands little time. */
const hurriedPart = fc
  .record({
    notes: fc
      .constantFrom(CHROMATIC, ONE_CROSS_RELATION)
      .chain((names) => fc.array(fc.constantFrom(...names), { minLength: 12, maxLength: 12 })),
    bass: fc.array(fc.constantFrom('r/1', 'D3/1', 'A2/1', 'A3/1:2 D3/1:2', 'r/1:2 D3/1:2'), {
      minLength: 12,
      maxLength: 12,
    }),
    order: fc.constantFrom([0, 1, 2], [0, 1, 0, 1, 2]),
    quartersPerMinute: fc.constantFrom(90, 130, 170),
  })
  .map(({ notes, bass, order, quartersPerMinute }): Score => {
    const barred = (each: readonly string[]): string =>
      [0, 4, 8].map((from) => each.slice(from, from + 4).join(' ')).join(' | ');
    return smallPart({
      upper: barred(notes.map((name) => `${name}/1`)),
      lower: barred(bass),
      playOrder: order,
      quartersPerMinute,
    });
  });

const solveEveryTuning = (score: Score, choice: 'sparing' | 'best-key') => {
  const stage = prepareLevers(score, optionsWith(choice));
  const { weights } = stage;
  const { profile } = stage.options;
  const retuning = ({ tuning, respelled }: Rank): number =>
    choice === 'best-key'
      ? 0
      : weights.retunedLetter * retunedLetters(profile.tuning, tuning).length +
        weights.neighbourNote * respelled;
  const better = compareTunings(weights, retuning);
  return [...keyTunings(stage), ...(choice === 'sparing' ? nearTunings(stage) : [])]
    .map((tuning) => {
      const problem = buildLeverProblem(stage, tuning);
      const cost = costTuning(stage, problem);
      const solution = solveLevers(stage, problem);
      const late = solution.changes.filter(
        ({ manner }) => manner === 'no-free-hand' || manner === 'too-soon',
      ).length;
      const bent = solution.changes.filter(({ string, moment, hand, onlyAt }) =>
        solution.prices
          .termsAt(string, slotOf(moment, hand), onlyAt)
          .some(({ name }) => name === 'stringSounding'),
      ).length;
      return {
        cost,
        late,
        bent,
        stops: cost.missingNotes + late,
        price: weights.change * solution.changes.length + weights.bentString * bent + retuning(cost),
        least: boundTroubles(stage, problem),
      };
    })
    .sort((a, b) => better(a.cost, b.cost));
};

describe('the chosen tuning', () => {
  it.each([
    { choice: 'sparing', oftenMoved: 3 },
    // Seldom: where changes lack time, the key with the fewest changes mostly has the fewest of those too.
    { choice: 'best-key', oftenMoved: 0 },
  ] as const)(
    'is the one that solving every one finds: the first that leaves no note, no change late and none bent, else the fewest stops at the least price ($choice)',
    ({ choice, oftenMoved }) => {
      let moved = 0;
      fc.assert(
        fc.property(hurriedPart, (score) => {
          const all = solveEveryTuning(score, choice);
          const first = all[0]!;
          const wanted =
            first.late === 0 && first.bent === 0
              ? first
              : all.toSorted((a, b) => a.stops - b.stops || a.price - b.price)[0]!;
          const { chosen } = chooseTuning(prepareLevers(score, optionsWith(choice)));
          expect([chosen.stops, chosen.price]).toEqual([wanted.stops, wanted.price]);
          if (wanted !== first) moved += 1;
        }),
        { numRuns: 12 },
      );

      expect(moved).toBeGreaterThanOrEqual(oftenMoved);
    },
  );

  it('is told with as many levers up at the start as its plan sets', () => {
    fc.assert(
      fc.property(hurriedPart, (score) => {
        const { tunings, summary, initial } = planLevers(score);
        expect([tunings[0]!.leversUp, summary.leversUp]).toEqual([initial.length, initial.length]);
      }),
      { numRuns: 12 },
    );
  });

  it('leaves no fewer changes without time or on sounding strings than are counted lever by lever', () => {
    fc.assert(
      fc.property(hurriedPart, (score) => {
        for (const { late, bent, least } of solveEveryTuning(score, 'best-key')) {
          expect(least.changesWithoutTime).toBeLessThanOrEqual(late);
          expect(least.bentStrings).toBeLessThanOrEqual(bent);
        }
      }),
      { numRuns: cases(20) },
    );
  });
});

const anyTuning = fc
  .array(fc.constantFrom(...POSITIONS), { minLength: LETTERS.length, maxLength: LETTERS.length })
  .map(
    (alters): OpenTuning => ({
      letters: settingFrom((letter) => alters[LETTERS.indexOf(letter)]!),
      exceptions: [],
    }),
  );

describe('a tuning that is advised for notes without a string', () => {
  it('leaves what the advice says and less that cannot be played, where a player takes it', () => {
    let advised = 0;
    let kept = 0;
    fc.assert(
      fc.property(hurriedPart, anyTuning, (score, named) => {
        const before = planLevers(score, optionsWith(named));
        const { stops: stopsBefore } = chooseTuning(prepareLevers(score, optionsWith(named))).chosen;
        for (const { code, help } of before.findings) {
          if (code !== 'no-string-in-tuning') continue;
          const advice = help.find(({ kind }) => kind === 'tune-to-play');
          if (advice?.kind !== 'tune-to-play') {
            kept += 1;
            continue;
          }
          const { tuning, missingNotes, changes, withoutTime } = advice.facts;
          const after = chooseTuning(prepareLevers(score, optionsWith(tuning))).chosen;
          advised += 1;
          expect(after.cost.missingNotes).toBe(missingNotes);
          expect(after.solution.changes.length).toBe(changes);
          expect(after.stops).toBe(missingNotes + withoutTime);
          expect(after.stops).toBeLessThan(stopsBefore);
        }
      }),
      { numRuns: 25 },
    );
    expect(advised).toBeGreaterThan(3);
    expect(kept).toBeGreaterThan(0);
  });
});

describe('the best of all tunings', () => {
  it('stops the player no more often than the best key, and is the same every time', () => {
    fc.assert(
      fc.property(hurriedPart, (score) => {
        const of = (choice: TuningChoice) => chooseTuning(prepareLevers(score, optionsWith(choice))).chosen;
        const best = of('best');
        const least = Math.min(...solveEveryTuning(score, 'best-key').map(({ stops: each }) => each));
        expect(best.stops).toBeLessThanOrEqual(least);
        expect(of('best').cost).toEqual(best.cost);
      }),
      { numRuns: 8 },
    );
  });
});

/** C flat on the lowest string, then D and C sharp, again and again, with time for a hand between them. */
const LOW_C_FLAT = smallPart({
  upper: ['r/4', ...Array.from({ length: 12 }, () => 'D4/1 r/1 C#4/1 r/1')].join(' | '),
  lower: ['Cb2/4', ...Array.from({ length: 12 }, () => 'r/4')].join(' | '),
});

describe('a note that only a tuning with many changes gives', () => {
  it.each(['sparing', 'best-key'] as const)('has that tuning, with %s', (choice) => {
    const all = solveEveryTuning(LOW_C_FLAT, choice);
    const inEFlat = all.find(({ cost }) => cost.name === 'E♭ major')!;
    expect([inEFlat.stops, inEFlat.cost.changes]).toEqual([1, 0]);
    const complete = all.filter((each) => each.stops === 0).map(({ cost }) => cost.name);
    expect(complete).toEqual(['G♭ major', 'C♭ major']);
    const { chosen } = chooseTuning(prepareLevers(LOW_C_FLAT, optionsWith(choice)));
    expect([chosen.cost.name, chosen.stops, chosen.solution.changes.length]).toEqual(['G♭ major', 0, 23]);
  });
});

describe('a note for which the harp has no string', () => {
  const LOW = 'C4/1 E4/1 A4/1 B4/1';

  it.each(['sparing', 'best-key', 'best'] as const)(
    'changes no tuning of other letters, with %s',
    (choice) => {
      const plain = planLevers(smallPart({ upper: LOW }), optionsWith(choice));
      const high = planLevers(smallPart({ upper: `${LOW} | D7/4` }), optionsWith(choice));
      expect(high.tuning).toEqual(plain.tuning);
      expect(high.findings.map(({ code }) => code)).toContain('out-of-range');
    },
  );

  it('is counted as missing in every tuning that is listed', () => {
    const { tunings } = planLevers(smallPart({ upper: `${LOW} | G7/4` }), optionsWith('sparing'));
    expect(tunings.map(({ missingNotes }) => missingNotes > 0)).toEqual(tunings.map(() => true));
  });
});

describe('the search for a tuning', () => {
  it('says so where it tried all that may be better', () => {
    expect(planLevers(BUSY).summary.allTuningsTried).toBe(true);
  });

  it('says so where too many changes end it', () => {
    const run = 'C4/1:2 C#4/1:2 D4/1:2 D#4/1:2 E4/1:2 F4/1:2 F#4/1:2 G4/1:2';
    const bars = Array.from({ length: 40 }, () => run).join(' | ');
    const { summary } = planLevers(smallPart({ upper: bars, lower: bars.replaceAll('4/', '2/') }));
    expect(summary.changes).toBeGreaterThan(250);
    expect(summary.allTuningsTried).toBe(false);
  });
});
