import express, { type ErrorRequestHandler } from 'express';
import request from 'supertest';
import { describe, expect, it } from 'vitest';
import { attemptReport } from '../../server/api/answers/attempt-report.ts';
import { replyMarked, replyProof } from '../../server/http/reply.ts';
import { createUploadBudget } from '../../server/http/upload-budget.ts';
import { describeProblem } from '../../server/problems.ts';
import { markHandler, proofHandler } from '../../server/routes/proof.ts';
import type { ScoreDependencies } from '../../server/routes/scores.ts';
import type { ComputeJob, Perform } from '../../server/threads/job.ts';
import { computeProof } from '../../server/threads/tasks/compute.ts';
import { markAttempt } from '../../server/threads/tasks/mark-attempt.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../server/threads/tasks/stage-clock.ts';
import { buildHarp, note, words } from '../engine/score/musicxml/musicxml-builder.ts';

const MUSICXML = 'application/vnd.recordare.musicxml+xml';

/** C♭ is printed where C♯ is needed. */
const SCORE = buildHarp(words('D♮ C♮ B♮ E♮ F♮ G♮ A♮') + note('C4', 4), words('C♭') + note('C#4', 4));

const compute: Perform<ComputeJob> = async (job) => {
  if (job.kind === 'mark') {
    const marked = await markAttempt(job, job.choice, startStageClock(IGNORE_PROGRESS), job.format.kind);
    return marked.ok ? replyMarked(marked.value, job.format) : marked;
  }
  if (job.kind !== 'proof') throw new Error(job.kind);
  const proofread = await computeProof(job, job.choice, startStageClock(IGNORE_PROGRESS), job.format);
  return proofread.ok ? replyProof(proofread.value, job.format) : proofread;
};

const parts: ScoreDependencies = {
  annotate: async () => {
    throw new Error('nothing is annotated here');
  },
  compute,
  uploads: createUploadBudget(1_000_000),
  uploadLimitBytes: 100_000,
};

const answerProblem: ErrorRequestHandler = (problem, _request, response, _next) => {
  const { status, body } = describeProblem(problem);
  response.status(status).json(body);
};

const app = express()
  .post('/v1/proof', proofHandler(parts))
  .post('/v1/mark', markHandler(parts))
  .use(answerProblem);

const ask = (query: string, accept: string, path = '/v1/proof', score = SCORE) =>
  request(app)
    .post(`${path}${query}`)
    .set('Content-Type', MUSICXML)
    .set('Accept', accept)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    })
    .send(score);

describe('a proofread score over HTTP', () => {
  it('comes as a report where nothing else is asked for', async () => {
    const { headers, body } = await ask('', '*/*');
    expect(headers['content-type']).toMatch(/^application\/json/u);
    expect(JSON.parse(String(body)).repair.edits).toMatchObject([
      { sentence: 'Print C♯ instead of C♭ at bar 2, beat 1.' },
    ]);
  });

  it('comes as a page with the fault numbered and the edit beside it, and says how many there are', async () => {
    const { headers, body } = await ask('', 'image/svg+xml');
    expect(headers['content-type']).toMatch(/^image\/svg\+xml/u);
    expect(headers['tringle-page-count']).toBe('1');
    expect(headers.link).toContain('rel="last"');
    expect(String(body)).toContain('class="proof-fault"');
    expect(String(body)).toContain('class="proof-edit"');
  });

  it('comes as a PDF with the names that are asked for', async () => {
    const { headers, body } = await ask('?naming=german&paper=letter', 'application/pdf');
    expect(headers['content-type']).toBe('application/pdf');
    expect(headers['content-disposition']).toContain('proof.pdf');
    expect(String(body.subarray(0, 5))).toBe('%PDF-');
  });

  it.each([
    ['by the option repair', '?repair=true', '*/*'],
    ['by its media type', '', MUSICXML],
  ])('comes as the corrected file, asked for %s', async (_, query, accept) => {
    const { headers, body } = await ask(query, accept);
    expect(headers['content-type']).toBe(MUSICXML);
    expect(String(body)).toBe(SCORE.replace('C♭', 'C♯'));
  });

  it('comes with the chosen edits alone', async () => {
    expect(String((await ask('?edits=', MUSICXML)).body)).toBe(SCORE);
    expect(String((await ask('?edits=0', MUSICXML)).body)).toBe(SCORE.replace('C♭', 'C♯'));
    expect(JSON.parse(String((await ask('?edits=1', MUSICXML)).body)).detail).toContain('edits 0 to 0');
    expect((await ask('?edits=0', 'application/json')).status).toBe(400);
  });

  it('is refused in a form that it cannot have', async () => {
    const page = await ask('?page=2', 'image/svg+xml');
    expect(JSON.parse(String(page.body)).type).toContain('page-out-of-range');
    const misplaced = await ask('?page=1', 'application/pdf');
    expect(misplaced.status).toBe(400);
    const repaired = await ask('?repair=true', 'application/pdf');
    expect(repaired.status).toBe(406);
  });
});

