import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { midiOf, pitchName } from '../../../engine/music/pitch.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import type { Annotation } from '../../../render/annotation.ts';
import { type CueRequest, chooseCues } from '../../../render/cues/choose-cues.ts';
import { fittingStaff } from '../../../render/cues/cue-staff.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import {
  buildScore,
  direction,
  note,
  readScore,
  rest,
  words,
} from '../../engine/score/musicxml/musicxml-builder.ts';
import { cases } from '../../thorough.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';

const RESTS = 8;

const silence = (bars: number): string[] => Array.from({ length: bars }, () => rest(4));
const run = (...names: readonly string[]): string => names.map((name) => note(name)).join('');

/** The harp plays, rests for eight bars and comes in again, while others play in the two bars before it does. */
const scoreOf = (
  others: readonly {
    readonly name: string;
    readonly last: readonly string[];
    readonly list?: string;
    readonly first?: string;
  }[],
  harp: readonly string[] = [note('C4', 4), ...silence(RESTS), note('D4', 4)],
): string =>
  buildScore([
    ...others.map(({ name, last, first = '' }, i) => ({
      id: `P${i + 1}`,
      name,
      bars: [first + rest(4), ...silence(RESTS - last.length), ...last, rest(4)],
    })),
    { id: 'H', name: 'Harp', bars: harp },
  ]);

const ASKED: CueRequest = { cues: RESTS, cueSeconds: null, cueBars: 2, cueParts: [] };

/** For each cue the part, the bars and the notes. */
const cuesOf = (xml: string, asked: Partial<CueRequest> = {}): unknown[] =>
  chooseCues(readScore(xml), { ...ASKED, ...asked }).cues.map(({ part, bars, notes }) => [
    part.name,
    bars,
    notes.map(({ pitch }) => pitchName(pitch)).join(' '),
  ]);

const MELODY = [run('E5', 'F5', 'G5', 'A5'), run('B5', 'A5', 'G5', 'F5')];

