import fc from 'fast-check';
import { expect, it } from 'vitest';
import { compare } from '../../../../engine/music/rational.ts';
import { cases } from '../../../thorough.ts';
import { bar, chord, meiScore, note, notes, readResult } from './mei-builder.ts';

/** One of everything that the reader knows. */
const RICH = meiScore(
  `<section xml:id="A"><expansion plist="#A1 #A1 #E1"/><section xml:id="A1">${bar({
    upper: `<keySig sig="2f"/>${chord('c4 e4', 4, 'xml:id="ch" tie="i" artic="harm"')}<tuplet num="3" numbase="2">${notes('c4 d4 e4', 8)}</tuplet><beatRpt/><halfmRpt/>`,
    lower: `<fTrem unitdur="32">${notes('c3 g3', 4)}</fTrem><bTrem>${note('c3', 4, 'stem.mod="3slash"')}</bTrem><graceGrp grace="unacc">${notes('d3 e3', 16)}</graceGrp><space dur="2" dots="1"/>`,
    marks:
      '<octave staff="1" tstamp="1" tstamp2="0m+3" dis="8" dis.place="above"/><tie startid="#ch" endid="#x"/><harpPedal tstamp="1" c="s"/><tempo tstamp="2.333" mm="60" mm.unit="8" mm.dots="1">Lento</tempo><arpeg startid="#ch" order="up"/><trill startid="#ch" accidupper="s"/><tupletSpan num="3" numbase="2" startid="#x" endid="#ch"/><gliss startid="#ch" endid="#x"/><repeatMark func="coda" tstamp="1"/><reh tstamp="1">A</reh>',
  })}<scoreDef meter.count="3+2" meter.unit="8" keysig="4s" midi.bpm="80" ppq="96"/>${bar({ upper: '<mRpt/>', lower: note('c3', null, 'dur.ppq="48" xml:id="x" accid="1qs" oct.ges="2"') })}${bar({ upper: '<multiRpt num="2"/>', lower: '<multiRest num="4"/>', attributes: 'right="rptend" metcon="false"' })}</section><ending xml:id="E1" n="1-2">${bar({ upper: '<mRpt2/>' })}</ending></section>`,
);

const VALUES = [
  '',
  '-1',
  '0',
  '1e309',
  'NaN',
  '99999999999999999999',
  '0.1',
  '1/0',
  'x',
  '#ch',
  '1m+1',
  '__proto__',
  'constructor',
];

/** Onsets with denominators near the bound, one after another, and timestamps between them. */
const CROWDED = meiScore(
  [311, 313, 307, 293, 256, 2048]
    .map((num) =>
      bar({
        upper: `<tuplet num="${num}" numbase="${num - 1}">${note('c4', 64)}</tuplet>`,
        lower: `<fTrem>${notes('c3 g3', 1024)}</fTrem>`,
        marks: '<tempo tstamp="1.37" mm="60"/><harpPedal tstamp="2.0103"/><reh tstamp="1.618"/>',
      }),
    )
    .join(''),
);

/** Reads whatever parses; answers must be whole scores or named problems. */
const survives = (text: string): void => {
  const result = readResult(text);
  if (!result.ok) {
    expect(result.problem.code).toMatch(/^[a-z-]+$/);
    return;
  }
  const { notes: read, bars, playOrder } = result.value;
  expect(read.every((each) => each.bar < bars.length && Number.isFinite(each.pitch.alter))).toBe(true);
  expect(read.every((each, index) => index === 0 || compare(read[index - 1]!.onset, each.onset) <= 0)).toBe(
    true,
  );
  expect(new Set(read.map((each) => each.id)).size).toBe(read.length);
  expect(playOrder.every((index) => index < bars.length)).toBe(true);
};

it('reads the rich sample itself', () => {
  expect(readResult(RICH)).toMatchObject({ ok: true });
}, 60_000);

it('never throws on fractions that do not come together', () => {
  survives(CROWDED);
  survives(meiScore(bar({ upper: `${'<fTrem>'.repeat(100)}${notes('c4 g4', 4)}${'</fTrem>'.repeat(100)}` })));
});

it('never throws on a document with any attribute replaced', () => {
  const places = [...RICH.matchAll(/="([^"]*)"/g)].map(
    (match) => [match.index + 2, match.index + 2 + match[1]!.length] as const,
  );
  fc.assert(
    fc.property(
      fc.constantFrom(...places),
      fc.oneof(fc.constantFrom(...VALUES), fc.nat().map(String)),
      ([start, end], value) => {
        survives(RICH.slice(0, start) + value + RICH.slice(end));
      },
    ),
    { numRuns: cases(250) },
  );
}, 60_000);

it('never throws on a document with any element renamed, dropped or doubled', () => {
  const tags = [...RICH.matchAll(/<(\w+)[^>]*\/>/g)].map((match) => [match.index, match[0]] as const);
  const names = [
    'note',
    'chord',
    'rest',
    'mRpt',
    'beatRpt',
    'keySig',
    'staffDef',
    'layer',
    'tie',
    'app',
    'toString',
    'measure',
    'section',
    'meterSig',
    'expansion',
  ];
  fc.assert(
    fc.property(
      fc.constantFrom(...tags),
      fc.constantFrom('drop', 'double', ...names),
      ([place, tag], change) => {
        const changed =
          change === 'drop' ? '' : change === 'double' ? tag + tag : tag.replace(/^<\w+/, `<${change}`);
        survives(RICH.slice(0, place) + changed + RICH.slice(place + tag.length));
      },
    ),
    { numRuns: cases(250) },
  );
}, 60_000);

it('never throws on a document with characters changed, where it still parses', () => {
  fc.assert(
    fc.property(
      fc.nat(RICH.length - 1),
      fc.string({ maxLength: 3 }),
      fc.nat(3),
      (place, inserted, dropped) => {
        survives(RICH.slice(0, place) + inserted + RICH.slice(place + dropped));
      },
    ),
    { numRuns: cases(250) },
  );
}, 60_000);
