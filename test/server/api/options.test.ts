import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CONCERT_HARP } from '../../../engine/harp/profiles/concert-harp.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { PEDAL_HARP_40 } from '../../../engine/harp/profiles/pedal-harp-40.ts';
import { pickChoice } from '../../../engine/options/choose.ts';
import { DEFAULT_PLAN_OPTIONS, pedalOptionsFor } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { openScore } from '../../../engine/score/open.ts';
import { ENGRAVING_CATALOGUE } from '../../../render/engraving-catalogue.ts';
import { glissandoOptions } from '../../../server/api/answers/glissandi.ts';
import { type DecisionOptions, decisionsFor } from '../../../server/api/requests/decisions.ts';
import { checkHarpOptions } from '../../../server/api/requests/harp-options.ts';
import { annotateOptions } from '../../../server/api/requests/options.ts';
import { nameOptions, readOptions } from '../../../server/api/requests/read-options.ts';
import { anyProblemMessage, type Outcome } from '../../../server/service-problem.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { cases } from '../../thorough.ts';

const read = (query: string, json: string | null = null) => readOptions(annotateOptions, query, json);

const scoreOf = (xml: string) => {
  const opened = openScore(new TextEncoder().encode(xml));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const FOUR_BARS = scoreOf(buildHarp(note('C4', 4), note('C4', 4), note('C#4', 4), note('C#4', 4)));

describe('options in a query', () => {
  it.each([
    ['spelling=free', { spelling: 'free' }],
    ['crossFeet=true&followMarkings=false', { crossFeet: true, followMarkings: false }],
    ['weights.move=900&weights.offBeat=1.5', { weights: { move: 900, offBeat: 1.5 } }],
    ['settings.afterRestBars=null', { settings: { afterRestBars: null } }],
    ['settings.afterRestBars=2&settings.start=false', { settings: { afterRestBars: 2, start: false } }],
    ['paper=letter', { paper: 'letter' }],
    ['paper.widthMm=200&paper.heightMm=280.5', { paper: { widthMm: 200, heightMm: 280.5 } }],
    ['part=1', { part: '1' }],
    ['part=true', { part: 'true' }],
    ['instrument=concert-harp', { instrument: 'concert-harp' }],
  ])('%s are read', (query, choice) => {
    expect(read(query)).toEqual({ ok: true, value: choice });
  });

  it.each([
    ['spelling=fre', 'spelling', 'keep, suggest or free'],
    ['footRestSeconds=-1', 'footRestSeconds', 'at least 0'],
    ['footRestSeconds=1e2', 'footRestSeconds', 'number'],
    ['staffMm=99', 'staffMm', 'at most 14'],
    ['crossFeet=yes', 'crossFeet', 'boolean'],
    ['page=1.5', 'page', 'whole number'],
    ['paper=a4&paper.widthMm=200', 'paper.widthMm', 'twice'],
    ['spelling=keep&spelling=free', 'spelling', 'twice'],
    ['pins=[]', 'pins', 'JSON part'],
  ])('%s is refused', (query, option, expected) => {
    const outcome = read(query);
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'bad-option', option } });
    if (!outcome.ok && outcome.problem.code === 'bad-option') {
      expect(outcome.problem.expected).toContain(expected);
    }
  });

  it.each([
    ['speling=free', 'spelling'],
    ['weights.mov=1', 'weights.move'],
    ['setings.start=true', 'settings.start'],
    ['qqqqqqqqqqqqqqq=1', null],
    ['__proto__=1', null],
    ['constructor.prototype=1', null],
  ])('%s is not known, and the nearest that is: %s', (query, nearest) => {
    expect(read(query)).toMatchObject({ ok: false, problem: { code: 'unknown-option', nearest } });
  });

  it('never throw, whatever they are, and never touch what objects inherit', () => {
    const name = fc.oneof(
      fc.string(),
      fc.constantFrom(...nameOptions(annotateOptions).map((each) => each.name)),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(name, fc.string()), { maxLength: 4 }), (pairs) => {
        read(new URLSearchParams(pairs).toString());
        expect(Object.keys(Object.prototype)).toEqual([]);
      }),
      { numRuns: cases(300) },
    );
  });
});

