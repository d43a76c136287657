import { readFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';
import request from 'supertest';
import { afterAll, describe, expect, it } from 'vitest';
import type { AnnotateReport as Report } from '../../server/api/answers/report.ts';
import { demoBeginning } from '../demo-score.ts';
import { isThorough } from '../thorough.ts';
import { fakeService } from './fake-service.ts';
import { startPool } from './threads/real-pools.ts';

// The real service with real threads, the one helping the other. Threads need JavaScript: `npm test` builds it first.
const ANY = Number.POSITIVE_INFINITY;
const pool = startPool('drawing-worker', { ceilings: [ANY, ANY], helps: true });
const { app, bugs } = fakeService({ annotate: pool.perform, uploadLimitBytes: 50_000_000 });
afterAll(() => pool.close());

const wholeDemo = (ending: string): Buffer =>
  readFileSync(new URL(`../../server/demo/lanterns-at-the-lock.${ending}`, import.meta.url));

const MUSICXML = Buffer.from(demoBeginning('lanterns-at-the-lock'));

/** As MusicXML its first page, as MEI the whole. */
const demo = (ending: string): Buffer => (ending === 'musicxml' ? MUSICXML : wholeDemo(ending));

const annotate = (score: Uint8Array | string, accept: string, query = '') =>
  request(app)
    .post(`/v1/annotate${query}`)
    .set('Content-Type', 'application/octet-stream')
    .set('Accept', accept)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    })
    .send(Buffer.from(score));

const jsonOf = (response: { body: Buffer }) => JSON.parse(response.body.toString('utf8'));

const reportOf = async (score: Uint8Array): Promise<Report> => {
  const response = await annotate(score, 'application/json', '?pages=none');
  expect(response.status).toBe(200);
  return jsonOf(response);
};

describe.each(['musicxml', 'mei'])('the demo as %s', (ending) => {
  it.runIf(isThorough || ending === 'mei')(
    'comes back as a PDF named for saving, its pages counted',
    async () => {
      const response = await annotate(demo(ending), 'application/pdf');
      expect(response.status, response.body.toString('utf8').slice(0, 500)).toBe(200);
      expect(response.body.subarray(0, 5).toString()).toBe('%PDF-');
      expect(response.body.length).toBeGreaterThan(20_000);
      expect(response.headers['content-disposition']).toContain('filename="');
      expect(Number(response.headers['tringle-page-count'])).toBeGreaterThan(0);
    },
  );

  it.runIf(isThorough || ending === 'musicxml')(
    'comes back as SVG pages, the same as in the report',
    async () => {
      const report = jsonOf(await annotate(demo(ending), 'application/json')) as Report;
      expect(report.pageCount).toBe(report.pages.length);
      for (const [index, page] of report.pages.entries()) {
        const response = await annotate(demo(ending), 'image/svg+xml', `?page=${index + 1}`);
        expect(response.body.toString('utf8')).toBe(page);
      }
      const past = await annotate(demo(ending), 'image/svg+xml', `?page=${report.pages.length + 1}`);
      expect(past.status).toBe(404);
    },
  );

  it('has a plan whose moves lead from each pedal position to the next', async () => {
    const report = await reportOf(demo(ending));
    expect(report.moves.length).toBeGreaterThan(0);
    const names = { '♭': 'flat', '♮': 'natural', '♯': 'sharp' } as const;
    const positions = new Map(
      report.setting
        .split(/[\s|]+/)
        .map((name) => [name.slice(0, 1), names[name.slice(1) as keyof typeof names]]),
    );
    expect(positions.size).toBe(7);
    for (const move of report.moves) {
      // What a jump lands on restores a pedal that is there already for one who reads on.
      const before = move.restores ? move.to : move.from;
      expect(positions.get(move.pedal), `${move.change} in bar ${move.bar}`).toBe(before);
      positions.set(move.pedal, move.to);
    }
  });
});

it('the demo needs the same pedals whether it comes as MusicXML or as MEI', async () => {
  const [fromMusicxml, fromMei] = [await reportOf(wholeDemo('musicxml')), await reportOf(wholeDemo('mei'))];
  const pedals = ({ setting, moves, bars }: Report) => ({
    bars,
    setting,
    moves: moves.map(({ at, bar, change }) => ({ at, bar, change })),
  });
  expect(pedals(fromMei)).toEqual(pedals(fromMusicxml));
});

describe('input that is no harp part', () => {
  const withoutNotes = MUSICXML.toString('utf8').replace(/<note\b[\s\S]*?<\/note>/g, '');
  const withEntity = `<?xml version="1.0"?><!DOCTYPE score-partwise [<!ENTITY a "aaaa">]><score-partwise><part-list/><work><work-title>&a;</work-title></work></score-partwise>`;
  const cases: readonly (readonly [string, Uint8Array | string, string, string])[] = [
    ['nothing', '', '', 'empty-input'],
    ['a web page', '<!DOCTYPE html><html><body>harp</body></html>', '', 'not-a-score'],
    ['a score cut off', MUSICXML.subarray(0, MUSICXML.length / 2), '', 'malformed-xml'],
    ['an archive without score', zipSync({ 'readme.txt': strToU8('no music') }), '', 'archive-without-score'],
    [
      'a score cut out of an archive',
      zipSync({ 'a.musicxml': MUSICXML }).subarray(0, 900),
      '',
      'archive-corrupt',
    ],
    ['a score with an entity', withEntity, '', 'entity-refused'],
    ['a score without notes', withoutNotes, '', 'no-notes'],
    ['a part that is not there', MUSICXML, '?part=Bagpipe', 'unknown-part'],
  ];

  it.each(cases)('%s is refused by name, and the next score is served', async (_what, input, query, code) => {
    const response = await annotate(input, 'application/pdf', query);
    expect(response.headers['content-type']).toBe('application/problem+json');
    const problem = jsonOf(response);
    expect(problem.type).toBe(`urn:tringle:problem:${code}`);
    expect(problem.status).toBe(response.status);
    expect(response.status).toBeGreaterThanOrEqual(400);
    expect(response.status).toBeLessThan(500);
    expect((await reportOf(MUSICXML)).moves.length).toBeGreaterThan(0);
    expect(bugs()).toEqual([]);
  });

  it('of a part that is not there tells the parts there are', async () => {
    const problem = jsonOf(await annotate(MUSICXML, 'application/json', '?part=Bagpipe'));
    const { parts } = await reportOf(MUSICXML);
    expect(problem.parts).toEqual(parts);
    expect(problem.wanted).toBe('Bagpipe');
  });
});

it('a score over which the layout engine breaks down is refused by name, and the next one is served', async () => {
  // Found by `npm run fuzz`: Verovio 6.3.0 throws from its WebAssembly at an empty time stamp.
  const harmed = demo('mei')
    .toString('utf8')
    .replace(/(<hairpin[^>]* tstamp=)"3"/, '$1""');
  const response = await annotate(harmed, 'application/pdf');
  expect(response.status).toBe(422);
  expect(jsonOf(response).type).toBe('urn:tringle:problem:layout-failed');
  expect((await annotate(MUSICXML, 'application/pdf')).status).toBe(200);
  expect(bugs()).toEqual([]);
});

it('one score gives the same bytes each time, whatever came between', async () => {
  const first = await annotate(MUSICXML, 'application/pdf');
  await annotate(demo('mei'), 'image/svg+xml');
  await annotate('<score-partwise', 'application/pdf');
  const second = await annotate(MUSICXML, 'application/pdf');
  expect(first.status).toBe(200);
  expect(Buffer.compare(first.body, second.body)).toBe(0);
});
