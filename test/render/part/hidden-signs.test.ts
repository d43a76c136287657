import { describe, expect, it } from 'vitest';
import { descendantsNamed } from '../../../engine/xml/tree.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import { backup, bar, buildHarp, forward, note, rest } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore, type SmallScore } from '../small-score.ts';

const pageOf = async (score: string | SmallScore, engraving: EngravingChoice = {}): Promise<string> => {
  const bytes = typeof score === 'string' ? new TextEncoder().encode(score) : meiScore(score);
  const annotated = await annotateBytes(annotator, bytes, { engraving }, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value.pages[0]!;
};

/** SMuFL characters drawn in groups of a kind, in order. */
const glyphsIn = (page: string, kind: string): string[] =>
  groupsOf(page, kind).flatMap((group) =>
    descendantsNamed(group, 'use').map(
      ({ attributes }) => /#(E[0-9A-F]{3})/.exec(Object.values(attributes).join(' '))![1]!,
    ),
  );

describe('a clef that the file hides', () => {
  const clef = (sign: string, line: number): string =>
    `<attributes><clef number="1" print-object="no"><sign>${sign}</sign><line>${line}</line></clef></attributes>`;
  const OPENING = bar(note('C5', 4), { attributes: '<clef><sign>G</sign><line>2</line></clef>' });
  const nextLine = '<print new-system="yes"/>';

  it('is shown where it changes and at the start of the next line', async () => {
    const page = await pageOf(buildHarp(OPENING, clef('F', 4) + note('C3', 4), nextLine + note('D3', 4)), {
      keepBreaks: true,
    });
    expect(glyphsIn(page, 'clef')).toEqual(['E050', 'E07C', 'E062']);
  });

  it('is not printed twice where it is in force already', async () => {
    const page = await pageOf(buildHarp(OPENING, clef('G', 2) + note('D5', 4), nextLine + note('E5', 4)), {
      keepBreaks: true,
    });
    expect(glyphsIn(page, 'clef')).toEqual(['E050', 'E050']);
  });
});

describe('a clef in a bar of rest', () => {
  const restWith = (sign: string, line: number): string =>
    `<attributes><clef><sign>${sign}</sign><line>${line}</line></clef></attributes>${rest(4)}`;
  const OPENING = bar(note('C5', 4), { attributes: '<clef><sign>G</sign><line>2</line></clef>' });

  it.each([
    ['G', 2, 1],
    ['F', 4, 2],
  ])(
    'parts the rest where it is another, and not where it is in force already (%s)',
    async (sign, line, rests) => {
      const page = await pageOf(
        buildHarp(OPENING, rest(4), rest(4), restWith(sign, line), rest(4), note('D4', 4)),
      );
      expect(groupsOf(page, 'multiRest')).toHaveLength(rests);
    },
  );
});

describe('a hidden voice whose notes have no lengths', () => {
  const trilled = (hidden: string): Uint8Array => {
    const plain = new TextDecoder().decode(meiScore({ bars: ['d4.2 c4.2/R', 'c4.1/R'] }));
    return new TextEncoder().encode(
      plain.replace('</layer>', `</layer><layer n="2"><space/>${hidden.repeat(16)}</layer>`),
    );
  };
  const widthOfFirstBar = async (bytes: Uint8Array): Promise<number> => {
    const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
    if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
    const [first, second] = groupsOf(annotated.value.pages[0]!, 'measure').map((bar) =>
      Number(/^M(-?[\d.]+)/.exec(descendantsNamed(bar, 'path')[0]!.attributes.d!)![1]),
    );
    return second! - first!;
  };

  it('takes no room, as what a trill sounds', async () => {
    const bare = await widthOfFirstBar(meiScore({ bars: ['d4.2 c4.2/R', 'c4.1/R'] }));
    expect(await widthOfFirstBar(trilled('<note visible="false" pname="d" oct="4"/>'))).toBe(bare);
    expect(await widthOfFirstBar(trilled('<note pname="d" oct="4"/>')), 'shown').toBeGreaterThan(bare);
  });
});

describe('a clef for the grace notes that end a bar', () => {
  const clef = (sign: string, line: number): string =>
    `<attributes><clef number="1"><sign>${sign}</sign><line>${line}</line></clef></attributes>`;
  const opening = { attributes: '<clef><sign>G</sign><line>2</line></clef>' };
  const beamed = (state: string): string =>
    note('C3', 0.25, { grace: 'plain' }).replace('</note>', `<beam number="1">${state}</beam></note>`);
  const graces = beamed('begin') + beamed('end');
  /** Clefs and notes in the order in which they stand on the page. */
  const signsIn = (page: string): string[] =>
    groupsOf(page, 'layer')
      .flatMap((layer) => descendantsNamed(layer, 'g'))
      .map(({ attributes }) => attributes.class ?? '')
      .filter((kind) => kind === 'clef' || kind === 'note');

  it.each([
    ['before them', bar(note('C5', 4) + clef('F', 4) + graces, opening)],
    [
      'within the note before',
      bar(`${note('C5', 4)}${graces}${backup(1)}${clef('F', 4)}${forward(1)}`, opening),
    ],
  ])(
    'stands before them, and that of the next bar behind them, where the file has it %s',
    async (_, first) => {
      const page = await pageOf(buildHarp(first, clef('G', 2) + note('B4', 4)));
      expect(signsIn(page)).toEqual(['note', 'clef', 'note', 'note', 'clef', 'note']);
    },
  );
});

describe('a clef in the middle of a bar of two voices', () => {
  const clef = (sign: string, line: number): string =>
    `<attributes><clef number="1"><sign>${sign}</sign><line>${line}</line></clef></attributes>`;
  const opening = { attributes: '<clef><sign>G</sign><line>2</line></clef>' };
  /** The step of a clef’s own line, counted up from C0. */
  const STEPS: Readonly<Record<string, number>> = { E050: 32, E07A: 32, E062: 24, E07C: 24 };
  /** Half the distance of two lines of a staff. */
  const STEP = 87.5;

  const placesIn = (page: string, kind: string) =>
    groupsOf(page, kind).flatMap((group) => {
      const [use] = descendantsNamed(group, 'use');
      const place = /translate\((\d+), (\d+)\)/.exec(use?.attributes.transform ?? '');
      const glyph = /#(E[0-9A-F]{3})/.exec(Object.values(use?.attributes ?? {}).join(' '))?.[1];
      return place === null ? [] : [{ x: Number(place[1]), y: Number(place[2]), glyph: glyph! }];
    });

  /** The notes of a page of one staff in one line, as they are read by the last clef to their left. */
  const readNotes = (page: string): string[] => {
    const clefs = placesIn(page, 'clef');
    const heads = placesIn(page, 'notehead').sort((a, b) => a.x - b.x || a.y - b.y);
    return heads.map(({ x, y }) => {
      const inForce = clefs.filter((each) => each.x < x).sort((a, b) => b.x - a.x)[0]!;
      const step = STEPS[inForce.glyph]! + Math.round((inForce.y - y) / STEP);
      return `${'CDEFGAB'[step % 7]}${Math.floor(step / 7)}`;
    });
  };

  it('is read by all notes behind it and by none before, in each voice and in the next bars', async () => {
    const divided = (low: string, high: string): string =>
      `${note('C5', 1)}${clef('F', 4)}${note(low, 3)}${backup(4)}${note(high, 4, { voice: '2' })}`;
    const page = await pageOf(
      buildHarp(
        bar(divided('C3', 'G4'), opening),
        clef('G', 2) + divided('D3', 'A4'),
        clef('F', 4) + note('E3', 4),
      ),
    );
    expect(readNotes(page)).toEqual(['C5', 'G4', 'C3', 'C5', 'A4', 'D3', 'E3']);
  });
});

describe('a tie to a note of another voice, which stands before it in the file', () => {
  it('goes to that note, and not to the next end of a tie', async () => {
    const [upper, lower] = [{ voice: '1' }, { voice: '2' }];
    const tied = (from: 'stop' | 'start', voice: { readonly voice: string }): string =>
      note('A4', 2, { ...voice, ties: [from] }).replace(
        '</note>',
        `<notations><tied type="${from}"/></notations></note>`,
      );
    const crossing = rest(2, upper) + tied('stop', upper) + backup(4) + tied('start', lower) + rest(2, lower);
    const page = await pageOf(buildHarp(crossing, crossing));
    const widths = groupsOf(page, 'tie').map((tie) => {
      const xs = [...descendantsNamed(tie, 'path')[0]!.attributes.d!.matchAll(/(-?[\d.]+),/g)].map(([, x]) =>
        Number(x),
      );
      return Math.max(...xs) - Math.min(...xs);
    });
    expect(widths).toHaveLength(2);
    expect(Math.abs(widths[0]! - widths[1]!)).toBeLessThan(50);
  });
});

describe('rests that only pad a voice', () => {
  const second = { voice: '2' };
  const quarters = rest(1, second).repeat(4);

  it('are hidden where another voice of the staff plays all alone', async () => {
    const page = await pageOf(
      buildHarp(note('C5', 4) + backup(4) + quarters, note('C5', 4) + backup(4) + rest(4, second)),
    );
    expect([...groupsOf(page, 'rest'), ...groupsOf(page, 'mRest')]).toEqual([]);
  });

  it('stay where the voice plays as well, and where a fermata hangs on one', async () => {
    const fermata = rest(1, second).replace('</note>', '<notations><fermata/></notations></note>');
    const page = await pageOf(
      buildHarp(
        note('C5', 4) + backup(4) + rest(3, second) + note('A4', 1, second),
        note('C5', 4) + backup(4) + rest(3, second) + fermata,
      ),
    );
    expect([...groupsOf(page, 'rest'), ...groupsOf(page, 'mRest')]).toHaveLength(3);
  });

  it('show once where all voices of a staff rest', async () => {
    const page = await pageOf(buildHarp(note('C5', 4), rest(4) + backup(4) + rest(4, second), note('C5', 4)));
    expect(glyphsIn(page, 'mRest')).toEqual(['E4E3']);
  });

  it('still carry a change that is written where they stood', async () => {
    const lower = { staff: 2, voice: '5' };
    const typed = (event: string, type: string): string =>
      event.replace('</voice>', `</voice><type>${type}</type>`);
    const padding = typed(rest(1, { staff: 2, voice: '6' }), 'quarter').repeat(4);
    const upper = (pitch: string): string => typed(note(pitch, 2), 'half') + typed(rest(2), 'half');
    const held = (pitch: string): string =>
      upper(pitch) + backup(4) + typed(note('C3', 4, lower), 'whole') + backup(4) + padding;
    const attributes = '<time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves>';
    const page = await pageOf(buildHarp(bar(held('F5'), { attributes }), held('F#5')));
    expect(groupsOf(page, 'rest')).toHaveLength(2);
    expect(groupsOf(page, 'pedal-marking')).toHaveLength(2);
  });
});

describe('a fingering with a fifth finger', () => {
  const fingered = (finger: number): string =>
    note('C4', 1, { notations: `<technical><fingering>${finger}</fingering></technical>` });
  const fingers = (page: string): string[] =>
    groupsOf(page, 'fing').map((group) =>
      descendantsNamed(group, 'tspan')
        .map(({ text }) => text.trim())
        .join(''),
    );

  it('is not printed unless asked for, the others are, and its bar is told', async () => {
    const text = buildHarp(note('C4', 4), fingered(5) + fingered(4) + fingered(1) + note('C5'));
    expect(fingers(await pageOf(text))).toEqual(['4', '1']);
    expect(fingers(await pageOf(text, { fifthFinger: true }))).toEqual(['5', '4', '1']);
    const annotated = await annotateBytes(annotator, new TextEncoder().encode(text), {}, 'svg');
    expect(annotated.ok && annotated.value.remarks.map(({ message }) => message)).toContain(
      'One fingering with a fifth finger is not printed, since harpists play with four (bar 2).',
    );
  });

  it('goes from the harp’s staves of an MEI file, alone or in a group', async () => {
    const events = {
      0: '<fing staff="1" tstamp="1">5</fing><fingGrp staff="2" tstamp="1"><fing>5</fing><fing>2</fing></fingGrp>',
    };
    const score = { bars: ['c5.1/c3.1'], events };
    expect(fingers(await pageOf(score)).join('')).not.toContain('5');
    expect(fingers(await pageOf(score, { fifthFinger: true })).join('')).toContain('5');
  });
});