describe('a cue', () => {
  it('is the last bars that another part plays before the harp comes in', () => {
    expect(cuesOf(scoreOf([{ name: 'Oboe', last: [run('C5', 'C5', 'C5', 'C5'), ...MELODY] }]))).toEqual([
      ['Oboe', [7, 8], 'E5 F5 G5 A5 B5 A5 G5 F5'],
    ]);
  });

  it('stands after rests as long as asked for alone, by bars or by the clock', () => {
    const xml = scoreOf([{ name: 'Oboe', last: MELODY }]);
    expect(cuesOf(xml, { cues: RESTS + 1 })).toEqual([]);
    // Eight bars of 4/4 at 96 last 20 s.
    expect(cuesOf(xml, { cues: null, cueSeconds: 20 })).toHaveLength(1);
    expect(cuesOf(xml, { cues: null, cueSeconds: 20.5 })).toEqual([]);
  });

  it('ends where the harp comes in within a bar', () => {
    const harp = [note('C4', 4), ...silence(RESTS), rest(2) + note('D4', 2)];
    const xml = buildScore([
      { id: 'P1', name: 'Oboe', bars: [...silence(RESTS), ...MELODY] },
      { id: 'H', name: 'Harp', bars: harp },
    ]);
    expect(cuesOf(xml)).toEqual([['Oboe', [8, 9], 'E5 F5 G5 A5 B5 A5']]);
  });

  it('stays out of the bar of the entry where the harp comes in at once', () => {
    const harp = [note('C4', 4), ...silence(RESTS), rest(0.5) + note('D4', 3.5)];
    const xml = buildScore([
      { id: 'P1', name: 'Oboe', bars: [...silence(RESTS), ...MELODY] },
      { id: 'H', name: 'Harp', bars: harp },
    ]);
    expect(cuesOf(xml)).toEqual([['Oboe', [8], 'E5 F5 G5 A5']]);
  });

  it('is at concert pitch', () => {
    const transposed = scoreOf([
      {
        name: 'Clarinet',
        first:
          '<attributes><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>',
        last: [run('E5', 'F#5', 'G5', 'A5')],
      },
    ]);
    expect(cuesOf(transposed)).toEqual([['Clarinet', [8], 'D5 E5 F5 G5']]);
  });

  it.each([
    ['a melody rather than a held note', { last: MELODY }, { last: [note('E5', 4), note('E5', 4)] }],
    [
      'a melody rather than a tremolo',
      { last: MELODY },
      {
        last: MELODY.map((bar) =>
          bar.replaceAll(
            '</note>',
            '<notations><ornaments><tremolo>3</tremolo></ornaments></notations></note>',
          ),
        ),
      },
    ],
    [
      'what is loud rather than what is soft',
      { last: [direction('<dynamics><ff/></dynamics>') + MELODY[0], MELODY[1]!] },
      { last: [direction('<dynamics><pp/></dynamics>') + MELODY[0], MELODY[1]!] },
    ],
    ['what is marked as a solo', { last: [words('Solo') + MELODY[0], MELODY[1]!] }, { last: MELODY }],
    [
      'what leads to the entry rather than what ends before',
      { last: MELODY },
      { last: [...MELODY.slice(0, 1), rest(4)] },
    ],
    [
      'one line rather than chords',
      { last: MELODY },
      { last: MELODY.map((bar) => bar.replaceAll('</note>', `</note>${note('C5', 1, { chord: true })}`)) },
    ],
  ])('shows %s', (_, better, worse) => {
    const [a, b] = [
      { name: 'Better', ...better },
      { name: 'Worse', ...worse },
    ];
    for (const parts of [
      [a, b],
      [b, a],
    ]) {
      expect(chooseCues(readScore(scoreOf(parts)), ASKED).cues.map(({ part }) => part.name)).toEqual([
        'Better',
      ]);
    }
  });

  it('can be changed, dropped, and asked for where it is not usual', () => {
    const xml = scoreOf([
      { name: 'Oboe', last: MELODY },
      { name: 'Horn', last: [note('E4', 4), note('F4', 4)] },
    ]);
    expect(cuesOf(xml, { cueParts: [{ bar: 9, part: 'P2' }] })).toEqual([['Horn', [7, 8], 'E4 F4']]);
    expect(cuesOf(xml, { cueParts: [{ bar: 9, part: null }] })).toEqual([]);
    expect(cuesOf(xml, { cues: null, cueParts: [{ bar: 9, part: 'P1' }] })).toHaveLength(1);
  });

  it('is told to be missing where no other part plays', () => {
    const silent = scoreOf([{ name: 'Oboe', last: [] }]);
    expect(chooseCues(readScore(silent), ASKED)).toEqual({ cues: [], without: [9] });
    const early = scoreOf([{ name: 'Oboe', last: [run('C5', 'D5', 'E5', 'F5'), rest(4), rest(4)] }]);
    expect(chooseCues(readScore(early), ASKED)).toEqual({ cues: [], without: [9] });
  });

  it('stands on the staff of the harp that its pitches fit, in another clef where they fit none', () => {
    const [high, low] = ['E5', 'E2'].map(
      (pitch) => readScore(scoreOf([{ name: 'X', last: [note(pitch, 4)] }]), 'P1').notes,
    );
    const usual = new Map([
      ['1', 30],
      ['2', 18],
    ]);
    const trebles = new Map([
      ['1', 30],
      ['2', 30],
    ]);
    expect(fittingStaff(high!, ['1', '2'], usual)).toEqual({ n: '1', lowest: 30 });
    expect(fittingStaff(low!, ['1', '2'], usual)).toEqual({ n: '2', lowest: 18 });
    expect(fittingStaff(low!, ['1', '2'], trebles)).toMatchObject({ lowest: 18 });
  });
});

describe('a cue never counts as notes of the harp', () => {
  it('moves no pedal, whatever it has: the plan knows the harp alone', () => {
    const names = ['C', 'C#', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'].map(
      (name) => `${name}5`,
    );
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...names), { minLength: 4, maxLength: 4 }), (melody) => {
        const cued = readScore(scoreOf([{ name: 'Oboe', last: [run(...melody)] }]));
        expect(chooseCues(cued, ASKED).cues).toHaveLength(1);
        const moves = planPedals(cued).moves;
        // Of a file that has the cue in the harp's own part.
        const harp = [
          note('C4', 4),
          ...silence(RESTS - 1),
          melody.map((name) => note(name, 1, { cue: true })).join(''),
          note('D4', 4),
        ];
        expect(planPedals(readScore(scoreOf([{ name: 'Oboe', last: [] }], harp))).moves).toEqual(moves);
        expect(moves).toEqual([]);
      }),
      { numRuns: cases(30) },
    );
  });
});

