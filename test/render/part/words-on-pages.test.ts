import { describe, expect, it } from 'vitest';
import { descendantsNamed } from '../../../engine/xml/tree.ts';
import { bar as meiBar, note as meiNote, meiScore } from '../../engine/score/mei/mei-builder.ts';
import {
  buildHarp,
  buildScore,
  DIVISIONS,
  direction,
  note,
  rest,
} from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';

const pageOf = async (score: string): Promise<string> => {
  const annotated = await annotateBytes(annotator, new TextEncoder().encode(score), {}, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value.pages[0]!;
};

/** The words of each group of a kind, by the stretches in which they are set. */
const stretches = (page: string, kind: string): string[][] =>
  groupsOf(page, kind).map((group) =>
    descendantsNamed(group, 'tspan')
      .filter(({ children, text }) => children.every(({ name }) => name !== 'tspan') && text.trim() !== '')
      .map(({ text }) => text.trim()),
  );

const heights = (page: string, kind: string): (string | undefined)[] =>
  groupsOf(page, kind).map((group) => {
    const shift = group.attributes.transform ?? '';
    return `${descendantsNamed(group, 'text')[0]!.attributes.y} ${shift}`;
  });

describe('a footnote in the harp’s part', () => {
  const NOTE = direction('<words>* Sung a tone lower at the first performance.</words>') + note('C5', 4);
  const sign = direction('<words>*</words>');

  const pageWith = (singer: string, harp: string): Promise<string> =>
    pageOf(
      buildScore([
        { id: 'P1', name: 'Voice', bars: [singer + note('C5', 4)] },
        { id: 'P2', name: 'Harp', bars: [harp] },
      ]),
    );

  it('stands under the music, but not where its sign is a singer’s alone', async () => {
    expect(await pageWith('', sign + NOTE)).toContain('Sung a tone lower');
    expect(await pageWith('', NOTE)).toContain('Sung a tone lower');
    expect(await pageWith(sign, NOTE)).not.toContain('Sung a tone lower');
    expect(await pageWith(sign, sign + NOTE)).toContain('Sung a tone lower');
  });
});

describe('the string that a note is played on', () => {
  it('is named within its bar, not over the next', async () => {
    const chord = (name: string, ...others: string[]) =>
      [note(name, 2), ...others.map((other) => note(other, 2, { chord: true }))].join('');
    const page = await pageOf(
      buildHarp(chord('C4') + chord('G##4', 'C4'), chord('G##4', 'C4') + chord('C4'), note('C5', 4)),
    );
    const anchors = groupsOf(page, 'dir').map(
      (group) => descendantsNamed(group, 'text')[0]!.attributes['text-anchor'],
    );
    expect(anchors).toEqual(['end', undefined]);
  });
});

describe('words of one direction', () => {
  /** As the page has them: a line break of the drawing is no space. */
  const wordsOn = (page: string, kind: string): readonly string[] =>
    groupsOf(page, kind).map((group) =>
      descendantsNamed(group, 'tspan')
        .filter(({ children }) => children.every(({ name }) => name !== 'tspan'))
        .map(({ text }) => text.replace(/\n[\n ]*/g, ''))
        .join('')
        .replace(/\s+/g, ' ')
        .trim(),
    );

  it('have a space between them, in one style or in several', async () => {
    const plain = '<words>poco</words><words>rit.</words>';
    const styled =
      '<words>dolce</words><words font-style="italic">ma</words><words font-weight="bold">espressivo</words>';
    const page = await pageOf(buildHarp(direction(plain) + direction(styled) + note('C5', 4)));
    expect(wordsOn(page, 'dir').toSorted()).toEqual(['dolce ma espressivo', 'poco rit.']);
  });

  it('have a space between them in MEI too, whether the file has one there or not', async () => {
    const page = await pageOf(
      meiScore(
        meiBar({
          upper: meiNote('c5', 1),
          marks:
            '<dir tstamp="1" staff="1"><rend>con</rend><rend fontstyle="italic">sordino</rend></dir>' +
            '<dir tstamp="1" staff="1" place="below"><rend>poco</rend>\n<rend>rit.</rend></dir>',
        }),
      ),
    );
    expect(wordsOn(page, 'dir').toSorted()).toEqual(['con sordino', 'poco rit.']);
  });

  it('that end with a line are not run together with the next', async () => {
    const page = await pageOf(
      buildHarp(direction('<words>non rit.\n</words><words>nicht langsamer</words>') + note('C5', 4)),
    );
    expect(groupsOf(page, 'dir')).toHaveLength(1);
    const lines = /<g[^>]*class="dir".*?<\/g>/s.exec(page)![0].match(/ y="\d+/g)!;
    expect(new Set(lines).size).toBe(2);
  });
});

describe('words that a file has twice at one place', () => {
  const dashes = (type: string, number: number): string =>
    `<direction placement="below">${type === 'start' ? '<direction-type><words>cresc.</words></direction-type>' : ''}<direction-type><dashes type="${type}" number="${number}"/></direction-type></direction>`;

  it('are printed once, with the dashes that go farthest', async () => {
    const bars = (...numbers: readonly number[]): string => {
      const starts = numbers.map((each) => dashes('start', each)).join('');
      const stop = (each: number): string => (numbers.includes(each) ? dashes('stop', each) : '');
      const quarters = note('C5').repeat(4);
      return buildHarp(starts + quarters + stop(1), quarters + stop(2));
    };
    const dashesIn = async (score: string): Promise<number> => {
      const page = await pageOf(score);
      expect(stretches(page, 'dynam')).toEqual([['cresc.']]);
      return descendantsNamed(groupsOf(page, 'dynam')[0]!, 'rect').length;
    };
    const [near, far] = [await dashesIn(bars(1)), await dashesIn(bars(2))];
    expect(far).toBeGreaterThan(near);
    expect(await dashesIn(bars(1, 2))).toBe(far);
    expect(await dashesIn(bars(2, 1))).toBe(far);
  });

  it('are two where they stand at different moments', async () => {
    const page = await pageOf(
      buildHarp(
        dashes('start', 1) +
          note('C5', 2) +
          dashes('stop', 1) +
          dashes('start', 1) +
          note('C5', 2) +
          dashes('stop', 1),
      ),
    );
    expect(stretches(page, 'dynam')).toEqual([['cresc.'], ['cresc.']]);
  });
});

describe('a dynamic in brackets', () => {
  it('has them close round it', async () => {
    const bracketed = '<other-dynamics>[</other-dynamics><mp/><other-dynamics>]</other-dynamics>';
    const page = await pageOf(buildHarp(direction(`<dynamics>${bracketed}</dynamics>`) + note('C5', 4)));
    const shown = /<g[^>]*class="dynam".*?<\/g>/s.exec(page)![0];
    // The sign is an outline between the two.
    expect(stretches(page, 'dynam')).toEqual([['[', ']']]);
    expect(shown).not.toMatch(/\[\s|\s\]/);
  });
});

describe('a tempo of the harp whose metronome mark is a direction of its own', () => {
  it('stands with it on one line, bold', async () => {
    const figure = direction(
      '<metronome><beat-unit>quarter</beat-unit><per-minute>75</per-minute></metronome>',
      '<sound tempo="75"/>',
    );
    const page = await pageOf(buildHarp(figure + direction('<words>Andante</words>') + note('C5', 4)));
    expect(stretches(page, 'dir')).toEqual([]);
    expect(stretches(page, 'tempo')).toEqual([['Andante', '= 75']]);
    expect(/<g[^>]*class="tempo".*?<\/g>/s.exec(page)![0]).toContain('bold');
  });
});

describe('a metronome mark of the harp', () => {
  it('has the figure of its brackets, its note in the size of the words', async () => {
    const tempo =
      '<direction placement="above"><direction-type><words>Andantino</words></direction-type><direction-type>' +
      '<metronome parentheses="yes"><beat-unit>quarter</beat-unit><per-minute>66</per-minute></metronome></direction-type></direction>';
    const page = await pageOf(buildHarp(tempo + note('C5', 4)));
    expect(stretches(page, 'tempo')).toEqual([['Andantino', '(', '= 66)']]);
    const sizes = [...page.matchAll(/<tspan[^>]*font-size="(\d+)px"/g)].map(([, size]) => size);
    expect(sizes).not.toContain('700');
  });
});

describe('a metronome mark behind the words of its own direction', () => {
  it('does not run into them', async () => {
    const tempo =
      '<direction placement="above"><direction-type><words font-weight="bold">Calmo</words></direction-type><direction-type>' +
      '<metronome><beat-unit>quarter</beat-unit><per-minute>96</per-minute></metronome></direction-type></direction>';
    const page = await pageOf(buildHarp(tempo + note('C5', 4)));
    const words = /<g[^>]*class="tempo".*?<\/g>/s.exec(page)![0].replace(/<[^>]*>/g, '');
    expect(words).toMatch(/Calmo\s*\u00a0\s*\S*\s*= 96/u);
  });
});

describe('tempo texts of a bar in which the harp rests', () => {
  const metronome = (figure: number, offset: number): string =>
    `<direction placement="above" system="only-top"><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>${figure}</per-minute></metronome></direction-type><offset sound="yes">${offset * DIVISIONS}</offset></direction>`;

  it('stand side by side, each at its beat', async () => {
    const tempi = metronome(132, 0) + metronome(124, 1) + metronome(114, 2);
    const bars = [`${tempi}${note('C5', 4)}`, note('C5', 4)];
    const harp = [rest(4), note('C4', 4)];
    const page = await pageOf(
      buildScore([
        { id: 'P1', name: 'Flute', bars },
        { id: 'P2', name: 'Harp', bars: harp },
      ]),
    );
    expect(groupsOf(page, 'tempo')).toHaveLength(3);
    expect(new Set(heights(page, 'tempo')).size).toBe(1);
  });
});

describe('an accidental that a file sets as words', () => {
  const flat = (bar: string): Uint8Array =>
    new TextEncoder().encode(buildHarp(direction('<words font-size="9"> ♭</words>') + bar));
  const annotated = async (bar: string) => {
    const result = await annotateBytes(annotator, flat(bar), {}, 'svg');
    if (!result.ok) throw new Error(result.problem.code);
    return result.value;
  };

  it('is left out, since it belongs to no note, and the user is told', async () => {
    const { pages, remarks } = await annotated(note('C5', 4));
    expect(groupsOf(pages[0]!, 'dir')).toEqual([]);
    expect(
      remarks.filter(({ code }) => code === 'accidentals-left-out').map(({ message }) => message),
    ).toEqual([
      'One accidental that stands in the file as words is not printed: it belongs to no note (bar 1).',
    ]);
  });

  it('stays in a bar with an ornament, which it may belong to', async () => {
    const trilled = note('C5', 4, { notations: '<ornaments><trill-mark/></ornaments>' });
    const { pages, remarks } = await annotated(trilled);
    expect(groupsOf(pages[0]!, 'dir')).toHaveLength(1);
    expect(remarks.map(({ code }) => code)).not.toContain('accidentals-left-out');
  });
});

describe('a tuplet whose figure the file hides', () => {
  it('has no bracket either', async () => {
    const third = (notations: string): string => note('C5', 1 / 3, { notations });
    const type = (xml: string): string =>
      xml.replace(
        '</voice>',
        '</voice><type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>',
      );
    const triplet = (attributes: string): string =>
      type(third(`<tuplet type="start" bracket="yes"${attributes}/>`)) +
      type(third('')) +
      type(third('<tuplet type="stop"/>')) +
      rest(3);
    const signs = async (attributes: string): Promise<number> => {
      const page = await pageOf(buildHarp(triplet(attributes)));
      return groupsOf(page, 'tupletBracket').length + groupsOf(page, 'tupletNum').length;
    };
    expect(await signs('')).toBe(2);
    expect(await signs(' show-number="none"')).toBe(0);
  });
});

describe('words over joined bars of rest', () => {
  it('have as much room as they take, so that those over the next rest stand at the same height', async () => {
    const words = (text: string): string =>
      `<direction placement="above"><direction-type><words font-weight="bold">${text}</words></direction-type><staff>1</staff><sound tempo="80"/></direction>`;
    const page = await pageOf(
      buildHarp(
        note('C5', 4),
        words('Allegro grazioso') + rest(4),
        rest(4),
        words('Senza correre') + rest(4),
        rest(4),
        note('C5', 4),
      ),
    );
    const [first, second] = heights(page, 'tempo').map((height) => {
      const [y, shift = '0'] = height!.match(/-?[\d.]+(?=\)|\s|$)/g)!;
      return Number(y) + Number(shift);
    });
    // The layout rounds the heights of each.
    expect(Math.abs(first! - second!)).toBeLessThan(3);
  });
});

describe('syllables that a file has twice under a note', () => {
  const sung = (...verses: readonly (readonly [verse: number, syllable: string])[]): string =>
    meiNote(
      'c4',
      4,
      '',
      verses.map(([verse, syllable]) => `<verse n="${verse}"><syl>${syllable}</syl></verse>`).join(''),
    );

  it('are printed once, but the words of two verses and two words of one verse both', async () => {
    const upper = [
      sung([1, 'la'], [1, 'la']),
      sung([1, 'no'], [2, 'no']),
      sung([1, 'si'], [1, 'sol']),
      sung([1, 're']),
    ].join('');
    const page = await pageOf(meiScore(meiBar({ upper })));
    const told = groupsOf(page, 'syl').map(({ span }) =>
      page
        .slice(span.start, span.end)
        .replace(/<title>.*?<\/title>|<[^>]*>/gu, '')
        .trim(),
    );
    expect(told.toSorted()).toEqual(['la', 'no', 'no', 're', 'si', 'sol']);
  });
});
