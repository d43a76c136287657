import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type AnnotateChoice, annotateOptions } from '../../../server/api/requests/options.ts';
import { readOptions } from '../../../server/api/requests/read-options.ts';
import { annotateScore } from '../../../server/threads/tasks/annotate/annotate-score.ts';
import { compareScore } from '../../../server/threads/tasks/compare-score.ts';
import { computePlan, computeProof } from '../../../server/threads/tasks/compute.ts';
import { markAttempt } from '../../../server/threads/tasks/mark-attempt.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { buildHarp, note, words } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotator } from '../../render/shared-annotator.ts';

const demo = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`../../../server/demo/${name}.musicxml`, import.meta.url)));

const FAIR = demo('the-ribbon-stall');
const FAIR_FILE = { bytes: FAIR, fileName: '' };
const PEDAL_PART = new TextEncoder().encode(buildHarp(note('C4', 4), note('C#4', 4)));

const clock = () => startStageClock(IGNORE_PROGRESS);

const planOf = async (bytes: Uint8Array, query: string) => {
  const choice = readOptions(annotateOptions, query, null);
  if (!choice.ok) return choice;
  return computePlan({ bytes, fileName: '' }, choice.value, clock());
};

const leversOf = async (bytes: Uint8Array, query = '') => {
  const planned = await planOf(bytes, query);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  if (planned.value.harp !== 'lever') throw new Error('the plan is for the pedal harp');
  return planned.value;
};

describe('a part named for the lever harp', () => {
  it('is planned for it, and the user is told why', async () => {
    const report = await leversOf(FAIR);
    expect(report.instrument).toBe('lever harp, 34 strings');
    expect(report.remarks).toContainEqual(
      expect.objectContaining({ code: 'harp-chosen', message: expect.stringContaining('lever harp') }),
    );
  });

  it('is told by its tuning, the levers that are up, and every change with the hand that makes it', async () => {
    const report = await leversOf(FAIR);
    expect(report.tuning).toBe('E♭ major');
    expect(report.levers).toEqual(['A♮3', 'A♮4', 'A♮5']);
    expect(
      report.moves.map(({ bar, beat, change, hand, to }) => `${bar}.${beat} ${change} ${to} ${hand}`),
    ).toEqual([
      '9.4 F♯4 up left',
      '16.4 F♮4 down left',
      '18.4 E♮3 up left',
      '22.4 E♭3 down left',
      '29.4 A♭5 down left',
    ]);
    expect(report.summary).toMatchObject({ changes: 5, minChanges: 5, playable: true, provenOptimal: true });
  });

  it('lists other tunings with what each costs, the chosen one first', async () => {
    const { tunings } = await leversOf(FAIR);
    expect(tunings[0]).toMatchObject({ name: 'E♭ major', changes: 5, retuned: 0 });
    expect(tunings.length).toBeGreaterThan(3);
  });

  it('is planned in the tuning that the user names', async () => {
    expect((await leversOf(FAIR, 'tuning=Bb%20major')).tuning).toBe('B♭ major');
    expect((await leversOf(FAIR, 'tuning=C%20D%20Eb%20F%20G%20A%20Bb')).levers).not.toContain('A♮4');
  });

  it('is planned for pedals where the user says so, and the other way round', async () => {
    expect(await planOf(FAIR, 'instrument=concert-harp')).toMatchObject({
      ok: true,
      value: { harp: 'pedal' },
    });
    expect(await planOf(PEDAL_PART, '')).toMatchObject({ ok: true, value: { harp: 'pedal' } });
    expect(await planOf(PEDAL_PART, 'instrument=lever-harp-36')).toMatchObject({
      ok: true,
      value: { harp: 'lever', instrument: 'lever harp, 36 strings' },
    });
  });

  it('is proofread by its levers, or by the pedals of a harp that is named', async () => {
    const codes = async (options: object) => {
      const answer = await computeProof(FAIR_FILE, options, clock());
      return answer.ok ? answer.value.report.findings.map(({ code }) => code) : answer.problem;
    };
    expect(await codes({})).toEqual(['no-lever-markings']);
    expect(await codes({ instrument: 'concert-harp' })).toEqual(['no-markings']);
  });
});

/** Only “Harp” is its name; the F of the last bar needs its lever. */
describe.each([
  ['English', 'Tuning E♭ major\nLevers up: A♮4', 'F♯4'],
  ['German', 'Stimmung Es-Dur\nKlappen oben: A4', 'Fis4'],
])('a part with words about levers in %s that names no lever harp', (_, opening, change) => {
  const file = {
    bytes: new TextEncoder().encode(
      buildHarp(words(opening) + note('A4', 4), note('F4', 4) + words(change), note('F#4', 4)),
    ),
    fileName: '',
  };

  it('is marked and proofread by its levers, and is right', async () => {
    const marked = await markAttempt(file, {}, clock(), 'report');
    expect(marked.ok && marked.value.report).toMatchObject({ harp: 'lever', points: { given: 4, most: 4 } });
    const proof = await computeProof(file, {}, clock());
    expect(proof.ok && proof.value.report).toMatchObject({ correct: true, findings: [] });
  });

  it('is planned and annotated for levers, and the user is told why', async () => {
    const report = await leversOf(file.bytes);
    expect(report.levers).toContain('A♮4');
    expect(report.remarks).toContainEqual(
      expect.objectContaining({ code: 'harp-chosen', message: expect.stringContaining('tell of levers') }),
    );
    const kinds = ['musicxml'] as const;
    const annotated = await annotateScore(file, {}, { kind: 'source', kinds }, annotator, clock());
    expect(annotated.ok && new TextDecoder().decode(annotated.value.source!.bytes)).toMatch(
      /id="tringle-P1-marking-1".*Levers up: [^<]*A♮4/su,
    );
  });

  it('is for pedals where the user says so', async () => {
    const marked = await markAttempt(file, { instrument: 'concert-harp' }, clock(), 'report');
    expect(marked.ok && marked.value.report.harp).toBe('pedal');
  });
});

