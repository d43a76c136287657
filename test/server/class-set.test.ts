import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobReport } from '../../server/api/answers/service-answers.ts';
import { buildHarp, note } from '../engine/score/musicxml/musicxml-builder.ts';
import { type RunningService, startService } from './running-service.ts';

/** A piece of two bars with one change, for a harp by its name. */
const piece = (title: string, harp: string): Uint8Array =>
  strToU8(
    buildHarp(note('C4', 4), note('C#4', 4))
      .replace('<part-list>', `<work><work-title>${title}</work-title></work><part-list>`)
      .replace(/<part-name>[^<]*/, `<part-name>${harp}`),
  );

const ARCHIVE = zipSync({
  'ferry.musicxml': piece('The Ferry Bell', 'Harp'),
  'ribbons.musicxml': piece('The Ribbon Stall', 'Lever harp'),
  'broken.mei': strToU8('<mei'),
});

const poppler = spawnSync('pdftotext', ['-v']).error === undefined;
if (!poppler)
  console.warn('skipped: the text of a class set over HTTP, because poppler-utils is not installed');

const readPages = (pdf: Uint8Array): string[] => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-set-'));
  try {
    writeFileSync(join(folder, 'set.pdf'), pdf);
    return execFileSync('pdftotext', ['-layout', join(folder, 'set.pdf'), '-'], { maxBuffer: 1 << 26 })
      .toString()
      .split('\f')
      .slice(0, -1);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

// The real service with real threads, which the build makes.
describe('a class set over HTTP', () => {
  let service: RunningService;

  beforeAll(async () => {
    service = await startService({ THREADS: '1' });
  });

  afterAll(async () => {
    service.process.kill();
    await service.ended;
  });

  const finish = async (path: string): Promise<JobReport> => {
    for (;;) {
      const job = (await (await fetch(`${service.url}${path}`)).json()) as JobReport;
      if (job.state === 'done' || job.state === 'failed') return job;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  };

  it.skipIf(!poppler)('binds study editions of both harps in the language that is asked for', async () => {
    const query = 'output=class-set&edition=study&language=german&level=intermediate';
    const started = await fetch(`${service.url}/v1/jobs?${query}`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/zip' },
      body: new Uint8Array(ARCHIVE),
    });
    expect(started.status, await started.clone().text()).toBe(202);
    const { links } = (await started.json()) as JobReport;
    const job = await finish(links.self);
    expect(job.files.map(({ name, state }) => `${name} ${state}`)).toEqual([
      'ferry.musicxml done',
      'ribbons.musicxml done',
      'broken.mei failed',
      'class set done',
    ]);
    const result = await fetch(`${service.url}${links.result}`);
    expect(result.headers.get('content-type')).toBe('application/pdf');
    const pages = readPages(new Uint8Array(await result.arrayBuffer()));
    expect(pages).toHaveLength(Number(result.headers.get('tringle-page-count')));
    const [contents = ''] = pages;
    expect(contents).toContain('Inhalt');
    expect(contents).toContain('Nicht in diesem Satz');
    expect(contents).toContain('broken.mei');
    for (const title of ['The Ferry Bell', 'The Ribbon Stall']) {
      const page = Number(new RegExp(`^\\s*${title}\\s+(\\d+)$`, 'm').exec(contents)![1]);
      expect(page % 2).toBe(1);
      expect(pages[page - 1]).toContain(title);
    }
    for (const [i, page] of pages.entries()) expect(page).toContain(`${i + 1}/${pages.length}`);
    for (const told of ['Wie Pedalangaben gelesen werden', 'Wie Klappenangaben gelesen werden']) {
      // In the contents, and where it is told, once for all pieces.
      expect(pages.join('').split(told), told).toHaveLength(3);
    }
  });
});
