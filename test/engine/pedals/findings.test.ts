import { describe, expect, it } from 'vitest';
import type { PedalFinding, PedalFindingCode } from '../../../engine/findings/catalogue.ts';
import { rational, ZERO } from '../../../engine/music/rational.ts';
import { DEFAULT_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { SourceMarking } from '../../../engine/score/model.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const findings = (
  part: SmallPart,
  options: Partial<PlanOptions> = {},
  markings: readonly SourceMarking[] = [],
): PedalFinding[] => [
  ...planPedals({ ...smallPart(part), markings }, { ...DEFAULT_OPTIONS, ...options }).findings,
];

const codes = (...args: Parameters<typeof findings>): PedalFindingCode[] =>
  findings(...args).map((each) => each.code);

const fast = (upper: string): SmallPart => ({ upper, quartersPerMinute: 240 });

/** A part that shows the finding, and the nearest one that does not. */
interface Shown {
  readonly code: PedalFindingCode;
  readonly shown: SmallPart;
  readonly absent: SmallPart;
  readonly options?: Partial<PlanOptions>;
}

const SHOWN: readonly Shown[] = [
  { code: 'foot-too-busy', shown: fast('C4+D4/1:4 C#4+D#4/1:4 r/1'), absent: { upper: 'C4+D4/1 C#4+D#4/1' } },
  { code: 'pedal-in-two-positions', shown: { upper: 'C4+C#5/1' }, absent: { upper: 'C4+C5/1' } },
  {
    code: 'string-in-two-pitches',
    shown: { upper: 'C4/1', lower: 'C#4/1' },
    absent: { upper: 'C4/1', lower: 'Db4/1' },
  },
  {
    code: 'string-for-both-hands',
    shown: { upper: 'C4/1', lower: 'C4/1' },
    absent: { upper: 'C4/1', lower: 'C3/1' },
  },
  { code: 'out-of-range', shown: { upper: 'A7/1' }, absent: { upper: 'F7/1' } },
  {
    code: 'fixed-string-tuning',
    shown: { upper: 'r/1', lower: 'D1/1' },
    absent: { upper: 'r/1', lower: 'E1/1' },
  },
  {
    code: 'fixed-string-in-two-pitches',
    shown: { upper: 'r/2', lower: 'D1/1 Db1/1' },
    absent: { upper: 'r/2', lower: 'Db1/1 Db1/1' },
  },
  { code: 'double-accidental', shown: { upper: 'F##4/1' }, absent: { upper: 'F#4/1' } },
  { code: 'quarter-tone', shown: { upper: 'Cq4/1' }, absent: { upper: 'C#4/1' } },
  {
    code: 'pitch-lost-by-retuning',
    shown: { upper: 'D4/1' },
    absent: { upper: 'Eb4/1' },
    options: { scordatura: new Map([['D4', -50]]) },
  },
  {
    code: 'too-many-notes-in-hand',
    shown: { upper: 'C4+E4+G4+B4+D5/1' },
    absent: { upper: 'C4+E4+G4+B4/1' },
  },
  { code: 'stretch-too-wide', shown: { upper: 'C4+F5/1' }, absent: { upper: 'C4+E5/1' } },
  { code: 'stretch-too-wide', shown: { upper: 'C4+F5/1' }, absent: { upper: 'C4+F5/1{' } },
  { code: 'string-restruck-fast', shown: fast('C4/1:4 C4/1:4'), absent: fast('C4/1 C4/1') },
  // Set to another pitch in between, it needs longer; the other string of the pitch needs no time at all.
  { code: 'string-restruck-fast', shown: fast('C4/1:4 C#4/1:4'), absent: fast('C4/1:4 Db4/1:4') },
  { code: 'string-restruck-fast', shown: { upper: 'r/1 (C4) C#4/1' }, absent: { upper: 'C4/1 C#4/1' } },
  {
    code: 'ringing-string-moved',
    shown: { upper: 'r/2 (C4) (C#5) E5/2' },
    absent: { upper: 'r/2 (C4) (Db5) E5/2' },
  },
  {
    code: 'ringing-string-moved',
    shown: { upper: 'r/2 C#5/2', lower: 'C2/4' },
    absent: { upper: 'r/2 C#5/2', lower: 'C2/1' },
  },
  {
    code: 'glissando-setting-guessed',
    shown: { upper: 'C4/1> C5/1' },
    absent: { upper: 'C4/1:4 D4/1:4 E4/1:4 F4/1:4 G4/1:4 A4/1:4 B4/1:4 C4/1> C5/1' },
  },
  { code: 'harmonic-out-of-range', shown: { upper: 'C6/1o' }, absent: { upper: 'C5/1o' } },
  { code: 'too-many-harmonics', shown: { upper: 'C4+E4/1o' }, absent: { upper: 'r/1', lower: 'C3+E3/1o' } },
  {
    code: 'repeat-restored',
    shown: { upper: 'r/1 C4/1 r/2 | r/2 C#4/2', playOrder: [0, 1, 0, 1] },
    absent: { upper: 'r/1 C4/1 r/2 | r/2 C#4/2' },
  },
  {
    code: 'pedals-together',
    shown: fast('C4+D4/1:4 C#4+D#4/1:4 r/1'),
    absent: fast('C4+D4/1:4 C#4+Db4/1:4 r/1'),
    options: { pedalsTogether: true },
  },
  // H. Berlioz, Traité d'instrumentation, La Harpe: in B major write the harp in C flat major.
  {
    code: 'flat-key-rings-fuller',
    shown: { upper: 'B4/1', keyFifths: 5 },
    absent: { upper: 'Cb5/1', keyFifths: -7 },
  },
  {
    code: 'foot-crossed',
    shown: fast('C4+B4/1:4 C#4+Bb4/1:4 r/1'),
    absent: fast('C4+D4/1:4 C#4+Db4/1:4 r/1'),
    options: { crossFeet: true },
  },
];