describe('a note of a lever part that is not played as written', () => {
  const TWICE_NUMBERED = new TextEncoder().encode(
    buildHarp(note('C4', 4), note('D4', 4), note('Fb4', 4)).replace('number="3"', 'number="1"'),
  );
  const respell = [{ barIndex: 2, beat: '1', pitch: 'F♭4', to: 'E4' }];

  it('is told with its place, as a request takes it back', async () => {
    const choice = { instrument: 'lever-harp-34', respell, omit: [{ barIndex: 1, beat: '1', pitch: 'D4' }] };
    const planned = await computePlan({ bytes: TWICE_NUMBERED, fileName: '' }, choice as never, clock());
    if (!planned.ok || planned.value.harp !== 'lever') throw new Error('no lever plan');
    const { respellings, omitted } = planned.value;
    expect(respellings).toMatchObject([
      { bar: '1', at: { barIndex: 2, beat: '1', pitch: 'F♭4' }, from: 'F♭4', to: 'E4' },
    ]);
    expect(omitted).toHaveLength(1);
  });

  it('is found by the index of its bar where two bars have the same number', async () => {
    const high = buildHarp(note('C4', 4), note('C4', 4), note('C9', 4)).replace('number="3"', 'number="1"');
    const { findings } = await leversOf(new TextEncoder().encode(high), 'instrument=lever-harp-34');
    expect(findings.find(({ severity }) => severity === 'stop')).toMatchObject({ bar: '1', barIndex: 2 });
  });
});

describe('options that are for the other harp', () => {
  it.each([
    'spelling=free',
    'footRestSeconds=0.3',
    'settingLook=diagram',
    'density=both',
    'settings.start=true',
    'circleChanged=true',
  ])('are refused by name for a lever part: %s', async (query) => {
    const option = query.split(/[.=]/)[0];
    expect(await planOf(FAIR, query)).toMatchObject({ ok: false, problem: { code: 'bad-option', option } });
  });

  it.each(['tuning=best', 'leverSeconds=1', 'leverLook=notes'])(
    'are refused for a pedal part: %s',
    async (query) => {
      const option = query.split('=')[0];
      expect(await planOf(PEDAL_PART, query)).toMatchObject({
        ok: false,
        problem: { code: 'bad-option', option },
      });
    },
  );

  it('and a tuning that is none', async () => {
    expect(await planOf(FAIR, 'tuning=H%20dur')).toMatchObject({
      ok: false,
      problem: { code: 'bad-option', option: 'tuning' },
    });
  });
});

describe("a harp of the user's own", () => {
  const planFor = async (instrument: unknown) => {
    const choice = readOptions(annotateOptions, '', JSON.stringify({ instrument }));
    return choice.ok ? await computePlan(FAIR_FILE, choice.value as AnnotateChoice, clock()) : choice;
  };

  it('is a lever harp with its own tuning', async () => {
    const own = { kind: 'lever', name: 'my harp', lowest: 'C2', highest: 'C7', tuning: 'Bb C D Eb F G A' };
    expect(await planFor(own)).toMatchObject({ ok: true, value: { harp: 'lever', instrument: 'my harp' } });
  });

  it('is a pedal harp where it does not say', async () => {
    const own = { name: 'old harp', lowest: 'E1', highest: 'E7', fixed: [] };
    expect(await planFor(own)).toMatchObject({ ok: true, value: { harp: 'pedal' } });
  });

  it('is refused where its strings make no harp', async () => {
    const upsideDown = { kind: 'lever', name: 'my harp', lowest: 'C6', highest: 'C3' };
    expect(await planFor(upsideDown)).toMatchObject({
      ok: false,
      problem: { code: 'bad-option', option: 'instrument' },
    });
  });
});

describe('both harps side by side', () => {
  it('are judged for one part', async () => {
    const compared = await compareScore(FAIR_FILE, {}, clock());
    if (!compared.ok) throw new Error(compared.problem.code);
    const { pedal, lever, transpositions, considered } = compared.value;
    expect(lever).toMatchObject({ playable: true, changes: 5, tuning: 'E♭ major' });
    expect(pedal.harp).toBe('concert harp, 47 strings');
    // The barrel organ asks for E natural and E flat in two octaves at once: no pedal gives both.
    expect(pedal.playable).toBe(false);
    expect(pedal.stops).toBeGreaterThan(0);
    expect(considered.length).toBe(12);
    for (const each of transpositions) expect(each.lever.changes).toBeLessThan(5);
  });

  it('in no other key where none is wanted', async () => {
    expect(await compareScore(FAIR_FILE, { maxSemitones: 0 }, clock())).toMatchObject({
      ok: true,
      value: { transpositions: [], considered: [] },
    });
  });
});
