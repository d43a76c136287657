import { describe, expect, it } from 'vitest';
import type { PedalFindingCode } from '../../../engine/findings/catalogue.ts';
import type { PedalFinding } from '../../../engine/findings/model.ts';
import { rational, ZERO } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { SourceMarking } from '../../../engine/score/model/markings.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const findings = (
  part: SmallPart,
  options: Partial<PlanOptions> = {},
  markings: readonly SourceMarking[] = [],
): PedalFinding[] => [
  ...planPedals({ ...smallPart(part), markings }, { ...DEFAULT_PLAN_OPTIONS, ...options }).findings,
];

const codes = (...args: Parameters<typeof findings>): PedalFindingCode[] =>
  findings(...args).map((each) => each.code);

const marking = (positions: SourceMarking['positions']): SourceMarking => ({
  at: ZERO,
  bar: 0,
  span: { start: 0, end: 0 },
  form: 'harp-pedals',
  positions,
  ahead: false,
  text: '',
});

describe('markings in the file', () => {
  it('that the next note contradicts are told', () => {
    expect(codes({ upper: 'C#4/4' }, {}, [marking({ C: 0 })])).toContain('marking-contradicts-notes');
    expect(codes({ upper: 'C#4/4' }, {}, [marking({ C: 1 })])).not.toContain('marking-contradicts-notes');
  });

  it('state the setting of a glissando', () => {
    const stated = marking({ D: -1, C: 0, B: -1, E: -1, F: 0, G: -1, A: -1 });
    const part = { upper: 'C4/1> C6/1 r/2' };
    expect(codes(part, {}, [stated])).not.toContain('glissando-setting-guessed');
    expect(planPedals({ ...smallPart(part), markings: [stated] }).initial.D).toBe(-1);
  });
});

describe('what would help', () => {
  const helpOf = (part: SmallPart): readonly string[] =>
    findings(part).flatMap(({ suggestions }) => suggestions);

  it('names a string that rings as its note is printed, and by its own name too where that is another', () => {
    expect(helpOf({ upper: 'r/1 G#4/3', lower: 'F##3/4' })).toContain(
      'Damp F𝄪3 (G3) before the change, or shorten it.',
    );
    expect(helpOf({ upper: 'r/1 G#4/3', lower: 'G3/4' })).toContain(
      'Damp G3 before the change, or shorten it.',
    );
  });

  it('names the nearest octave of a note that has a string, however far', () => {
    expect(helpOf({ upper: 'r/4', lower: 'Bb0/4' })).toEqual(['Play B♭1 instead of the B♭0.']);
    expect(helpOf({ upper: 'C9/4' })).toEqual(['Play C7 instead of the C9.']);
  });

  it('is to leave a note out where its octave within the range stands there already', () => {
    expect(helpOf({ upper: 'A6+A7/4' })).toEqual([
      'Leave out the A7: the A6 an octave away stands there already.',
    ]);
    expect(helpOf({ upper: 'D4/4', lower: '(Bb0+Bb1) F2/4' })[0]).toContain('B♭1');
    expect(helpOf({ upper: 'A7/4' })).toEqual(['Play A6 instead of the A7.']);
  });
});

describe('pins', () => {
  const part = { upper: 'C4/1 r/3 | r/2 C#4/1 r/1' };
  const movesOf = (pins: PlanOptions['pins']) =>
    planPedals(smallPart(part), { ...DEFAULT_PLAN_OPTIONS, pins }).moves;

  it('put a move at the moment the user chose', () => {
    const at = rational(2);
    expect(movesOf([{ kind: 'move', letter: 'C', position: 1, at }]).map((move) => move.at)).toEqual([at]);
  });

  it('forbid moves in a span', () => {
    const [free] = movesOf([]);
    const span = { kind: 'forbid' as const, from: free!.at, until: rational(6) };
    expect(movesOf([span]).map((move) => move.at)).not.toContainEqual(free!.at);
  });

  it('keep a pedal from a place on', () => {
    const held = movesOf([{ kind: 'position', letter: 'G', position: 1, from: rational(4), until: null }]);
    expect(held.map((move) => move.letter)).not.toContain('D');
    expect(
      planPedals(smallPart(part), {
        ...DEFAULT_PLAN_OPTIONS,
        pins: [{ kind: 'position', letter: 'G', position: 1, from: ZERO, until: null }],
      }).initial.G,
    ).toBe(1);
  });

  it('that a note contradicts are told, with the note', () => {
    const pins = [{ kind: 'position', letter: 'C', position: -1, from: ZERO, until: null }] as const;
    const told = findings(part, { pins }).find((each) => each.code === 'pin-not-honoured');
    expect(told?.notes).toHaveLength(1);
    expect(told?.sentence).toContain('C♮');
  });

  it('are taken from the markings in the file on request', () => {
    const score = { ...smallPart(part), markings: [{ ...marking({ C: 1 }), at: rational(1), bar: 0 }] };
    const kept = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, followMarkings: true });
    expect(kept.moves.map((move) => move.at)).toEqual([rational(1)]);
  });
});

describe('when there is no plan', () => {
  it('the smallest change that fixes a clash is a respelling', () => {
    const [clash] = findings({ upper: 'C4+C#5/1' });
    expect(clash!.suggestions[0]).toMatch(/Write (D♭5 for the C♯5|B♯3 for the C4) in bar 1\./);
  });

  it('a note without a second string can only be left out or given away', () => {
    const [clash] = findings({ upper: 'G4+G#5+A4/1:4 Ab4/1' });
    expect(clash!.suggestions.join(' ')).not.toContain('Write G');
  });

  it('the plan names the earliest place that fails', () => {
    const plan = planPedals(smallPart({ upper: 'C4/4 | D4/4 | E4+Eb5/4 | F4+F#5/4' }));
    expect(plan.summary).toMatchObject({ playable: false, firstFailure: 2 });
  });
});

describe('scordatura', () => {
  const lowD = { scordatura: new Map([['D4', -50]]) };

  it('gives a quarter-tone its string, the pedal at flat', () => {
    const plan = planPedals(smallPart({ upper: 'Cq4/1' }), { ...DEFAULT_PLAN_OPTIONS, ...lowD });
    expect(plan.findings.map((each) => each.code)).toEqual(['string-retuned']);
    expect(plan.initial.C).toBe(0);
    expect(plan.respellings[0]?.to).toMatchObject({ octave: 4 });
  });

  it('comes with a caution where a string is tuned higher', () => {
    const raised = findings({ upper: 'E4/1' }, { scordatura: new Map([['D4', 50]]) });
    expect(raised.flatMap(({ suggestions }) => suggestions).join(' ')).toContain('technician');
    const lowered = findings({ upper: 'E4/1' }, lowD);
    expect(lowered.flatMap(({ suggestions }) => suggestions)).toEqual([]);
  });

  it('plays a note whose own string is tuned otherwise on its neighbour', () => {
    const plan = planPedals(smallPart({ upper: 'D#4/1' }), { ...DEFAULT_PLAN_OPTIONS, ...lowD });
    expect(plan.respellings.map(({ to }) => to)).toEqual([{ letter: 'E', alter: -1, octave: 4 }]);
  });

  it('is never spelled onto freely', () => {
    const part = { upper: 'C#4/1 r/1 C4/1 r/1 C#4/1' };
    const plan = planPedals(smallPart(part), { ...DEFAULT_PLAN_OPTIONS, ...lowD, spelling: 'free' });
    expect(plan.respellings.filter(({ to }) => to.letter === 'D')).toEqual([]);
  });
});
