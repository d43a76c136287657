import { beforeAll, describe, expect, it } from 'vitest';
import { completeEngraving } from '../../../render/engraving-options.ts';
import { pageLayoutOf } from '../../../render/layout/breaks/page-layout.ts';
import { type Drawer, drawWith } from '../../../render/layout/drawer/drawer.ts';
import { createDrawingMemory } from '../../../render/layout/drawer/drawing-memory.ts';
import { type Engraver, startEngraver } from '../../../render/layout/drawer/verovio.ts';
import { outlineDocument } from '../../../render/layout/lines/document-outline.ts';
import { openLines } from '../../../render/layout/lines/draw-lines.ts';
import type { SystemReading } from '../../../render/layout/lines/laid-out-system.ts';
import { divideIntoLines } from '../../../render/layout/lines/line-documents.ts';
import { ownIds } from '../../../render/layout/lines/own-ids.ts';
import { readLines } from '../../../render/layout/lines/read-lines.ts';

const A4 = pageLayoutOf(completeEngraving({}));

/** A drawing without the names that the layout makes up by chance. */
const drawing = (svg: string, ids: ReadonlySet<string>): string => ownIds(svg, ids, 'line');

/** Four quarter notes a bar, named after the bar: `n3-1` to `n3-4` in bar 3. */
const notes = (bar: number): string =>
  ['g', 'a', 'c', 'e']
    .map((pname, i) => `<note xml:id="n${bar}-${i + 1}" dur="4" oct="4" pname="${pname}"/>`)
    .join('');

const bar = (number: number, beside = '', upper = notes(number)): string =>
  `<measure xml:id="b${number}" n="${number}"><staff n="1"><layer n="1">${upper}</layer></staff>` +
  `<staff n="2"><layer n="1"><mRest/></layer></staff>${beside}</measure>`;

/** Bars with a line break before bars 3 and 5. @param beside what stands in each bar, by its number from 1 */
const part = (bars: readonly string[]): string =>
  '<mei xmlns="http://www.music-encoding.org/ns/mei"><music><body><mdiv><score><scoreDef keysig="2f" meter.count="4" meter.unit="4">' +
  '<staffGrp symbol="brace"><staffDef n="1" lines="5" clef.shape="G" clef.line="2"/><staffDef n="2" lines="5" clef.shape="F" clef.line="4"/></staffGrp>' +
  `</scoreDef><section>${bars.join('')}</section></score></mdiv></body></music></mei>`;

const six = (change: (number: number) => string | undefined): string =>
  part(
    [1, 2, 3, 4, 5, 6].map(
      (number) => `${number === 3 || number === 5 ? '<pb/>' : ''}${change(number) ?? bar(number)}`,
    ),
  );

const withSigns = (signs: Readonly<Record<number, string>>): string =>
  six((number) => bar(number, signs[number]));

/** What may cross the end of a line. */
const CROSSINGS: Readonly<Record<string, string>> = {
  'a slur': withSigns({ 2: '<slur startid="#n2-3" endid="#n3-2"/>' }),
  'a slur over a whole line': withSigns({ 2: '<slur startid="#n2-3" endid="#n5-2"/>' }),
  'a tie': six((number) =>
    number === 2
      ? bar(2, '<tie startid="#n2-4" endid="#n3-1"/>')
      : number === 3
        ? bar(3, '', notes(3).replace('pname="g"', 'pname="e"'))
        : undefined,
  ),
  'a tie that is written at its notes': six((number) =>
    number === 2
      ? bar(2, '', notes(2).replace('pname="e"', 'pname="e" tie="i"'))
      : number === 3
        ? bar(3, '', notes(3).replace('pname="g"', 'pname="e" tie="t"'))
        : undefined,
  ),
  'a hairpin that ends at a note': withSigns({
    2: '<hairpin form="cres" place="below" startid="#n2-2" endid="#n3-3"/>',
  }),
  'a hairpin that is counted in bars': withSigns({
    1: '<hairpin form="dim" staff="1" place="below" tstamp="2" tstamp2="4m+2"/>',
  }),
  'an octave line': withSigns({
    2: '<octave staff="1" dis="8" dis.place="above" startid="#n2-2" endid="#n4-1"/>',
  }),
  'a trill': withSigns({ 2: '<trill startid="#n2-4" endid="#n3-2" extender="true"/>' }),
  'a pedal line': withSigns({
    2: '<pedal dir="down" form="line" staff="2" place="below" tstamp="1"/>',
    4: '<pedal dir="up" form="line" staff="2" place="below" tstamp="3"/>',
  }),
  'words with a line of dashes': withSigns({
    2: '<dir staff="1" place="above" tstamp="2" tstamp2="3m+2" extender="true" lform="dashed">rit.</dir>',
  }),
  'a glissando': withSigns({ 2: '<gliss startid="#n2-4" endid="#n3-1"/>' }),
  'a first ending': six((number) =>
    number === 2
      ? `<ending n="1" lsn="1">${bar(2)}`
      : number === 3
        ? `${bar(3).replace('n="3">', 'n="3" right="rptend">')}</ending>`
        : number === 4
          ? `<ending n="2">${bar(4)}</ending>`
          : undefined,
  ),
  'a new clef': six((number) =>
    number === 2 ? bar(2, '', `${notes(2)}<clef shape="F" line="4"/>`) : undefined,
  ),
  'a clef of an earlier line': six((number) =>
    number === 1 ? bar(1, '', `${notes(1)}<clef shape="C" line="3"/>`) : undefined,
  ),
  'a new key and metre': six((number) =>
    number === 3 ? `<scoreDef keysig="3s" meter.count="3" meter.unit="2"/>${bar(3)}` : undefined,
  ),
  'a repeat sign': six((number) =>
    number === 2
      ? bar(2).replace('n="2">', 'n="2" right="rptend">')
      : number === 3
        ? bar(3).replace('n="3">', 'n="3" left="rptstart">')
        : undefined,
  ),
};