describe('a cue on the page', () => {
  const annotated = async (xml: string, engraving: EngravingChoice): Promise<Annotation> => {
    const result = await annotateBytes(annotator, new TextEncoder().encode(xml), { engraving }, 'svg');
    if (!result.ok) throw new Error(JSON.stringify(result.problem));
    return result.value;
  };

  const CUED = scoreOf([{ name: 'Oboe', last: [run('E5', 'F#5', 'F#5', 'F5')] }]);

  it('is named, small, over the rest of the bar, with the accidentals that the harp’s key needs', async () => {
    const { pages, remarks, plan } = await annotated(CUED, { cues: RESTS });
    const page = pages[0]!;
    const measure = groupsOf(page, 'measure').find(({ span }) =>
      page.slice(span.start, span.end).includes('id="cue-'),
    )!;
    const shown = page.slice(measure.span.start, measure.span.end);
    expect(shown.replace(/<[^>]*>/g, ' ')).toContain('Oboe');
    expect([...shown.matchAll(/ id="cue-[^"]*" class="note/g)]).toHaveLength(4);
    expect([...shown.matchAll(/class="mRest/g)]).toHaveLength(1);
    // A sharp for the first, none for the one after it, a natural for the last.
    expect([...shown.matchAll(/href="#(E26\d)/g)].map(([, code]) => code)).toEqual(['E262', 'E261']);
    // The seven bars before it are one rest.
    expect(groupsOf(page, 'multiRest')).toHaveLength(1);
    expect(remarks.find(({ code }) => code === 'cues')?.message).toBe(
      'Cues show what another instrument plays: Oboe before bar 10.',
    );
    const plain = await annotated(CUED, {});
    expect(plan).toEqual(plain.plan);
  });

  it('shows nothing of what the other part plays after the entry', async () => {
    const beamed = [0, 1, 2, 3].map((i) =>
      note('E5', 0.5).replace(
        '<staff>',
        `<beam number="1">${['begin', 'end', 'begin', 'end'][i]}</beam><staff>`,
      ),
    );
    const xml = buildScore([
      { id: 'P1', name: 'Oboe', bars: [...silence(RESTS), MELODY[0]!, run('E5', 'F5') + beamed.join('')] },
      { id: 'H', name: 'Harp', bars: [note('C4', 4), ...silence(RESTS), rest(2.5) + note('D4', 1.5)] },
    ]);
    const page = (await annotated(xml, { cues: RESTS })).pages[0]!;
    const shown = groupsOf(page, 'measure').at(-1)!;
    const drawn = page.slice(shown.span.start, shown.span.end);
    expect([...drawn.matchAll(/ id="cue-[^"]*" class="note/g)]).toHaveLength(3);
    expect(drawn).not.toMatch(/class="(?:beam|space)/);
  });

  /** The measure of the cue, and the text of the one before it. */
  const measuresOf = (page: string): { readonly cue: string; readonly before: string } => {
    const measures = groupsOf(page, 'measure').map(({ span }) => page.slice(span.start, span.end));
    const cue = measures.findIndex((each) => each.includes('id="cue-'));
    return { cue: measures[cue]!, before: measures[cue - 1]! };
  };

  it('is prepared by its clef before the bar line, and beams the notes of a tuplet', async () => {
    const triplet = [0, 1, 2].map((i) =>
      note(['E2', 'F2', 'G2'][i]!, 0.5)
        .replace('<duration>120', '<duration>80')
        .replace(
          '<staff>',
          `<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification><beam number="1">${['begin', 'continue', 'end'][i]}</beam><staff>`,
        )
        .replace(
          '</note>',
          i === 1
            ? '</note>'
            : `<notations><tuplet type="${i === 0 ? 'start' : 'stop'}"/></notations></note>`,
        ),
    );
    const low = scoreOf([{ name: 'Cello', last: [triplet.join('') + run('A2', 'G2', 'F2')] }]);
    const { before, cue } = measuresOf((await annotated(low, { cues: RESTS })).pages[0]!);
    expect(before).toMatch(/class="multiRest".*class="clef"/s);
    expect(cue.indexOf('class="note')).toBeGreaterThan(0);
    expect(cue.slice(0, cue.indexOf('class="note'))).not.toContain('class="clef');
    expect(cue).toMatch(/class="beam/);
    expect(cue).not.toMatch(/class="flag/);
  });

  it('ends in the clef of the harp, which its notes stand in where it comes in', async () => {
    const bass = '<attributes><clef number="1"><sign>F</sign><line>4</line></clef></attributes>';
    const xml = buildScore([
      { id: 'P1', name: 'Oboe', bars: [...silence(RESTS), MELODY[0]!, run('E5', 'F5') + rest(2)] },
      {
        id: 'H',
        name: 'Harp',
        bars: [note('C4', 4), ...silence(RESTS), `${bass}${rest(2)}${note('D3', 2)}`],
      },
    ]);
    const page = (await annotated(xml, { cues: RESTS })).pages[0]!;
    const [entry] = groupsOf(page, 'measure').slice(-1);
    const lines = entry!.children.find(({ attributes }) => attributes.class === 'staff')!.children;
    const middle = /^M\S+ (\S+)/.exec(lines.filter(({ name }) => name === 'path')[2]!.attributes.d!)![1];
    const drawn = page.slice(entry!.span.start, entry!.span.end);
    const last = drawn.slice(drawn.lastIndexOf('class="notehead"'));
    // A step of the staff is 87 units.
    expect(Math.abs(Number(/translate\(\S+ (\d+)\)/.exec(last)![1]) - Number(middle))).toBeLessThan(9);
    expect([...drawn.matchAll(/href="#(E07[AC])/g)].map(([, code]) => code)).toEqual(['E07C']);
  });

  it('is named again, in brackets, at a line that begins within it', async () => {
    const entry = '<print new-system="yes"/>';
    const xml = buildScore([
      { id: 'P1', name: 'Oboe', bars: [...silence(RESTS - 1), MELODY[0]!, MELODY[1]!, rest(4)] },
      {
        id: 'H',
        name: 'Harp',
        bars: [note('C4', 4), ...silence(RESTS - 1), `${entry}${rest(4)}`, note('D4', 4)],
      },
    ]);
    const names = async (engraving: EngravingChoice): Promise<string[]> =>
      (await annotated(xml, { cues: RESTS, ...engraving })).pages.flatMap((page) =>
        groupsOf(page, 'dir').map(({ span }) => page.slice(span.start, span.end).replace(/<[^>]*>|\s/g, '')),
      );
    expect(await names({ keepBreaks: true })).toEqual(['Oboe', '(Oboe)']);
    expect(await names({})).toEqual(['Oboe']);
  });

  it('is offered by a remark where none was asked for', async () => {
    const { pages, remarks } = await annotated(CUED, {});
    expect(pages[0]).not.toContain('cue-');
    expect(remarks.find(({ code }) => code === 'cues')?.message).toContain('(bar 10)');
    const short = await annotated(
      scoreOf([{ name: 'Oboe', last: [] }], [note('C4', 4), rest(4), note('D4', 4)]),
      {},
    );
    expect(short.remarks.filter(({ code }) => code === 'cues')).toEqual([]);
  });

  it('comes from a score in MEI too', async () => {
    const xml = MEI_SCORE;
    const opened = openScore(new TextEncoder().encode(xml));
    if (!opened.ok) throw new Error(opened.problem.code);
    const score: Score = opened.value;
    const { cues } = chooseCues(score, { ...ASKED, cues: 2 });
    expect(cues.map(({ part, notes }) => [part.name, notes.map(({ pitch }) => midiOf(pitch))])).toEqual([
      ['Flute', [76, 77, 79, 81]],
    ]);
    const { pages } = await annotated(xml, { cues: 2 });
    expect([...pages[0]!.matchAll(/ id="cue-[^"]*" class="note/g)]).toHaveLength(4);
  });
});

const meiBar = (n: number, flute: string, harp: string): string =>
  `<measure n="${n}"><staff n="1"><layer n="1">${flute}</layer></staff><staff n="2"><layer n="1">${harp}</layer></staff></measure>`;

const MEI_SCORE = `<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.1"><meiHead><fileDesc><titleStmt><title>Weir</title></titleStmt><pubStmt/></fileDesc></meiHead>
<music><body><mdiv><score><scoreDef meter.count="4" meter.unit="4"><staffGrp>
<staffDef n="1" lines="5" clef.shape="G" clef.line="2"><label>Flute</label></staffDef><staffDef n="2" lines="5" clef.shape="G" clef.line="2"><label>Harp</label></staffDef>
</staffGrp></scoreDef><section>${[
  meiBar(1, '<mRest/>', '<note pname="c" oct="4" dur="1"/>'),
  meiBar(2, '<mRest/>', '<mRest/>'),
  meiBar(
    3,
    '<beam>' +
      ['e', 'f'].map((p) => `<note pname="${p}" oct="5" dur="8"/>`).join('') +
      '</beam>' +
      ['g', 'a'].map((p) => `<note pname="${p}" oct="5" dur="4"/>`).join('') +
      '<rest dur="4"/>',
    '<mRest/>',
  ),
  meiBar(4, '<mRest/>', '<note pname="d" oct="4" dur="1"/>'),
].join('')}</section></score></mdiv></body></music></mei>`;
