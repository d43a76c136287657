import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PedalFindingCode } from '../../../engine/findings/catalogue.ts';
import type { NoteFix, PedalFinding } from '../../../engine/findings/model.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions, type Spelling } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { otherStrings, writtenString } from '../../../engine/sounding/needs.ts';
import { readPitch, type SmallPart, smallPart } from '../../part-builder.ts';

const planOf = (score: Score, options: Partial<PlanOptions> = {}) =>
  planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...options });

const idOf = (score: Score, name: string): string =>
  score.notes.find((note) => pitchName(note.pitch) === pitchName(readPitch(name)))!.id;

const respelled = (score: Score, from: string, to: string) => new Map([[idOf(score, from), readPitch(to)]]);

const SPELLINGS: readonly Spelling[] = ['keep', 'suggest', 'free'];

describe('a string that the user chose', () => {
  it.each(SPELLINGS)('is played under the spelling “%s”', (spelling) => {
    const score = smallPart({ upper: 'C4/1 C#4/1 C4/1 r/1' });
    const { moves, respellings } = planOf(score, { spelling, respelled: respelled(score, 'C#4', 'Db4') });
    expect(respellings).toContainEqual({
      note: idOf(score, 'C#4'),
      from: readPitch('C#4'),
      to: readPitch('Db4'),
    });
    expect(moves).toEqual([]);
  });

  it('may be the written one: free spelling then leaves the note', () => {
    const score = smallPart({ upper: 'G4/1 G#4/1 G4/1 r/1' });
    const own = { spelling: 'free', respelled: respelled(score, 'G#4', 'G#4') } as const;
    expect(planOf(score, { spelling: 'free' }).respellings).toHaveLength(1);
    expect(planOf(score, own).respellings).toEqual([]);
    expect(planOf(score, own).moves).toHaveLength(2);
  });

  it('is obeyed for any notes, and those alone, in every spelling', () => {
    const names = fc.constantFrom('C#4', 'Db4', 'F4', 'E#4', 'B4', 'Ab4', 'F#5');
    fc.assert(
      fc.property(
        fc.array(fc.tuple(names, fc.boolean()), { minLength: 1, maxLength: 8 }),
        fc.constantFrom(...SPELLINGS),
        (line, spelling) => {
          const score = smallPart({ upper: line.map(([name]) => `${name}/1`).join(' ') });
          const chosen = new Map(
            score.notes.flatMap((note, i) =>
              line[i]![1] ? [[note.id, otherStrings(note.pitch)[0]!] as const] : [],
            ),
          );
          const { respellings } = planOf(score, { spelling, respelled: chosen });
          const played = new Map(respellings.map(({ note, to }) => [note, to]));
          for (const [note, to] of chosen) expect(played.get(note)).toEqual(to);
          if (spelling !== 'free') expect(played.size).toBe(chosen.size);
        },
      ),
    );
  });

  it('silences the finding about a double accidental, for it is fixed', () => {
    const score = smallPart({ upper: 'F##4/1' });
    expect(planOf(score, { respelled: respelled(score, 'F##4', 'G4') }).findings).toEqual([]);
  });

  it('is what the hands pluck: both may then have C♯4 at once', () => {
    const score = smallPart({ upper: 'C#4/1', lower: 'Db4/1' });
    const codes = planOf(score, { respelled: respelled(score, 'C#4', 'Db4') }).findings.map(
      ({ code }) => code,
    );
    expect(codes).toContain('string-for-both-hands');
  });
});