describe('a line that is laid out by itself looks as it does among all others', () => {
  let engraver: Engraver;
  beforeAll(async () => {
    engraver = await startEngraver();
  });

  const together = (mei: string): string[] => {
    const { ids } = divideIntoLines(outlineDocument(mei)!)!;
    return engraver.drawPages(mei, A4)!.map((svg) => drawing(svg, ids));
  };

  const alone = (mei: string, line: number): string => {
    const documents = divideIntoLines(outlineDocument(mei)!)!;
    const { extra, mei: own, pages } = documents.write(line, line);
    return drawing(engraver.drawPages(own, A4, pages)![extra]!, documents.ids);
  };

  it.each(Object.entries(CROSSINGS))('where %s crosses its end', (_, mei) => {
    const whole = together(mei);
    expect(whole).toHaveLength(3);
    expect([0, 1, 2].map((line) => alone(mei, line))).toEqual(whole);
  });

  it('and what crosses its end is drawn in both lines', () => {
    const [first, second] = together(CROSSINGS['a slur']!);
    expect(first).toContain('class="slur"');
    expect(second).toMatch(/class="slur [^"]*spanning"/);
  });
});

describe('lines that were drawn', () => {
  let drawer: Drawer;
  let laidOut: number;
  beforeAll(async () => {
    const engraver = await startEngraver();
    drawer = drawWith({
      ...engraver,
      drawPages: (mei, layout, pages, apartVu) => {
        laidOut += pages?.length ?? 0;
        return engraver.drawPages(mei, layout, pages, apartVu);
      },
    });
  });

  /** Bars are numbered from 1 in the ids of the document. */
  const reading: SystemReading = {
    indexOf: new Map(Array.from({ length: 9 }, (_, bar) => [`b${bar + 1}`, bar])),
    rooms: new Map(),
    pads: new Map(),
    layout: A4,
    passable: new Set(),
    placement: 'below',
    signIds: new Set(),
  };

  const draw = (mei: string, by: Drawer = drawer, wanted = [0, 1, 2]): readonly string[] => {
    laidOut = 0;
    const lines = readLines(by, openLines(by.engraver, mei, A4), reading, wanted)!;
    return lines.map(({ bottom, picture, top }) => `${top} ${bottom} ${picture.body.join('')}`);
  };

  it('are not laid out again, but for those that something new touches', () => {
    const first = draw(withSigns({}));
    expect(laidOut).toBe(3);
    expect(draw(withSigns({}))).toEqual(first);
    expect(laidOut).toBe(0);
    const changed = draw(withSigns({ 4: '<dynam staff="1" tstamp="1">p</dynam>' }));
    expect(laidOut).toBe(1);
    expect(changed.map((line, i) => line === first[i])).toEqual([true, false, true]);
    draw(withSigns({ 4: '<slur startid="#n4-4" endid="#n5-1"/>' }));
    expect(laidOut).toBe(2);
  });

  it('are the same bytes when a part of them was known before', () => {
    const mei = withSigns({
      2: '<slur startid="#n2-3" endid="#n3-2"/>',
      6: '<tempo staff="1" tstamp="1">Lento</tempo>',
    });
    const parts = drawWith(drawer.engraver);
    draw(mei, parts, [1]);
    expect(draw(mei, parts)).toEqual(draw(mei, drawWith(drawer.engraver)));
  });

  it('are laid out all at once where the document keeps its bars in something else than sections', () => {
    const mei = withSigns({})
      .replace('<section>', '<section><supplied>')
      .replace('</section>', '</supplied></section>');
    const drawn = openLines(drawer.engraver, mei, A4);
    expect(drawn.count).toBeNull();
    expect(drawn.draw()).toHaveLength(3);
  });
});

describe('the bars of a document', () => {
  it('are read as they were the first time where they are known, wherever they stand', () => {
    const mei = withSigns({ 2: '<slur startid="#n2-3" endid="#n3-2"/>' });
    const [first, again] = [outlineDocument(mei)!, outlineDocument(mei)!];
    expect(again).toEqual(first);
    const later = outlineDocument(mei.replace('<section>', `<section>${bar(9)}`))!;
    expect(later.measures.map(({ id, index }) => [id, index])).toEqual(
      ['b9', ...first.measures.map(({ id }) => id)].map((id, index) => [id, index]),
    );
  });

  it('end at their own end tag and not at one in a comment', () => {
    const veiled = bar(1, '<!-- </measure> --><dynam staff="1" tstamp="1">p</dynam>');
    const { measures } = outlineDocument(part([veiled, bar(2), veiled]))!;
    expect(measures.map(({ text }) => text)).toEqual([veiled, bar(2), veiled]);
  });
});

describe('what is kept of drawings', () => {
  it('stays within its size: what was not wanted for the longest goes', () => {
    const memory = createDrawingMemory(10);
    memory.keep('a', '1234');
    memory.keep('b', '1234');
    expect(memory.find('a')).toBe('1234');
    memory.keep('c', '1234');
    expect(['a', 'b', 'c'].map((key) => memory.find(key))).toEqual(['1234', undefined, '1234']);
    memory.keep('d', '12345678901');
    expect(memory.find('d')).toBeUndefined();
  });
});
