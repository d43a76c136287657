import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { openScore } from '../../../engine/score/open.ts';
import { completeEngraving } from '../../../render/engraving-options.ts';
import { nameStrings } from '../../../render/part/signs/string-names.ts';
import { annotateSource } from '../../../render/source/annotate-source.ts';
import { canValidate, schemaErrors } from '../../corpus/schema-errors.ts';
import * as xml from '../../engine/score/musicxml/musicxml-builder.ts';
import { meiScore } from '../small-score.ts';

const open = (bytes: Uint8Array) => {
  const opened = openScore(bytes, {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** F double sharp alone, and G double sharp in a chord: no string has these names. */
const XML = encode(
  xml.buildHarp(xml.bar(`${xml.note('F##4', 2)}${xml.note('G##4', 2)}${xml.note('C4', 2, { chord: true })}`)),
);
const MEI = meiScore({ bars: ['f##4.2 g##4+c4.2/R'] });

const write = (bytes: Uint8Array, named = true) => {
  const score = open(bytes);
  const { respellings } = planPedals(score);
  const stringNames = named
    ? nameStrings(score, respellings, completeEngraving())
    : new Map<string, string>();
  const done = annotateSource(score, [], { others: 'keep', stringNames });
  if (!done.ok) throw new Error(done.problem.code);
  return done.value;
};

describe.each([
  ['MusicXML', XML, /<direction placement="above" id="tringle-[^>]*><direction-type><words>([^<]*)</g],
  ['MEI', MEI, /<dir xml:id="tringle-[^>]*>([^<]*)</g],
] as const)('strings of another name in %s', (_, bytes, told) => {
  const written = write(bytes);

  it('are named over their notes as on the pages', () => {
    expect([...written.text.matchAll(told)].map(([, name]) => name)).toEqual(['= G♮', 'G𝄪 = A♮']);
  });

  it('are taken out again, and written alike', () => {
    expect(write(written.bytes).text).toBe(written.text);
    expect(write(written.bytes, false).text).toBe(write(bytes, false).text);
  });

  it('are no markings: no pedal moves for them', () => {
    const { markings, unreadWords } = open(written.bytes);
    expect([markings, unreadWords]).toEqual([[], []]);
  });

  it.skipIf(!canValidate)('keep the file valid', () => {
    expect(schemaErrors(open(written.bytes).source)).toEqual(schemaErrors(open(bytes).source));
  });
});

it('are told with their notes among chord symbols, beside which a lone name would be a chord', () => {
  const harmony = '<harmony><root><root-step>D</root-step></root><kind>major</kind></harmony>';
  const score = open(encode(xml.buildHarp(xml.bar(`${harmony}${xml.note('F##4', 4)}`))));
  const names = nameStrings(score, planPedals(score).respellings, completeEngraving());
  expect([...names.values()]).toEqual(['F𝄪 = G♮']);
});
