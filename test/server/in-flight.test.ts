import { strToU8 } from 'fflate';
import { afterAll, expect, it } from 'vitest';
import { buildHarp, note } from '../engine/score/musicxml/musicxml-builder.ts';
import { cases } from '../thorough.ts';
import { startPool } from './threads/real-pools.ts';

const SCORES = cases(200);

const pool = startPool('drawing-worker', {
  ceilings: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
  queue: SCORES,
});
afterAll(() => pool.close());

const forEver = new AbortController().signal;

const NAMES = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** Every score has a title and notes of its own; each tenth is one at which the layout engine fails or the reader refuses. */
const scoreOf = (number: number): string => {
  const name = NAMES[number % 7]!;
  const xml = buildHarp(note(`${name}${3 + (number % 4)}`, 4), note(`${name}#4`, 4)).replace(
    '<part-list>',
    `<work><work-title>Score ${number} of many</work-title></work><part-list>`,
  );
  if (number % 20 === 7) return xml.slice(0, xml.length / 2);
  if (number % 20 === 17) return xml.replaceAll(/<note>.*?<\/note>/gs, '');
  return xml;
};

/** Each twentieth is drawn, the others are planned: what could be mixed up are the answers, and drawing takes twenty times as long. */
const isDrawn = (number: number): boolean => number % 20 === 0;

const titleIn = (text: string): string | undefined => /Score \d+ of many/.exec(text)?.[0];

it('many scores in flight at once: each answer belongs to its request', async () => {
  const outcomes = await Promise.all(
    Array.from({ length: SCORES }, (_, number) =>
      pool.perform(
        {
          bytes: strToU8(scoreOf(number)),
          fileName: '',
          choice: {},
          format: { kind: 'report', withPages: isDrawn(number) },
        },
        forEver,
      ),
    ),
  );
  for (const [number, outcome] of outcomes.entries()) {
    if (number % 10 === 7) {
      const code = number % 20 === 7 ? 'malformed-xml' : 'no-notes';
      expect(outcome, `${number}`).toMatchObject({ ok: false, problem: { code } });
      continue;
    }
    if (!outcome.ok) throw new Error(`${number}: ${outcome.problem.code}`);
    const report = JSON.parse(new TextDecoder().decode(outcome.value.body));
    expect(report.title).toBe(`Score ${number} of many`);
    const change = `${NAMES[number % 7]}♯`;
    expect(report.moves.map((move: { change: string }) => move.change)).toEqual([change]);
    if (!isDrawn(number)) continue;
    expect(report.pages).toHaveLength(1);
    // The title is outlined text of the page; the change that is printed is that of its notes.
    const drawn = [...report.pages[0].matchAll(/data-kind="change" data-pedals="([^"]*)"/g)];
    expect(drawn.map(([, pedals]) => pedals)).toEqual([change]);
    expect(titleIn(report.pages[0].replaceAll(/<[^>]*>/g, '')) ?? report.title).toBe(report.title);
  }
}, 120_000);