describe('options in JSON', () => {
  it('join those of the query', () => {
    expect(read('crossFeet=true', '{"spelling":"free"}')).toEqual({
      ok: true,
      value: { spelling: 'free', crossFeet: true },
    });
  });

  it.each([
    ['{"spelling":"free"', 'bad-multipart'],
    ['[]', 'bad-multipart'],
    ['null', 'bad-multipart'],
    ['{"spelling":1}', 'bad-option'],
    ['{"weights":{"moove":1}}', 'unknown-option'],
    ['{"__proto__":{"spelling":"free"}}', 'unknown-option'],
    ['{"pins":[{"kind":"move","pedal":"H","position":"flat","at":"1"}]}', 'bad-option'],
    ['{"pins":[{"kind":"jump"}]}', 'bad-option'],
    ['{"instrument":{"name":"x","lowest":"G7","highest":"C1","fixed":[]}}', 'bad-option'],
  ])('%s is refused', (json, code) => {
    expect(read('', json)).toMatchObject({ ok: false, problem: { code } });
  });

  it('may be awaited: the query beside a form is read as it would be alone', () => {
    const early = annotateOptions.partial() as unknown as typeof annotateOptions;
    expect(readOptions(early, 'settings.start=false&paper.widthMm=200&paper.heightMm=300', null)).toEqual(
      readOptions(annotateOptions, 'settings.start=false&paper.widthMm=200&paper.heightMm=300', null),
    );
  });

  it('that say the same as the query are given twice', () => {
    expect(read('spelling=keep', '{"spelling":"keep"}')).toMatchObject({
      problem: { code: 'bad-option', option: 'spelling' },
    });
  });

  it.each(['pins', 'weights', 'settings'])('of %s that are unknown name their whole path', (name) => {
    const value = name === 'pins' ? [{ kind: 'forbid', from: '0', until: '1', x: 1 }] : { x: 1 };
    expect(read('', JSON.stringify({ [name]: value }))).toMatchObject({
      problem: { code: 'unknown-option', option: name === 'pins' ? 'pins.0.x' : `${name}.x` },
    });
  });
});

describe('an option that does not do', () => {
  const tell = (outcome: Outcome<unknown>): string =>
    outcome.ok ? 'it does' : anyProblemMessage(outcome.problem);

  it('is missing, and has an example', () => {
    expect(tell(readOptions(glissandoOptions, '', null))).toBe(
      'The option sound is missing: a chord or a scale, whose root may be left out, or a list of notes, such as “C whole tone”.',
    );
    expect(tell(read('', '{"pins":[{}]}'))).toBe('The option pins.0.kind is missing: it is required.');
  });

  it.each([
    ['{"name":"x","lowest":"C3"}', 'The option instrument.highest is missing: '],
    ['{"kind":"lever","name":"x","highest":"C6"}', 'The option instrument.lowest is missing: '],
    ['{}', 'The option instrument.name is missing: '],
  ])('is a harp that lacks a field: %s', (harp, begin) => {
    const told = tell(read('', `{"instrument":${harp}}`));
    expect(told.slice(0, begin.length)).toBe(begin);
    expect(told).toMatch(
      /instrument must be concert-harp, .*, or an object with name, lowest and highest\.$/,
    );
  });

  it('is a harp that is not known by name, and might be described', () => {
    const told = tell(read('instrument=banjo'));
    expect(told).toContain(
      '“banjo” is not a valid value for the option instrument: it must be concert-harp,',
    );
    expect(told).toContain('or an object with name, lowest and highest');
  });

  it('is a field that a harp does not have: those that it may have are known', () => {
    const own = '{"name":"x","lowest":"C3","highest":"C6","highst":"C7"}';
    expect(read('', `{"instrument":${own}}`)).toMatchObject({
      problem: { code: 'unknown-option', option: 'instrument.highst', nearest: 'instrument.highest' },
    });
  });

  it('is quoted as it was written, words without quotes of their own', () => {
    expect(tell(read('', '{"spelling":"fre"}'))).toBe(
      '“fre” is not a valid value for the option spelling: it must be keep, suggest or free.',
    );
    expect(tell(checkHarpOptions({ tuning: 'Eb major' }, CONCERT_HARP))).toMatch(
      /^“Eb major” is not a valid value /,
    );
    expect(tell(read('', '{"pins":1}'))).toBe(
      '“1” is not a valid value for the option pins: it must be an array.',
    );
  });

  it('is for the other harp, but for a list that holds nothing', () => {
    const print = { barIndex: 1, beat: '1', print: true };
    expect(tell(checkHarpOptions({ fullSettings: [print] }, LEVER_HARP))).toContain('a pedal harp only');
    expect(checkHarpOptions({ fullSettings: [], omit: [] }, LEVER_HARP).ok).toBe(true);
  });

  it('retunes a string that the harp does not have', () => {
    expect(tell(checkHarpOptions({ scordatura: 'A4 +50, B9 -50' }, CONCERT_HARP))).toMatch(
      /no string B9\. Its lowest string is C1, its highest G7\.$/,
    );
    expect(tell(checkHarpOptions({ scordatura: 'F1 +50' }, PEDAL_HARP_40))).toContain(
      'Its lowest string is G1',
    );
    expect(checkHarpOptions({ scordatura: 'C1 +50, G7 -50' }, CONCERT_HARP).ok).toBe(true);
  });
});

const at = (barIndex: number, beat: string) => ({ barIndex, beat });