/** The lever of F4 is marked for a natural where a sharp is needed, by words and by a small note. */
const LEVERS = buildHarp(
  words('Levers up: A4 B4') + note('G4', 4),
  words('F♮4') + note('F#4', 4),
  note('F4', 4),
);
const SMALL_NOTE =
  '<note><grace/><pitch><step>F</step><octave>4</octave></pitch><voice>1</voice><notehead>diamond</notehead></note>';

describe('a file with lever markings over HTTP', () => {
  const query = '?instrument=lever-harp-34&repair=true';

  it('comes back with its names corrected, and nothing else changed', async () => {
    const { headers, body } = await ask(query, '*/*', '/v1/proof', LEVERS);
    expect(headers['content-type']).toBe(MUSICXML);
    const text = String(body);
    const corrected = LEVERS.replace('F♮4', 'F♯4');
    expect(text).not.toBe(corrected);
    // What the last bar needs is put in; all else stays.
    expect(text.replace(/<direction [^>]*id="levers-r1">.*?<\/direction>/su, '')).toBe(corrected);
    const again = await ask('?instrument=lever-harp-34', 'application/json', '/v1/proof', text);
    expect(JSON.parse(String(again.body)).correct).toBe(true);
  });

  it('has a small note that shows the wrong lever replaced', async () => {
    const score = LEVERS.replace(words('F♮4'), SMALL_NOTE);
    expect(score).toContain('diamond');
    const { body } = await ask(query, '*/*', '/v1/proof', score);
    expect(String(body)).not.toContain('diamond');
    const again = await ask('?instrument=lever-harp-34', 'application/json', '/v1/proof', String(body));
    expect(JSON.parse(String(again.body)).correct).toBe(true);
  });
});

describe('a proof over HTTP in another language', () => {
  it('tells its findings, what would help and its edits in that language, and keeps its data', async () => {
    const read = async (query: string) =>
      JSON.parse(String((await ask(query, 'application/json')).body)) as {
        readonly findings: readonly Record<string, unknown>[];
        readonly repair: { readonly edits: readonly Record<string, unknown>[] };
      };
    const [english, german] = [await read(''), await read('?language=german')];
    const [finding] = german.findings;
    expect(finding!.sentence).toBe(
      'Cis4 klingt falsch: Nötig ist Cis, aber nach der Angabe in Takt 2, Zählzeit 1 steht Ces.',
    );
    expect(finding!.suggestions).toEqual(['Cis statt Ces in Takt 2, Zählzeit 1 schreiben.']);
    expect(german.repair.edits[0]!.sentence).toBe('Cis statt Ces in Takt 2, Zählzeit 1 schreiben.');
    const { sentence: _, suggestions: __, places: ___, ...data } = finding!;
    expect(english.findings[0]).toMatchObject(data);
    const page = String((await ask('?language=german', 'image/svg+xml')).body);
    expect(page).toContain('Fehler, und wie sie zu beheben sind');
  });
});

describe('a marked attempt over HTTP', () => {
  it('comes as a report where nothing else is asked for, in the language that is asked for', async () => {
    const { headers, body } = await ask('?language=german', '*/*', '/v1/mark');
    expect(headers['content-type']).toMatch(/^application\/json/u);
    const report = JSON.parse(String(body));
    expect(attemptReport.safeParse(report).error).toBeUndefined();
    expect(report).toMatchObject({ points: { given: 2, most: 4 }, counts: { right: 1, wrong: 1 } });
    const [, wrong] = report.changes;
    expect(wrong).toMatchObject({
      verdict: 'wrong',
      sounds: [{ note: 'C♯4', instead: 'C♭4', bar: '2' }],
      write: [{ pedal: 'C', position: 'sharp' }],
    });
    expect(wrong.comment).toContain('Statt Cis4 klingt Ces4');
  });

  it('comes as pages with a sign at each change, with points where they are asked for', async () => {
    const { headers, body } = await ask('?points=true', 'image/svg+xml', '/v1/mark');
    expect(headers['tringle-page-count']).toBe('1');
    expect(String(body)).toContain('class="judged-change"');
    expect(String(body)).toContain('2 of 4 points');
    const pdf = await ask('', 'application/pdf', '/v1/mark');
    expect(pdf.headers['content-disposition']).toContain('marked.pdf');
    expect(String(pdf.body.subarray(0, 5))).toBe('%PDF-');
  });

  it('refuses what belongs to a proof, and a page of what has none', async () => {
    expect((await ask('?repair=true', '*/*', '/v1/mark')).status).toBe(400);
    expect((await ask('?page=1', 'application/pdf', '/v1/mark')).status).toBe(400);
    expect((await ask('', MUSICXML, '/v1/mark')).status).toBe(406);
  });

  it('is judged by its levers for a lever harp, and takes what concerns levers', async () => {
    const { status, body } = await ask('?instrument=lever-harp-34&tuning=C%20major', '*/*', '/v1/mark');
    expect(status).toBe(200);
    const { harp, changes } = attemptReport.parse(JSON.parse(String(body)));
    expect(harp).toBe('lever');
    expect(changes.length).toBeGreaterThan(0);
    expect((await ask('?tuning=C%20major', '*/*', '/v1/mark')).status).toBe(400);
  });
});