describe('a note that is left out', () => {
  const omit = (part: SmallPart, ...names: string[]) => {
    const score = smallPart(part);
    return planOf(score, { omitted: new Set(names.map((name) => idOf(score, name))) });
  };

  it('asks for nothing', () => {
    const plan = omit({ upper: 'C4/1 C#4/1 C4/1 r/1' }, 'C#4');
    expect(plan.moves).toEqual([]);
    expect(plan.omitted).toHaveLength(1);
  });

  it('takes with it what is tied to it, and the trill on it', () => {
    const plan = omit({ upper: 'Db4/2 C4/2tr(Db4) | ~C4/4' }, 'C4');
    expect(plan.moves).toEqual([]);
    expect(plan.omitted).toHaveLength(2);
  });

  it('is not counted by the hands', () => {
    const five: SmallPart = { upper: 'C4+E4+G4+B4+D5/1', lower: 'C3+E3+G3+B3/1' };
    expect(omit(five).findings.map(({ code }) => code)).toEqual(['too-many-notes-in-hand']);
    expect(omit(five, 'D5').findings).toEqual([]);
  });

  it('is out of range to nobody', () => {
    expect(omit({ upper: 'A7/1 C4/1' }, 'A7').findings).toEqual([]);
  });

  it('as the first of a glissando takes the glissando with it; as its last it leaves the sweep', () => {
    const sweep: SmallPart = { upper: 'Db4/1> Bb4/1 E4/1 r/1' };
    const codes = (name: string) => omit(sweep, name).findings.map(({ code }) => code);
    expect(codes('Db4')).toEqual([]);
    expect(codes('Bb4')).toEqual(['glissando-setting-guessed']);
  });

  it('before a slide makes its end a plucked note', () => {
    const codes = omit({ upper: 'C4/1) C#4/1 r/2' }, 'C4').findings.map(({ code }) => code);
    expect(codes).toEqual([]);
  });
});

/** The options with a fix carried out. */
const carryOut = (options: Partial<PlanOptions>, { changes }: NoteFix): Partial<PlanOptions> => ({
  ...options,
  respelled: new Map(
    changes.flatMap((each) => (each.kind === 'respell' ? [[each.note, each.to] as const] : [])),
  ),
  omitted: new Set(changes.flatMap((each) => (each.kind === 'omit' ? [each.note] : []))),
});

describe('fixes', () => {
  const cases: readonly [PedalFindingCode, SmallPart, Partial<PlanOptions>?][] = [
    ['foot-too-busy', { upper: 'C4+D4/1:4 C#4+D#4/1:4 r/1', quartersPerMinute: 240 }],
    ['pedal-in-two-positions', { upper: 'C4+C#5/1' }],
    ['string-in-two-pitches', { upper: 'C4/1', lower: 'C#4/1' }],
    ['double-accidental', { upper: 'F##4/1' }],
    ['string-for-both-hands', { upper: 'C4/1', lower: 'C4/1' }],
    ['string-restruck-fast', { upper: 'C4/1:8 C4/1:8', quartersPerMinute: 300 }],
    [
      'pedals-together',
      { upper: 'C4+D4/1:4 C#4+D#4/1:4 r/1', quartersPerMinute: 240 },
      { pedalsTogether: true },
    ],
  ];

  it.each(cases)(
    'of “%s” are also told in words, and each makes the place good',
    (code, part, options = {}) => {
      const score = smallPart(part);
      const found = planOf(score, options).findings.find((each) => each.code === code) as PedalFinding;
      expect(found.fixes.length).toBeGreaterThan(0);
      for (const fix of found.fixes) {
        expect(found.suggestions).toContain(fix.sentence);
        for (const change of fix.changes) {
          const note = score.notes.find(({ id }) => id === change.note)!;
          expect([writtenString(note), ...otherStrings(note.pitch)]).toContainEqual(change.from);
        }
        const codes = planOf(score, carryOut(options, fix)).findings.map((each) => each.code);
        expect(codes).not.toContain(code);
      }
    },
  );

  it('are none for the neighbour of a trill: it is no note that could be chosen', () => {
    const [found] = planOf(smallPart({ upper: 'E4/1tr(F##4)' })).findings;
    expect(found).toMatchObject({
      code: 'double-accidental',
      suggestions: ['Write G4 for the F𝄪4.'],
      fixes: [],
    });
  });
});