describe('each finding', () => {
  it.each(SHOWN)('$code is told where it is and not where it is not', ({ code, shown, absent, options }) => {
    expect(codes(shown, options)).toContain(code);
    expect(codes(absent, options)).not.toContain(code);
  });

  it('says where, in one sentence, and names its notes', () => {
    for (const { shown, options } of SHOWN) {
      for (const finding of findings(shown, options)) {
        expect(finding.sentence).toMatch(/^[^.]*[A-Z♭♯].*\.$/);
        expect(finding.barNumber).not.toBe('');
      }
    }
  });
});

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

describe('pins', () => {
  const part = { upper: 'C4/1 r/3 | r/2 C#4/1 r/1' };
  const movesOf = (pins: PlanOptions['pins']) =>
    planPedals(smallPart(part), { ...DEFAULT_OPTIONS, pins }).moves;

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
        ...DEFAULT_OPTIONS,
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
    const kept = planPedals(score, { ...DEFAULT_OPTIONS, keepMarkings: true });
    expect(kept.moves.map((move) => move.at)).toEqual([rational(1)]);
  });
});

describe('when there is no plan', () => {
  it('the smallest change that mends a clash is a respelling', () => {
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
    const plan = planPedals(smallPart({ upper: 'Cq4/1' }), { ...DEFAULT_OPTIONS, ...lowD });
    expect(plan.findings.map((each) => each.code)).toEqual(['string-retuned']);
    expect(plan.initial.C).toBe(0);
    expect(plan.respellings[0]?.to).toMatchObject({ octave: 4 });
  });

  it('is told before the piece, with the caution where a string is raised', () => {
    const told = (cents: number) =>
      findings({ upper: 'E4/1' }, { scordatura: new Map([['D4', cents]]) }).find(
        ({ code }) => code === 'string-retuned',
      );
    expect(told(-50)).toMatchObject({ severity: 'note', suggestions: [] });
    expect(told(50)?.suggestions.join(' ')).toContain('technician');
    expect(codes({ upper: 'E4/1' })).not.toContain('string-retuned');
  });

  it('plays a note whose own string is tuned otherwise on its neighbour', () => {
    const plan = planPedals(smallPart({ upper: 'D#4/1' }), { ...DEFAULT_OPTIONS, ...lowD });
    expect(plan.respellings.map(({ to }) => to)).toEqual([{ letter: 'E', alter: -1, octave: 4 }]);
  });

  it('is never spelled onto freely', () => {
    const part = { upper: 'C#4/1 r/1 C4/1 r/1 C#4/1' };
    const plan = planPedals(smallPart(part), { ...DEFAULT_OPTIONS, ...lowD, spelling: 'free' });
    expect(plan.respellings.filter(({ to }) => to.letter === 'D')).toEqual([]);
  });
});
