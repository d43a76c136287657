import { describe, expect, it } from 'vitest';
import { judgeAttempt } from '../../../engine/attempt/judge-attempt.ts';
import type { JudgedChange, StatedPedal } from '../../../engine/attempt/model.ts';
import { formatChange } from '../../../engine/harp/setting.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { add, equals, rational } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { formatBeat } from '../../../engine/words/format-beat.ts';
import { demoScore } from '../../demo-score.ts';
import { markedPart, NATURALS } from '../../marked-part.ts';
import { printPlan } from '../../printed-plan.ts';

/** Bars of a C and its neighbours: C♯ is wanted in bar 3, C♮ again in bar 5. */
const PART = {
  upper: 'C4/1 r/3 | D4/1 r/3 | C#4/1 r/1 C#4/1 r/1 | E4/1 r/3 | C4/1 r/3',
  quartersPerMinute: 60,
};

const judge = (...markings: Parameters<typeof markedPart>[1][]) =>
  judgeAttempt(markedPart(PART, ...markings));

const told = ({ stated, bar, beat, verdict }: JudgedChange<StatedPedal>): string =>
  `${stated.length === 7 ? 'setting' : stated.map(({ letter, position }) => formatChange(letter, position)).join(' ')} ` +
  `in ${bar + 1}.${formatBeat(beat)}: ${verdict}`;

const reasons = (changes: readonly JudgedChange<StatedPedal>[]): readonly string[] =>
  changes.flatMap(({ stated: [pedal], needless }) =>
    needless === null
      ? []
      : [
          [
            formatChange(pedal!.letter, pedal!.position),
            needless.why,
            ...(needless.place === null
              ? []
              : [`${needless.place.bar + 1}.${formatBeat(needless.place.beat)}`]),
          ].join(' '),
        ],
  );

const OPENING = [1, 1, NATURALS] as const;
const RIGHT = [
  [2, 3, 'C♯'],
  [4, 3, 'C♮'],
] as const;