describe('pins', () => {
  it('stand at a bar by its index and a beat, or at a score time', () => {
    const placed = decisionsFor(
      {
        pins: [
          { kind: 'move', pedal: 'C', position: 'sharp', at: at(1, '5/2') },
          { kind: 'position', pedal: 'B', position: 'flat', from: '0', until: null },
          { kind: 'forbid', from: at(2, '1'), until: '27/2' },
        ],
      },
      FOUR_BARS,
    );
    if (!placed.ok) throw new Error(placed.problem.code);
    expect(placed.value.placed.pins).toEqual([
      { kind: 'move', letter: 'C', position: 1, at: { num: 11, den: 2 } },
      { kind: 'position', letter: 'B', position: -1, from: { num: 0, den: 1 }, until: null },
      { kind: 'forbid', from: { num: 8, den: 1 }, until: { num: 27, den: 2 } },
    ]);
    expect(placed.value.decisions.pins[2]).toEqual({ kind: 'forbid', from: at(2, '1'), until: at(3, '5/2') });
  });

  it.each([
    [at(4, '1'), 'from 0 to 3'],
    [at(0, '5'), 'within its bar'],
    [at(0, '1/2'), 'within its bar'],
    ['17', 'within the score'],
  ])('cannot stand at %j', (place, expected) => {
    const placed = decisionsFor(
      { pins: [{ kind: 'move', pedal: 'C', position: 'sharp', at: place }] },
      FOUR_BARS,
    );
    expect(placed).toMatchObject({ ok: false, problem: { code: 'bad-option', option: 'pins.0.at' } });
    if (!placed.ok && placed.problem.code === 'bad-option')
      expect(placed.problem.expected).toContain(expected);
  });

  it('move the change to where they say', () => {
    const planned = (choice: DecisionOptions) => {
      const decisions = decisionsFor(choice, FOUR_BARS);
      if (!decisions.ok) throw new Error(decisions.problem.code);
      const { pins } = decisions.value.placed;
      return planPedals(FOUR_BARS, { ...DEFAULT_PLAN_OPTIONS, pins }).moves.map((move) => move.at);
    };
    const pinned = planned({ pins: [{ kind: 'move', pedal: 'C', position: 'sharp', at: at(1, '4') }] });
    expect(pinned).toEqual([{ num: 7, den: 1 }]);
    expect(planned({})).not.toEqual(pinned);
  });
});

describe('the decisions of a request', () => {
  const note = { ...at(2, '1'), pitch: 'C♯4' };

  it('chooses strings, leaves notes out and puts settings by bar, beat and pitch', () => {
    const decisions = decisionsFor(
      {
        respell: [{ ...note, to: 'Db4' }],
        omit: [{ ...at(3, '1'), pitch: 'C#4' }],
        fullSettings: [{ ...at(1, '1'), print: true }],
      },
      FOUR_BARS,
    );
    if (!decisions.ok) throw new Error(decisions.problem.code);
    const [, , third, fourth] = FOUR_BARS.notes;
    const { respelled, omitted, fullSettings } = decisions.value.placed;
    expect([...respelled]).toEqual([[third!.id, { letter: 'D', alter: -1, octave: 4 }]]);
    expect([...omitted]).toEqual([fourth!.id]);
    expect(fullSettings).toEqual([{ at: { num: 4, den: 1 }, bar: 1, print: true }]);
  });

  it.each<[DecisionOptions, string, string]>([
    [{ respell: [{ ...note, to: 'D4' }] }, 'respell.0.to', 'a string with the same pitch, C♯4 or D♭4'],
    [{ omit: [note, { ...note, pitch: 'C4' }] }, 'omit.1.pitch', 'begins there'],
    [{ omit: [{ ...note, barIndex: 4 }] }, 'omit.0', 'from 0 to 3'],
    [{ fullSettings: [{ ...at(0, '17/16'), print: false }] }, 'fullSettings.0.beat', 'a note or a beat'],
  ])('is refused by name where it has no place in the score: %j', (choice, option, expected) => {
    const decisions = decisionsFor(choice, FOUR_BARS);
    expect(decisions).toMatchObject({ ok: false, problem: { code: 'bad-option', option } });
    if (!decisions.ok && decisions.problem.code === 'bad-option')
      expect(decisions.problem.expected).toContain(expected);
  });

  it.each([
    '{"respell":[{"barIndex":0,"beat":"1","pitch":"C4"}]}',
    '{"omit":[{"barIndex":0,"beat":1,"pitch":"C4"}]}',
    '{"omit":[{"barIndex":-1,"beat":"1","pitch":"C4"}]}',
    '{"fullSettings":[{"barIndex":0,"beat":"1"}]}',
  ])('is checked member by member: %s', (json) => {
    const code = expect.stringMatching(/^(?:bad|missing)-option$/);
    expect(read('', json)).toMatchObject({ ok: false, problem: { code } });
  });
});

describe('what an option does', () => {
  it('is that of the planner or of the engraver, and of no other', () => {
    const query = read('crossFeet=true&footRestSeconds=0.5&density=settings&settings.start=false&page=2');
    if (!query.ok) throw new Error(query.problem.code);
    expect(pedalOptionsFor(query.value)).toMatchObject({
      crossFeet: true,
      weights: { footRestSeconds: 0.5 },
    });
    expect(pickChoice(ENGRAVING_CATALOGUE, query.value)).toEqual({
      density: 'settings',
      settings: { start: false },
    });
  });
});
