import { describe, expect, it } from 'vitest';
import { openScore } from '../../../engine/score/open.ts';
import { descendantsNamed, type XmlElement } from '../../../engine/xml/tree.ts';
import type { Annotation } from '../../../render/annotation.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import { annotateSource } from '../../../render/source/annotate-source.ts';
import { barline, buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf, treeOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { directionOf, fluteAndHarp, meiFluteAndHarp, meiScore } from '../small-score.ts';

const annotate = async (bytes: Uint8Array, engraving: EngravingChoice = {}): Promise<Annotation> => {
  const annotated = await annotateBytes(annotator, bytes, { engraving }, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value;
};

const groups = ({ pages }: Annotation, name: string): XmlElement[] =>
  pages.flatMap((page) => groupsOf(page, name));

const markingsOf = (annotation: Annotation): string[] =>
  groups(annotation, 'pedal-marking').map(
    ({ attributes }) => `${attributes['data-bar']}.${attributes['data-beat']} ${attributes['data-pedals']}`,
  );

/** All words on the pages. */
const wordsOf = ({ pages }: Annotation): string =>
  pages
    .flatMap((page) =>
      descendantsNamed(treeOf(page), 'text').map((text) => page.slice(text.span.start, text.span.end)),
    )
    .join(' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

const SEVERAL_PAGES = Array.from({ length: 60 }, (_, i) =>
  i % 2 === 0 ? 'c4.4 e4.4 g4.2/c3.1' : 'c#4.4 e4.4 g4.2/c#3.1',
);

describe('characters of a notation program’s own font', () => {
  it('are drawn where they are known, and left out with a remark where they are not', async () => {
    const bytes = fluteAndHarp(['c5', 'd5'], {
      0: directionOf('<words font-family="Maestro">q = 66</words>', 'tempo="66"'),
      1: directionOf('<words>a tempo \uF0A0</words>'),
    });
    const annotation = await annotate(bytes);
    const [figure] = groups(annotation, 'tempo');
    expect(descendantsNamed(figure!, 'path')).toHaveLength(1);
    expect(wordsOf(annotation)).toMatch(/= 66.*a tempo/);
    expect(wordsOf(annotation)).not.toContain('\uF0A0');
    expect(annotation.remarks.map(({ message }) => message).join()).toContain('U+F0A0');
  });

  it('in the harp’s own words are known too', async () => {
    const bytes = new TextEncoder().encode(
      new TextDecoder()
        .decode(fluteAndHarp(['c5'], {}))
        .replace(
          /(<part id="P2">.*?<\/attributes>)/su,
          `$1${directionOf('<words font-family="Petrucci">sfz</words>')}`,
        ),
    );
    const [dir] = groups(await annotate(bytes), 'dir');
    expect(descendantsNamed(dir!, 'path')).toHaveLength(3);
  });
});

describe('lines of glissandi', () => {
  const swept = (number: number, sign: string): string =>
    note(number % 2 === 1 ? 'C4' : 'C6', 2, { notations: sign });
  it.each([
    ['<glissando type="stop"/>'],
    ['<articulations><tenuto/></articulations><glissando type="stop"/>'],
    ['<glissando type="stop"/><articulations><tenuto/></articulations><fermata/>'],
    ['<tied type="start"/></notations><notations><slide type="stop"/>'],
  ])('are all drawn, whatever else the note of arrival bears: %s', async (arrival) => {
    const name = arrival.includes('slide') ? 'slide' : 'glissando';
    const bytes = new TextEncoder().encode(buildHarp(swept(1, `<${name} type="start"/>`), swept(2, arrival)));
    const lines = groups(await annotate(bytes), 'gliss');
    expect(lines.map((line) => descendantsNamed(line, 'path', 'polygon', 'polyline', 'rect').length)).toEqual(
      [1],
    );
  });
});

describe('a page', () => {
  it('is a standalone document of its paper, its markings told to programs and to readers', async () => {
    const annotation = await annotate(meiScore({ bars: ['c4.2 d4.2/R', 'c#4.1/R'] }));
    const root = treeOf(annotation.pages[0]!);
    expect(root.attributes).toMatchObject({ width: '210mm', height: '297mm' });
    const [first, second] = groups(annotation, 'pedal-marking');
    expect(first!.attributes).toMatchObject({
      id: 'marking-1',
      'data-kind': 'setting',
      'data-bar': '1',
      'data-beat': '1',
      'data-onset': '0',
      role: 'img',
    });
    expect(first!.children[0]).toMatchObject({ name: 'title', text: 'Pedal setting D♮ C♮ B♮ | E♮ F♮ G♮ A♮' });
    expect(second!.attributes).toMatchObject({ 'data-kind': 'change', 'data-pedals': 'C♯' });
  });

  it('has ids that are unique across the pages, and no marking is lost', async () => {
    const annotation = await annotate(meiScore({ bars: SEVERAL_PAGES }));
    expect(annotation.pages.length).toBeGreaterThan(1);
    const ids = annotation.pages.flatMap((page) =>
      [...page.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]),
    );
    expect(new Set(ids).size).toBe(ids.length);
    const hrefs = annotation.pages.flatMap((page) =>
      [...page.matchAll(/href="#([^"]*)"/g)].map((match) => match[1]),
    );
    expect(hrefs.filter((href) => !ids.includes(href!))).toEqual([]);
    expect(groups(annotation, 'pedal-marking')).toHaveLength(annotation.plan.plan.moves.length + 1);
  });

  it('shows the part in the heading, and on each further page beside the title, with a number', async () => {
    const annotation = await annotate(meiScore({ bars: SEVERAL_PAGES, title: 'A &amp; B' }));
    expect(wordsOf(annotation).match(/Harp/g)).toHaveLength(annotation.pages.length);
    expect(annotation.pages[1]).toMatch(/A &amp; B/);
    expect(wordsOf({ ...annotation, pages: [annotation.pages[1]!] })).toMatch(/ 2 /);
  });

  it.each([
    ['a3', '297mm', '420mm'],
    ['letter', '215.9mm', '279.4mm'],
    ['concert-part', '228.6mm', '304.8mm'],
  ] as const)('can be %s', async (paper, width, height) => {
    const annotation = await annotate(meiScore({ bars: ['c4.1/R'] }), { paper });
    expect(treeOf(annotation.pages[0]!).attributes).toMatchObject({ width, height });
  });

  it('of a size that is no paper, or a staff that no one can read, is refused', async () => {
    const bytes = meiScore({ bars: ['c4.1/R'] });
    const paper = await annotateBytes(
      annotator,
      bytes,
      { engraving: { paper: { widthMm: 5, heightMm: 297 } } },
      'svg',
    );
    const staff = await annotateBytes(annotator, bytes, { engraving: { staffMm: 90 } }, 'svg');
    const nonsense = await annotateBytes(annotator, bytes, { engraving: { staffMm: Number.NaN } }, 'svg');
    for (const each of [paper, staff, nonsense])
      expect(each).toMatchObject({ ok: false, problem: { code: 'unsupported' } });
  });
});

describe('bars of rest', () => {
  it('say which bars they are where that is asked for', async () => {
    const bars = ['c4.1/R', 'R/R', 'R/R', 'R/R', 'd4.1/R', 'R/R', 'R/R', 'e4.1/R'];
    const rangesOf = async (restRanges: boolean): Promise<string[]> => {
      const { pages } = await annotate(meiScore({ bars }), { restRanges });
      return groupsOf(pages[0]!, 'dir').map((dir) =>
        descendantsNamed(dir, 'tspan')
          .map(({ text }) => text.trim())
          .join(''),
      );
    };
    expect(await rangesOf(true)).toEqual(['2\u20134', '6\u20137']);
    expect(await rangesOf(false)).toEqual([]);
  });

  const bars = ['c4.1/R', 'R/R', 'R/R', 'R/R', 'R/R', 'R/R', 'c#4+d#4+f#4.1/R'];

  it('are joined, and the setting stands under them', async () => {
    const annotation = await annotate(meiScore({ bars }));
    expect(groups(annotation, 'measure')).toHaveLength(3);
    expect(groups(annotation, 'multiRest')).toHaveLength(2);
    expect(markingsOf(annotation)[1]).toMatch(/^2\.1 D♯ C♯/);
  });

  it('are written out where that is wanted', async () => {
    const annotation = await annotate(meiScore({ bars }), { multiBarRests: false });
    expect(groups(annotation, 'measure')).toHaveLength(7);
    expect(groups(annotation, 'multiRest')).toHaveLength(0);
  });

  it.each([
    ['a rehearsal mark', { events: { 3: '<reh staff="1" tstamp="1">A</reh>' } }],
    ['a fermata', { events: { 3: '<fermata staff="1" tstamp="1"/>' } }],
    ['a double bar', { measures: { 2: 'right="dbl"' } }],
    ['a repeat', { measures: { 3: 'left="rptstart"', 4: 'right="rptend"' } }],
    ['a change of metre', { before: { 3: '<scoreDef meter.count="4" meter.unit="4" meter.sym="common"/>' } }],
  ] as const)('are not joined over %s', async (_, more) => {
    const annotation = await annotate(meiScore({ bars, ...more }));
    expect(groups(annotation, 'multiRest').length).toBeGreaterThan(2);
    expect(groups(annotation, 'measure').length).toBeGreaterThan(3);
  });

  it('are not joined under a hairpin that crosses them', async () => {
    const events = { 0: '<hairpin form="dim" staff="1" tstamp="3" tstamp2="3m+1"/>' };
    const annotation = await annotate(meiScore({ bars, events }));
    expect(groups(annotation, 'measure')).toHaveLength(6);
  });
});

describe('tempo and rehearsal marks of other parts', () => {
  it('stand above the harp, once', async () => {
    const annotation = await annotate(
      fluteAndHarp(['c5', 'd5', 'e5'], {
        0: directionOf('<words>Lento assai</words>', 'tempo="50"'),
        1: directionOf('<rehearsal>K</rehearsal>'),
      }),
    );
    expect(wordsOf(annotation).match(/Lento assai/g)).toHaveLength(1);
    expect(groups(annotation, 'reh')).toHaveLength(1);
  });

  it('of an MEI score stand above the harp once, also those that hang on a note of another staff', async () => {
    const annotation = await annotate(
      meiFluteAndHarp([
        '<tempo staff="1" tstamp="1" place="below">Lento</tempo><tempo staff="2" tstamp="1">Lento</tempo>',
        '<tempo startid="#flute-2">Vivace</tempo><dir staff="1" tstamp="1">flutter</dir>',
        '<reh staff="1" tstamp="1">K</reh>',
      ]),
    );
    expect(wordsOf(annotation).match(/Lento|Vivace|flutter/g)).toEqual(['Lento', 'Vivace']);
    expect(groups(annotation, 'reh')).toHaveLength(1);
    expect(groups(annotation, 'note')).toHaveLength(6);
    // The brace of the harp stays, the bracket round the orchestra goes.
    expect(groups(annotation, 'grpSym').filter(({ children }) => children.length > 0)).toHaveLength(1);
  });

  it('that change the tempo step by step are printed, and metronome marks with their figures', async () => {
    const mark = '<metronome><beat-unit>half</beat-unit><per-minute>54</per-minute></metronome>';
    const annotation = await annotate(
      fluteAndHarp(['c5', 'd5', 'e5'], {
        0: directionOf(mark),
        1: directionOf('<words>rit.</words>'),
        2: directionOf('<words>a tempo</words>'),
      }),
    );
    expect(wordsOf(annotation)).toMatch(/= 54.*rit\..*a tempo/);
  });

  it('part the rests of the harp where they stand', async () => {
    const annotation = await annotate(
      fluteAndHarp(['c5', null, null, null, null, null, null, 'd5'], {
        3: directionOf('<words>rit.</words>'),
        5: directionOf('<words>a tempo</words>'),
      }),
    );
    expect(wordsOf(annotation)).toMatch(/rit\..*a tempo/);
    expect(groups(annotation, 'measure')).toHaveLength(5);
  });

  it('give a movement its title over its tempo', async () => {
    const annotation = await annotate(
      fluteAndHarp(['c5', 'd5'], {
        0:
          directionOf('<metronome><beat-unit>quarter</beat-unit><per-minute>48</per-minute></metronome>') +
          directionOf('<words>I. Ebb</words>'),
      }),
    );
    const lines = groups(annotation, 'tempo').flatMap((tempo) => descendantsNamed(tempo, 'text', 'tspan'));
    const heights = lines
      .filter(({ attributes }) => attributes.y !== undefined)
      .map(({ attributes }) => Number(attributes.y));
    expect(wordsOf(annotation)).toMatch(/I\. Ebb.*= 48/);
    expect(new Set(heights).size).toBeGreaterThan(1);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
  });

  it('that run over the margin are drawn to its left', async () => {
    const words = 'Very slowly, as if the evening would not end and nobody wanted it to end at all';
    const bars = Array.from({ length: 40 }, () => 'c5');
    const everywhere = Object.fromEntries(
      bars.map((_, i) => [i, directionOf(`<words>${words} ${i}</words>`, 'tempo="40"')]),
    );
    const annotation = await annotate(fluteAndHarp(bars, everywhere));
    const moved = groups(annotation, 'tempo').map(({ attributes }) => attributes.transform);
    // Those near the ends of lines are moved, those near the starts are not.
    expect(moved.filter((each) => each === undefined).length).toBeGreaterThan(0);
    expect(moved.filter((each) => /^translate\(-\d/.test(each ?? '')).length).toBeGreaterThan(0);
  });
});

describe('a part whose first bar says nothing of staves and clefs', () => {
  it('keeps its notes and its marking on the page', async () => {
    const bare = new TextDecoder()
      .decode(fluteAndHarp(['c5', null], {}))
      .replace(/<attributes>(?:(?!<\/attributes>).)*<staves>2<\/staves><\/attributes>/, '');
    const annotation = await annotate(new TextEncoder().encode(bare));
    expect(groups(annotation, 'note')).toHaveLength(1);
    expect(markingsOf(annotation)).toHaveLength(1);
  });
});

it('endings that only their stop numbers are printed with their numbers', async () => {
  const ending = (number: string, type: string): string => `<ending number="${number}" type="${type}"/>`;
  const music = buildHarp(
    note('C4', 4),
    barline(ending('', 'start'), 'left') +
      note('D4', 4) +
      barline(`${ending('1', 'stop')}<repeat direction="backward"/>`),
    barline(ending('', 'start'), 'left') + note('E4', 4) + barline(ending('2', 'stop')),
  );
  const annotation = await annotate(new TextEncoder().encode(music));
  expect(groups(annotation, 'voltaBracket')).toHaveLength(2);
});

describe('page turns', () => {
  it('are moved to a rest near the end of a page', async () => {
    const before = await annotate(meiScore({ bars: SEVERAL_PAGES }), { pageTurns: 'anywhere' });
    const lastLine = Number(lineStarts(before, 0).at(-1));
    // The line before the last on the page ends in bars of rest: so many that some shift of the lines does not matter.
    const bars = SEVERAL_PAGES.map((bar, i) => (i > lastLine - 5 && i < lastLine + 1 ? 'R/R' : bar));
    const turned = await annotate(meiScore({ bars }), { multiBarRests: false });
    expect(turned.turns[0]).toMatchObject({ page: 1, free: 'both-hands' });
    const next = turned.turns[0]!.bar + 1;
    expect(lineStarts(turned, 1)[0]).toBe(`${next}`);
    expect(turned.remarks.find(({ code }) => code === 'page-turn')!.message).toMatch(
      /page turns? leaves? at least/,
    );
  });

  it('without a rest are told', async () => {
    const annotation = await annotate(meiScore({ bars: SEVERAL_PAGES }), { pageTurns: 'every-page' });
    expect(annotation.turns).toHaveLength(annotation.pages.length - 1);
    expect(annotation.turns[0]).toMatchObject({ free: 'none' });
    expect(annotation.remarks.some(({ message }) => /no time to turn/.test(message))).toBe(true);
  });
});

/** Printed numbers of the bars at the line starts of a page. */
const lineStarts = ({ pages }: Annotation, page: number): string[] =>
  descendantsNamed(treeOf(pages[page]!), 'g')
    .filter((group) => (group.attributes.class ?? '').startsWith('mNum'))
    .map(
      (group) =>
        /\d+/.exec(pages[page]!.slice(group.span.start, group.span.end).replace(/<[^>]*>/g, ' '))![0],
    );

describe("the file's own breaks", () => {
  it('are kept on request', async () => {
    const bars = Array.from({ length: 6 }, () => 'c4.1/R');
    const before = { 2: '<sb/>', 4: '<pb/>' };
    const kept = await annotate(meiScore({ bars, before }), { keepBreaks: true });
    const own = await annotate(meiScore({ bars, before }));
    expect(kept.pages).toHaveLength(2);
    expect(groups(kept, 'system')).toHaveLength(3);
    expect(own.pages).toHaveLength(1);
    expect(groups(own, 'system')).toHaveLength(1);
  });

  it('are those of the first part where the harp has none of its own', async () => {
    const harp = ['c5', 'd5', 'e5', 'f5'];
    const broken = fluteAndHarp(harp, { 2: '<print new-system="yes"/>', 3: '<print new-page="yes"/>' });
    const kept = await annotate(broken, { keepBreaks: true });
    expect(kept.pages).toHaveLength(2);
    expect(groups(kept, 'system')).toHaveLength(3);
  });

  it('that a file does not have cannot be kept, and that is told', async () => {
    const annotation = await annotate(meiScore({ bars: ['c4.1/R'] }), { keepBreaks: true });
    expect(annotation.remarks.map(({ code }) => code)).toContain('breaks-not-kept');
  });

  it('that leave too much for a page are given up, and that is told', async () => {
    const bars = Array.from({ length: 40 }, () => 'c4.1/c3.1');
    const before = Object.fromEntries(bars.map((_, i) => [i, i === 39 ? '<pb/>' : '<sb/>']));
    const annotation = await annotate(meiScore({ bars, before }), { keepBreaks: true });
    expect(annotation.remarks.map(({ code }) => code)).toContain('breaks-not-kept');
  });
});

describe('settings at line and page starts', () => {
  it('stand at each line where wanted', async () => {
    const annotation = await annotate(meiScore({ bars: SEVERAL_PAGES }), { settings: { systemStart: true } });
    const lines = groups(annotation, 'system').length;
    expect(groups(annotation, 'pedal-setting')).toHaveLength(lines);
  });

  it('stand at each page where wanted', async () => {
    const annotation = await annotate(meiScore({ bars: SEVERAL_PAGES }), { settings: { pageStart: true } });
    expect(groups(annotation, 'pedal-setting')).toHaveLength(annotation.pages.length);
    for (const page of annotation.pages) {
      expect(groups({ ...annotation, pages: [page] }, 'pedal-setting')).toHaveLength(1);
    }
  });

  it.each([
    ['a long rest is followed by a new page', 4, '<pb/>', 1, {}],
    ['changes alone are wanted: nowhere', 4, '<pb/>', 0, { density: 'changes' }],
    ['a long rest is followed by a new line, which the setting stands just above', 4, '<sb/>', 0, {}],
    ['a rest of very many bars is followed by a new line', 20, '<sb/>', 1, {}],
    ['a short rest is followed by a new page', 3, '<pb/>', 0, {}],
  ] as const)('stand once more where the harp comes in, if %s', async (_, rests, before, count, wanted) => {
    const bars = ['c4.1/R', ...Array.from({ length: rests }, () => 'R/R'), 'c4.1/R'];
    const bytes = meiScore({ bars, before: { [rests + 1]: before } });
    const annotation = await annotate(bytes, { keepBreaks: true, ...wanted });
    const settings = groups(annotation, 'pedal-setting').map(({ attributes }) =>
      Number(attributes['data-bar']),
    );
    expect(settings.filter((bar) => bar === rests + 2)).toHaveLength(count);
  });
});

describe('the study copy', () => {
  it('colours the noteheads of C and F strings, and no others', async () => {
    const annotation = await annotate(meiScore({ bars: ['c4.4 d4.4 f4.4 g4.4/R'] }), {
      stringColours: 'c-red-f-blue',
    });
    const coloured = annotation.pages[0]!.match(/#(?:c8102e|1f4e9e)/g);
    expect(new Set(coloured).size).toBe(2);
    const plain = await annotate(meiScore({ bars: ['c4.4 d4.4 f4.4 g4.4/R'] }));
    expect(plain.pages[0]).not.toMatch(/c8102e|1f4e9e/);
  });

  it('puts notes that are left out in brackets, and only those', async () => {
    const bytes = meiScore({ bars: ['f4.2 a4.2/R'] });
    const opened = openScore(bytes);
    const [first] = opened.ok ? opened.value.notes : [];
    const left = await annotateBytes(annotator, bytes, { plan: { omitted: new Set([first!.id]) } }, 'svg');
    const parentheses = (page = '') => page.match(/href="#E26[AB]/g)?.length ?? 0;
    const plain = parentheses((await annotate(bytes)).pages[0]);
    expect(left.ok && parentheses(left.value.pages[0])).toBe(plain + 2);
    // A note that an earlier annotation left out, and this one plays.
    if (!opened.ok) throw new Error(opened.problem.code);
    const done = annotateSource(opened.value, [], { others: 'keep', omitted: [first!.id] });
    if (!done.ok) throw new Error(done.problem.code);
    expect(done.value.text).toContain('head.mod="paren"');
    expect(parentheses((await annotate(done.value.bytes)).pages[0])).toBe(plain);
  });

  it('names the string of a double accidental, or puts it in brackets', async () => {
    const bytes = meiScore({ bars: ['f##4.2 a4.2/R'] });
    expect(wordsOf(await annotate(bytes))).toMatch(/= G/);
    const plain = await annotate(bytes, { respelledLook: 'plain' });
    expect(wordsOf(plain)).not.toMatch(/= G/);
    const bracketed = await annotate(bytes, { respelledLook: 'bracketed' });
    const parentheses = (annotation: Annotation) =>
      annotation.pages[0]!.match(/href="#E26[AB]/g)?.length ?? 0;
    expect(parentheses(bracketed)).toBe(parentheses(plain) + 2);
  });

  it('says over a chord which of its notes is played on the string of another name', async () => {
    const inChord = await annotate(meiScore({ bars: ['f##4+c5.2 a4.2/R'] }));
    expect(wordsOf(inChord).replace(/\s/g, '')).toMatch(/F𝄪=G/u);
    const alone = await annotate(meiScore({ bars: ['f##4.2 a4.2/R'] }));
    expect(wordsOf(alone).replace(/\s/g, '')).not.toMatch(/F𝄪=G/u);
  });

  it('numbers a place that cannot be played, and refers it to the findings', async () => {
    const annotation = await annotate(meiScore({ bars: ['c4.1/R', 'c4+c#5.1/R', 'c4.1/R'] }));
    const [flag] = groups(annotation, 'place-flag');
    expect(annotation.unplayablePlaces).toHaveLength(1);
    expect(flag!.attributes).toMatchObject({ 'data-number': '1', 'data-bar': '2' });
    const findings = flag!.attributes['data-findings']!.split(' ').map(
      (index) => annotation.plan.plan.findings[Number(index)]!,
    );
    expect(findings.every(({ severity }) => severity === 'stop')).toBe(true);
    const unmarked = await annotate(meiScore({ bars: ['c4+c#5.1/R'] }), { numberUnplayable: false });
    expect(groups(unmarked, 'place-flag')).toEqual([]);
    expect(unmarked.unplayablePlaces).toHaveLength(1);
  });
});

describe('pedal markings of the file', () => {
  const events = { 0: '<dir staff="2" place="below" tstamp="3">C♯</dir>' };
  const bars = ['c4.2 d4.2/R', 'c#4.1/R'];

  it('give way to ours, and that is told', async () => {
    const annotation = await annotate(meiScore({ bars, events }));
    expect(groups(annotation, 'dir')).toEqual([]);
    expect(annotation.remarks.map(({ code }) => code)).toContain('file-markings-replaced');
  });

  it('stay on request', async () => {
    const annotation = await annotate(meiScore({ bars, events }), { fileMarkings: true });
    expect(groups(annotation, 'dir')).toHaveLength(1);
    expect(annotation.remarks.map(({ code }) => code)).not.toContain('file-markings-replaced');
  });
});

describe('a multi-bar rest', () => {
  /** Widths of the joined rests on a part of one line. */
  const widthOf = async (rests: number): Promise<number> => {
    const bars = ['c4.1/R', ...Array.from({ length: rests }, () => 'R/R'), 'c4.1/R'];
    const [page] = (await annotate(meiScore({ bars }))).pages;
    const rest = groupsOf(page!, 'measure')[1]!;
    const line = descendantsNamed(rest, 'path')[0]!.attributes.d!;
    const [, from, to] = /^M(-?\d+) -?\d+ L(-?\d+)/.exec(line)!;
    return Number(to) - Number(from);
  };

  it('joins bars in which other parts have signs, words and lines', async () => {
    const others =
      '<dynam staff="1" tstamp="1">f</dynam><hairpin staff="1" tstamp="1" tstamp2="1m+1" form="cres"/>';
    const text = new TextDecoder()
      .decode(meiFluteAndHarp(['', others, others, others, '']))
      .replace(/<note xml:id="(?:upper|lower)-[234]"[^>]*>/g, '<mRest/>');
    const [page] = (await annotate(new TextEncoder().encode(text))).pages;
    expect(groupsOf(page!, 'multiRest')).toHaveLength(2);
    expect(groupsOf(page!, 'mRest')).toHaveLength(0);
  });

  it('is the wider the longer it lasts, and never a sliver', async () => {
    const widths = [await widthOf(2), await widthOf(8), await widthOf(32)];
    // In hundredths of a millimetre: a staff is seven millimetres high.
    expect(widths[0]).toBeGreaterThan(1200);
    expect(widths[1]).toBeGreaterThan(widths[0]! + 500);
    expect(widths[2]).toBeGreaterThan(widths[1]! + 500);
  });
});

describe('lines and pages', () => {
  const systemsOf = ({ pages }: Annotation): number[][] =>
    pages.map((page) =>
      groupsOf(page, 'system').map((system) => {
        const inside = (each: XmlElement): boolean =>
          (each.attributes.class ?? '').split(' ').includes('measure');
        return system.children.filter(inside).length;
      }),
    );

  it.each([17, 29, 41])('never end with a bar alone on its line (%i bars)', async (count) => {
    const bars = Array.from({ length: count }, (_, i) => `c4.4 e4.8 f4.8 g4.4 ${'abcdefg'[i % 7]}4.4/c3.1`);
    const last = systemsOf(await annotate(meiScore({ bars })))
      .flat()
      .at(-1)!;
    expect(last).toBeGreaterThan(1);
  });

  it.each([10, 11])('begin with a rehearsal mark where that costs little (bar %i)', async (bar) => {
    const bars = Array.from({ length: 22 }, () => 'c4.4 e4.4 g4.4 e4.4/c3.1');
    const annotation = await annotate(
      meiScore({ bars, events: { [bar]: '<reh staff="1" tstamp="1">A</reh>' } }),
    );
    const starts = annotation.pages.flatMap((page) =>
      groupsOf(page, 'system').map(
        (system) => system.children.find((each) => each.attributes.class === 'measure')!,
      ),
    );
    expect(starts.filter((measure) => groupsIn(measure, 'reh').length > 0)).toHaveLength(1);
  });
});

const groupsIn = (element: XmlElement, name: string): XmlElement[] =>
  descendantsNamed(element, 'g').filter((each) => each.attributes.class === name);