describe('an attempt at the pedals of a part', () => {
  it('has full points where every note finds its pedal', () => {
    const { changes, points } = judge(OPENING, ...RIGHT);
    expect(changes.map(told)).toEqual(['setting in 1.1: right', 'C♯ in 2.3: right', 'C♮ in 4.3: right']);
    expect(points).toEqual({ given: 6, most: 6 });
  });

  it('is as right by another way than the plan’s', () => {
    // Anywhere after the last C♮ and before the first C♯ will do.
    const { points } = judge(OPENING, [2, 2, 'C♯'], [3, 4, 'C♮']);
    expect(points).toEqual({ given: 6, most: 6 });
  });

  it('tells what sounds instead where the wrong accidental is written, and what to write', () => {
    const { changes, points } = judge(OPENING, [2, 3, 'C♭'], RIGHT[1]);
    expect(changes.map(told)).toEqual(['setting in 1.1: right', 'C♭ in 2.3: wrong', 'C♮ in 4.3: right']);
    const [, wrong] = changes;
    expect(wrong!.correction).toEqual({ kind: 'write', stated: [{ letter: 'C', position: 1 }] });
    expect(wrong!.sounds.map(({ pitch, instead }) => [pitchName(pitch), pitchName(instead!)])).toEqual([
      ['C♯4', 'C♭4'],
    ]);
    expect(points).toEqual({ given: 4, most: 6 });
  });

  it('tells what a name contradicts that stands where a setting says otherwise', () => {
    const { changes } = judge(OPENING, ...RIGHT, [1, 1, 'F♯']);
    const wrong = changes.filter(({ verdict }) => verdict === 'wrong');
    expect(wrong.map(({ correction }) => correction)).toEqual([
      { kind: 'strike', against: [{ letter: 'F', position: 0 }] },
    ]);
  });

  it('tells which pedal is meant where another is named', () => {
    const { changes } = judge(OPENING, [2, 3, 'G♯'], RIGHT[1]);
    const wrong = changes.filter(({ verdict }) => verdict === 'wrong');
    expect(wrong.map(told)).toEqual(['G♯ in 2.3: wrong']);
    expect(wrong[0]!.correction).toEqual({ kind: 'write', stated: [{ letter: 'C', position: 1 }] });
    expect(wrong[0]!.sounds.map(({ pitch, instead }) => [pitchName(pitch), pitchName(instead!)])).toEqual([
      ['C♯4', 'C4'],
    ]);
  });

  describe('that names the wrong pedal', () => {
    /** G♯ and C♯ are wanted one after the other, each between naturals of the pedals that may be named for them. */
    const arpeggios = {
      upper: 'C5/1 E5/1 G5/1 A5/1 | E5/1 G#5/1 B5/1 E6/1 | A5/1 C#5/1 E5/1 A5/1 | r/4 | D5/1 G5/1 C5/1 E5/1',
      quartersPerMinute: 72,
    };
    const faultsOf = (...markings: Parameters<typeof markedPart>[1][]) => {
      const { changes, points } = judgeAttempt(markedPart(arpeggios, OPENING, ...markings, [4, 3, 'C♮']));
      const faults = changes
        .filter(({ verdict }) => verdict !== 'right')
        .map((change) => {
          const { correction } = change;
          if (correction === null || correction.kind === 'strike') return told(change);
          const written = 'stated' in correction ? correction.stated : change.stated;
          const [pedal] = written;
          const to =
            correction.to === undefined
              ? ''
              : ` in ${correction.to.bar + 1}.${formatBeat(correction.to.beat)}`;
          return `${told(change)}, ${formatChange(pedal!.letter, pedal!.position)}${to}`;
        });
      return { faults, lost: points.most - points.given };
    };

    it.each<[string, Parameters<typeof markedPart>[1][], string[]]>([
      [
        'with another change late',
        [
          [2, 1, 'A♯'],
          [3, 3, 'C♯'],
        ],
        ['A♯ in 2.1: wrong, G♯', 'C♯ in 3.3: wrong, C♯ in 3.1'],
      ],
      ['with another change left out', [[2, 1, 'A♯']], ['A♯ in 2.1: wrong, G♯', 'C♯ in 3.1: missing']],
      [
        'and takes the wrong one back, for no points',
        [
          [2, 1, 'A♯'],
          [2, 4, 'A♮'],
          [3, 1, 'C♯'],
        ],
        ['A♯ in 2.1: wrong, G♯', 'A♮ in 2.4: needless'],
      ],
      [
        'by another name of the same sound',
        [
          [2, 1, 'A♭'],
          [3, 1, 'C♯'],
        ],
        ['A♭ in 2.1: wrong, G♯'],
      ],
      [
        'by another name of the same sound that is taken back',
        [
          [2, 1, 'A♭'],
          [2, 4, 'A♮'],
          [3, 1, 'C♯'],
        ],
        ['A♭ in 2.1: wrong, G♯', 'A♮ in 2.4: needless'],
      ],
    ])('is told the change that its own moment asks for, %s', (_, markings, expected) => {
      const { faults, lost } = faultsOf(...markings);
      expect(faults).toEqual(expected);
      // G♮ is no fault: the pedal has not moved.
      expect(lost).toBe(2 * expected.filter((each) => !each.endsWith('needless')).length);
    });
  });

  it('tells what a change spoils that stands too early once the one before it is written', () => {
    const { changes } = judge(OPENING, [3, 3, 'C♮']);
    const early = changes.find(({ stated: [pedal], marking }) => marking === 1 && pedal?.position === 0);
    expect(early).toMatchObject({ verdict: 'wrong', correction: { kind: 'move' } });
    expect(early!.sounds.map(({ pitch, instead }) => [pitchName(pitch), pitchName(instead!)])).toEqual([
      ['C♯4', 'C4'],
    ]);
  });

  it('tells where a change belongs that comes after its note', () => {
    const { changes } = judge(OPENING, [3, 2, 'C♯'], RIGHT[1]);
    const wrong = changes.filter(({ verdict }) => verdict === 'wrong');
    expect(wrong.map(told)).toEqual(['C♯ in 3.2: wrong']);
    const { correction, sounds } = wrong[0]!;
    expect(correction?.kind).toBe('move');
    expect(
      sounds.map(({ pitch, place }) => `${pitchName(pitch)} ${place.bar + 1}.${formatBeat(place.beat)}`),
    ).toEqual(['C♯4 3.1']);
  });

  it('tells how far a wrong pedal goes: every note that it spoils, up to where it is put right', () => {
    const repeated = { ...PART, upper: 'C4/1 r/3 | D4/1 r/3 | C#4/1 C#4/1 r/2 | C#4/1 r/3 | r/4 | C4/1 r/3' };
    const { changes } = judgeAttempt(markedPart(repeated, OPENING, [2, 3, 'C♭'], [5, 1, 'C♮']));
    const wrong = changes.find(({ verdict }) => verdict === 'wrong')!;
    expect(wrong.sounds).toMatchObject([{ place: { bar: 2 }, more: { notes: 2, last: { bar: 3 } } }]);
  });

  it('tells the notes of a wrong letter in the order of the bars, whichever pedal plays them', () => {
    const both = { ...PART, upper: 'C4/1 D4/1 r/2 | r/4 | C#4/1 r/3 | D4/1 r/3' };
    const { changes } = judgeAttempt(markedPart(both, OPENING, [2, 3, 'D♯']));
    const wrong = changes.find(({ verdict }) => verdict === 'wrong')!;
    expect(wrong.sounds.map(({ pitch, place, more }) => [place.bar + 1, pitchName(pitch), more])).toEqual([
      [3, 'C♯4', null],
      [4, 'D4', null],
    ]);
  });

  it('tells what is missing, and what sounds until then', () => {
    const { changes, points } = judge(OPENING, RIGHT[1]);
    const missing = changes.filter(({ verdict }) => verdict === 'missing');
    expect(missing.map(({ stated }) => stated)).toEqual([[{ letter: 'C', position: 1 }]]);
    expect(missing[0]!.sounds.map(({ instead }) => pitchName(instead!))).toEqual(['C4']);
    expect(points.given).toBeLessThan(points.most);
  });

  it('tells of a better place, and why, where a string of the pedal still rings', () => {
    const held = { ...PART, upper: 'C4/4 | D4/1 r/3 | C#4/1 r/3' };
    const attempt = judgeAttempt(markedPart(held, OPENING, [1, 3, 'C♯']));
    const [, change] = attempt.changes;
    expect(change).toMatchObject({ verdict: 'better-place', better: { why: 'bends' } });
    expect(change!.better!.to.bar).toBe(1);
    expect(attempt.points).toEqual({ given: 3, most: 4 });
  });

  it('has the plan’s own place for the better one: the demo’s G♯ a beat late, upon its note', () => {
    const score = demoScore('lanterns-at-the-lock');
    const plan = planPedals(score);
    const planned = plan.moves.find(({ letter, to, bar }) => letter === 'G' && to === 1 && bar === 41)!;
    const late = add(planned.at, rational(1));
    const markings = printPlan(score, plan, { density: 'changes' }).map((marking) =>
      equals(marking.at, planned.at) ? { ...marking, at: late } : marking,
    );
    const { changes } = judgeAttempt({ ...score, markings });
    const faults = changes.filter(({ verdict }) => verdict !== 'right');
    expect(faults.map(told)).toEqual(['G♯ in 42.2: better-place']);
    const { at, bar, beat } = planned;
    expect(faults[0]!.better).toEqual({ why: 'late', to: { at, bar, beat } });
  });

  it('leaves what does nothing out of the points, and says why it does nothing', () => {
    const { changes, points } = judge(OPENING, [1, 3, 'D♮'], ...RIGHT);
    expect(changes.map(told)).toContain('D♮ in 1.3: needless');
    expect(reasons(changes)).toEqual(['D♮ stands 1.1']);
    expect(points).toEqual({ given: 6, most: 6 });
  });

  it.each([
    [
      'a pedal that no note asks for before it moves again, and the change that takes it back',
      [
        [2, 2, 'E♯'],
        [3, 2, 'E♮'],
      ],
      ['E♯ unasked 3.2', 'E♮ undoes'],
    ],
    [
      'both where the change comes again in time',
      [
        [1, 3, 'C♯'],
        [2, 1, 'C♮'],
      ],
      ['C♯ unasked 2.1', 'C♮ unasked 2.3'],
    ],
    [
      'what is said again, since when it has stood so',
      [
        [3, 2, 'C♯'],
        [3, 4, 'C♯'],
      ],
      ['C♯ stands 2.3', 'C♯ stands 2.3'],
    ],
    [
      'a pedal of a later full setting',
      [[3, 2, NATURALS.replace('C♮', 'C♯').replace('G♮', 'G♯')]],
      ['G♯ unasked'],
    ],
    [
      'what only takes back a change that is wrong',
      [
        [4, 1, 'E♭'],
        [4, 2, 'E♮'],
      ],
      ['E♮ undoes'],
    ],
  ] satisfies [string, Parameters<typeof markedPart>[1][], string[]][])(
    'tells as not needed, for no points, %s',
    (_, markings, expected) => {
      const inOrder = [...RIGHT, ...markings].toSorted(([a, b], [c, d]) => a - c || b - d);
      const { changes, points } = judge(OPENING, ...inOrder);
      expect(reasons(changes)).toEqual(expected);
      const right = changes.filter(({ verdict }) => verdict === 'right');
      expect([right.length, points.given]).toEqual([3, 6]);
    },
  );

  it('has everything missing where nothing is written', () => {
    const { changes, points } = judge();
    expect(changes.map(({ kind, verdict }) => `${kind} ${verdict}`)).toEqual([
      'opening missing',
      'change missing',
      'change missing',
    ]);
    expect(points).toEqual({ given: 0, most: 6 });
  });

  it('misses the opening setting where only changes are written', () => {
    const { changes } = judge(...RIGHT);
    expect(changes.filter(({ verdict }) => verdict === 'missing').map(({ kind }) => kind)).toContain(
      'opening',
    );
  });

  it('judges the opening setting as one thing', () => {
    const { changes } = judge([1, 1, NATURALS.replace('D♮', 'D♭')], ...RIGHT);
    const [opening] = changes;
    expect(told(opening!)).toBe('setting in 1.1: wrong');
    expect(opening!.correction).toEqual({ kind: 'write', stated: [{ letter: 'D', position: 0 }] });
    expect(opening!.sounds.map(({ instead }) => pitchName(instead!))).toEqual(['D♭4']);
  });

  it('blames nobody for notes that no pedal can serve', () => {
    const clash = { upper: 'C4/4 | D4/4', lower: 'C#5/4 | D3/4' };
    const score = markedPart(clash, OPENING);
    const { changes } = judgeAttempt(score);
    expect(changes.filter(({ verdict }) => verdict === 'wrong')).toEqual([]);
  });

  it('has full points for the plan of the demo, however it is printed', () => {
    const score = demoScore('lanterns-at-the-lock');
    const plan = planPedals(score);
    for (const choice of [{}, { density: 'changes' }, { settings: { systemStart: true } }] as const) {
      const { points, changes } = judgeAttempt({ ...score, markings: printPlan(score, plan, choice) });
      expect(changes.filter(({ verdict }) => verdict !== 'right').map(told)).toEqual([]);
      expect(points.given).toBe(points.most);
      expect(points.most).toBe(2 * (plan.moves.length + 1));
    }
  });
});
