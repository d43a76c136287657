import { describe, expect, it } from 'vitest';
import { descendantsNamed, type XmlElement } from '../../../engine/xml/tree.ts';
import type { Annotation } from '../../../render/annotation.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import { SVG_UNITS_PER_MM } from '../../../render/layout/breaks/page-layout.ts';
import { bar, buildHarp, direction, note, rest } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf, treeOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore, type SmallScore } from '../small-score.ts';

const annotate = async (score: string | SmallScore, engraving: EngravingChoice = {}): Promise<Annotation> => {
  const bytes = typeof score === 'string' ? new TextEncoder().encode(score) : meiScore(score);
  const annotated = await annotateBytes(annotator, bytes, { engraving }, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value;
};

/** The left ends of the paths in a group: bar lines, staff lines. */
const xsIn = (group: XmlElement): number[] =>
  descendantsNamed(group, 'path').map(({ attributes }) => Number(/^M(-?[\d.]+)/.exec(attributes.d!)![1]));

const signsIn = (page: string): string[] =>
  [...page.matchAll(/class="accid"[^>]*>\s*<use [^>]*href="#(E26[0-3])/g)].map(([, glyph]) => glyph!);

const METRONOME = '<metronome><beat-unit>quarter</beat-unit><per-minute>136</per-minute></metronome>';

describe('a number for an impossible place', () => {
  it('stands by the note after grace notes at the end of a bar', async () => {
    const clash = note('F5', 0, { grace: 'plain' }) + note('F#6', 0, { grace: 'plain', chord: true });
    const { unplayablePlaces: flags, pages } = await annotate(
      buildHarp(note('C5', 4) + clash, note('G5', 4)),
    );
    expect(flags).toHaveLength(1);
    expect(groupsOf(pages[0]!, 'place-flag')).toHaveLength(1);
  });
});

describe('the numbers of impossible places in one line', () => {
  it('stand each near its own note, not all as high as the highest', async () => {
    const clash = (octave: number): string =>
      note(`F${octave}`, 4) + note(`F#${octave - 1}`, 0, { chord: true });
    const { pages } = await annotate(
      buildHarp(
        clash(7).replace('<duration>0', '<duration>960'),
        clash(5).replace('<duration>0', '<duration>960'),
      ),
    );
    const heights = groupsOf(pages[0]!, 'place-flag').map(({ attributes }) =>
      Number(/translate\(\S+ (\S+)\)/.exec(attributes.transform!)![1]),
    );
    expect(heights).toHaveLength(2);
    expect(heights[1]! - heights[0]!).toBeGreaterThan(500);
  });
});

describe('a key signature inside a bar', () => {
  it('leaves no note before it without its accidental, though it is printed at the bar’s start', async () => {
    const late = '<attributes><key><fifths>2</fifths></key></attributes>';
    const first = bar(note('Bb4') + note('Eb5') + late + note('F#4', 2), {
      attributes: '<key><fifths>-2</fifths></key>',
    });
    const { pages } = await annotate(buildHarp(first, note('F#4', 4)));
    expect(signsIn(pages[0]!)).toEqual(['E260', 'E260']);
  });
});

describe('bars of repetition', () => {
  it('are as wide as others, though nothing but their sign stands in them', async () => {
    const repeat = (count: string): string =>
      `<attributes><measure-style><measure-repeat type="start">1</measure-repeat></measure-style></attributes>${rest(4)}${count}`;
    const { pages } = await annotate(
      buildHarp(note('C4') + note('D4') + note('E4', 2), repeat(''), repeat('')),
    );
    const ends = groupsOf(pages[0]!, 'measure').map((measure) =>
      Math.max(
        ...descendantsNamed(measure, 'g')
          .filter((each) => each.attributes.class === 'barLine')
          .flatMap(xsIn),
      ),
    );
    const widths = ends.slice(1).map((end, i) => end - ends[i]!);
    expect(Math.min(...widths)).toBeGreaterThan(1500);
  });
});

describe('the bar number', () => {
  it('stands where a line begins with a rehearsal mark, too', async () => {
    const mark =
      '<direction placement="above"><direction-type><rehearsal>A</rehearsal></direction-type></direction>';
    const line = bar(mark + note('D4', 4), {});
    const { pages } = await annotate(
      buildHarp(note('C4', 4), (i) => line(i).replace('>', '><print new-system="yes"/>')),
      { keepBreaks: true },
    );
    expect(groupsOf(pages[0]!, 'system')).toHaveLength(2);
    expect(groupsOf(pages[0]!, 'reh')).toHaveLength(1);
    expect(groupsOf(pages[0]!, 'mNum')).toHaveLength(1);
  });
});

describe('breaks that are kept', () => {
  it('divide a rest of several bars: no page is without music', async () => {
    const before = { 4: '<pb/>', 8: '<pb/>' };
    const bars = ['c4.1/c3.1', ...Array.from({ length: 10 }, () => 'R/R'), 'c4.1/c3.1'];
    const { pages } = await annotate({ bars, before }, { keepBreaks: true });
    expect(pages).toHaveLength(3);
    for (const page of pages) expect(groupsOf(page, 'measure').length).toBeGreaterThan(0);
  });
});

describe('a full setting in letters', () => {
  it('stays between the margins at both ends of a line', async () => {
    const bars = Array.from({ length: 12 }, (_, i) =>
      i % 2 === 0 ? 'c4.1/c3.1' : 'f#4.4 c#4.4 g#4.4 d#4.4/c3.1',
    );
    const { pages } = await annotate(
      { bars },
      {
        ...{ settingLook: 'letters-one-row', naming: 'fixed-do', density: 'settings' },
        ...{ settings: { systemStart: true }, paper: { widthMm: 120, heightMm: 200 } },
      },
    );
    const places = pages.flatMap((page) =>
      groupsOf(page, 'pedal-marking').map(({ attributes }) =>
        Number(/translate\((-?[\d.]+)/.exec(attributes.transform ?? '')![1]),
      ),
    );
    expect(places.length).toBeGreaterThan(3);
    expect(Math.min(...places)).toBeGreaterThanOrEqual(0);
  });
});

describe('the heading', () => {
  it('breaks long names, so that part and composer do not meet, and names the arranger', async () => {
    const long = 'Wilhelmina Featherstonehaugh of Cholmondeley and Marjoribanks (1876 to 1954)';
    const header = `<identification><creator type="composer">${long}</creator><creator type="arranger">N. N.</creator></identification>`;
    const text = buildHarp(note('C4', 4)).replace('<part-list>', `${header}<part-list>`);
    const { pages } = await annotate(text);
    const words = descendantsNamed(treeOf(pages[0]!), 'tspan').map(({ text: said }) => said.trim());
    expect(words).not.toContain(long);
    expect(words.filter((each) => each !== '' && long.startsWith(each))).not.toEqual([]);
    expect(words).toContain('arr. N. N.');
  });
});

describe('the foot of the page', () => {
  const words = (page: string): string[] =>
    descendantsNamed(treeOf(page), 'tspan').map(({ text: said }) => said.trim());
  const line = '© 2026 N. N.';

  it('has the rights of a MusicXML file on the first page alone', async () => {
    const header = `<identification><rights>${line}</rights><rights type="words"> ${line} </rights></identification>`;
    const text = buildHarp(note('C4', 4), (i) =>
      bar(note('D4', 4), {})(i).replace('>', '><print new-page="yes"/>'),
    ).replace('<part-list>', `${header}<part-list>`);
    const { pages } = await annotate(text, { keepBreaks: true });
    expect(pages.map((page) => words(page).filter((said) => said === line).length)).toEqual([1, 0]);
  });

  it('keeps long rights clear of the foot of a study edition', async () => {
    const rights = 'These bars may be copied, sung, played and printed by whoever likes them. '.repeat(4);
    const header = `<identification><rights>${rights}</rights></identification>`;
    const text = buildHarp(note('C4', 4)).replace('<part-list>', `${header}<part-list>`);
    const { pages } = await annotate(text, { edition: 'study' });
    const page = pages.find((each) => each.includes('pgFoot'))!;
    const drawn = [...page.slice(page.indexOf('class="pgFoot"')).matchAll(/ y="(\d+)"/g)].map(([, y]) =>
      Number(y),
    );
    const lines = drawn.slice(0, words(page).filter((said) => said !== '' && rights.includes(said)).length);
    expect(lines.length).toBeGreaterThan(1);
    // The foot of the edition is 5 mm from the edge, its letters 2 mm high; the music’s place ends 12 mm from it.
    expect(Math.max(...lines)).toBeLessThan((297 - 12 - 7) * SVG_UNITS_PER_MM);
  });

  it('has the terms of use of an MEI file, not those of the sources it was made from', async () => {
    const availability = (text: string): string =>
      `<pubStmt><availability><useRestrict>${text}</useRestrict></availability></pubStmt>`;
    const mei = new TextDecoder()
      .decode(meiScore({ bars: ['c4.1/c3.1'] }))
      .replace(
        '<pubStmt/>',
        `${availability(line)}<sourceDesc><source><pubStmt><availability><p>Old print</p></availability></pubStmt></source></sourceDesc>`,
      );
    const { pages } = await annotate(mei);
    expect(words(pages[0]!)).toContain(line);
    expect(words(pages[0]!)).not.toContain('Old print');
  });
});

describe('a direction of many words', () => {
  it('is broken into lines of about equal length, and loses no word', async () => {
    const long = 'let all of the strings go on ringing and do not still any of them, however loud they are';
    const { pages } = await annotate(buildHarp(direction(`<words>${long}</words>`) + note('C4', 4)));
    const lines = groupsOf(pages[0]!, 'dir')
      .flatMap((dir) => descendantsNamed(dir, 'tspan'))
      .map(({ text }) => text.trim())
      .filter((text) => text !== '');
    expect(lines.join(' ')).toBe(long);
    expect(lines.length).toBeGreaterThan(1);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThan(50);
  });
});

describe('many ledger lines', () => {
  const toldIn = async (bars: readonly string[]): Promise<string[]> =>
    (await annotate({ bars })).remarks
      .filter(({ code }) => code === 'many-ledger-lines')
      .map(({ message }) => message);

  it('are told where the other staff has room for the notes', async () => {
    expect(await toldIn(['c5.1/c3.1', 'b2.1/R', 'c5.1/d5.1'])).toEqual([
      expect.stringContaining('(bars 2 and 3)'),
    ]);
  });

  it('are gone where the notes are written on the other staff, with the rest that stood there', async () => {
    const { pages, remarks } = await annotate({ bars: ['b2.1/R', 'c5.1/d5.1'] }, { crossStaves: true });
    expect(groupsOf(pages[0]!, 'ledgerLines')).toEqual([]);
    expect(groupsOf(pages[0]!, 'mRest')).toEqual([]);
    expect(remarks.map(({ code }) => code)).not.toContain('many-ledger-lines');
  });

  it('stay and are told where the notes would be read with other accidentals', async () => {
    const { pages, remarks } = await annotate({ bars: ['b2.1/bb2.2 c3.2'] }, { crossStaves: true });
    expect(groupsOf(pages[0]!, 'ledgerLines')).not.toEqual([]);
    expect(remarks.find(({ code }) => code === 'many-ledger-lines')?.message).toMatch(
      /stay on their staff.*\(bar 1\)/,
    );
  });

  it('are not told of notes out of reach of the other staff, nor of fewer than five', async () => {
    expect(await toldIn(['e7.1/c1.1', 'd3.1/b4.1', 'e1.1/R'])).toEqual([]);
  });
});

describe('brackets round a metronome mark', () => {
  it('stay round it, behind the words of the tempo', async () => {
    const content = ['<words>Adagio</words>', '<words> [</words>', METRONOME, '<words>]</words>'];
    const tempo = `<direction placement="above">${content.map((each) => `<direction-type>${each}</direction-type>`).join('')}</direction>`;
    const { pages } = await annotate(buildHarp(tempo + note('C4', 4)));
    const said = groupsOf(pages[0]!, 'tempo').map((group) =>
      descendantsNamed(group, 'tspan')
        .filter(({ children }) => children.every(({ name }) => name !== 'tspan'))
        .map(({ text }) => text)
        .join('')
        .replace(/\s/gu, ''),
    );
    expect(said).toEqual(['Adagio[=136]']);
  });
});

describe('a footnote', () => {
  it('stands under the music with its bar, and the words of its sign do not', async () => {
    const footnote = '* Knock <twice> on the body & wait';
    const escaped = footnote.replace('&', '&amp;').replace('<', '&lt;').replace('>', '&gt;');
    const { pages } = await annotate(
      buildHarp(note('C4', 4), `${direction(`<words>${escaped}</words>`)}${note('C4', 4)}`),
    );
    const said = descendantsNamed(treeOf(pages[0]!), 'tspan', 'text').map(({ text }) => text.trim());
    expect(said).toContain(`Bar 2: ${footnote}`);
    expect(groupsOf(pages[0]!, 'dir')).toEqual([]);
  });
});
