import { describe, expect, it } from 'vitest';
import {
  bar,
  meiScore,
  note,
  notes,
  pitches,
  read,
  readResult,
  remarkCodes,
  timeline,
} from './mei-builder.ts';

const one = (attributes = ''): string => bar({ upper: notes('c4', 1), attributes });

describe('the order of play', () => {
  it('repeats between signs, wherever the measures name them', () => {
    expect(read(meiScore(one() + one('left="rptstart"') + one('right="rptend"') + one())).playOrder).toEqual([
      0, 1, 2, 1, 2, 3,
    ]);
    expect(read(meiScore(one('right="rptstart"') + one() + one('left="rptend"'))).playOrder).toEqual([
      0, 1, 1, 2,
    ]);
    expect(read(meiScore(one('right="rptboth"') + one('right="rptend"'))).playOrder).toEqual([0, 0, 1, 1]);
  });

  it('takes each ending on its pass, lists and ranges of numbers included', () => {
    const flow = `<section>${one()}</section><ending n="1, 2">${one('right="rptend"')}</ending><ending n="3.">${one()}</ending>`;
    const score = read(meiScore(`<section>${flow}</section>`));
    expect(score.bars.map((each) => each.repeat.endings)).toEqual([[], [1, 2], [3]]);
    expect(score.playOrder).toEqual([0, 1, 0, 1, 0, 2]);
  });

  it('follows an expansion, nested ones included, over repeat signs', () => {
    const flow = `<section><expansion plist="#A #E1 #A #E2"/><section xml:id="A"><expansion plist="#A2 #A1"/><section xml:id="A1">${one()}</section><section xml:id="A2">${one()}</section></section><ending xml:id="E1" n="1">${one('right="rptend"')}</ending><ending xml:id="E2" n="2">${one()}</ending></section>`;
    expect(read(meiScore(flow)).playOrder).toEqual([1, 0, 2, 1, 0, 3]);
  });

  it('plays the bars as printed where an expansion comes back to itself or grows without end', () => {
    const loop = `<section xml:id="A"><expansion plist="#A"/>${one()}</section>`;
    const doubling = Array.from(
      { length: 40 },
      (_, n) => `<section xml:id="s${n}"><expansion plist="#s${n + 1} #s${n + 1}"/>`,
    ).join('');
    const growing = `${doubling}<section xml:id="s40">${one()}</section>${'</section>'.repeat(40)}`;
    for (const flow of [loop, growing]) {
      const score = read(meiScore(flow));
      expect(score.playOrder).toEqual([0]);
      expect(remarkCodes(score)).toContain('repeat-ill-formed');
    }
  });

  it('obeys repeat marks of MEI 5', () => {
    const mark = (func: string): string =>
      bar({ upper: notes('c4', 1), marks: `<repeatMark func="${func}" tstamp="1"/>` });
    expect(read(meiScore(one() + mark('fine') + mark('daCapo'))).playOrder).toEqual([0, 1, 2, 0, 1]);
  });
});

describe('editions', () => {
  it('reads the lemma, the correction and the addition, and leaves out what is deleted', () => {
    const upper = `<app><rdg>${notes('a4', 4)}</rdg><lem>${notes('b4', 4)}</lem></app><choice><sic>${notes('a4', 4)}</sic><corr>${notes('c5', 4)}</corr></choice><del>${notes('a4', 4)}</del><supplied><add>${notes('d5', 4)}</add></supplied><app><rdg>${notes('e5', 4)}</rdg><rdg>${notes('a4', 4)}</rdg></app>`;
    const score = read(meiScore(bar({ upper })));
    expect(pitches(score)).toBe('B4 C5 D5 E5');
    expect(score.remarks.filter((each) => each.code === 'alternative-chosen')).toHaveLength(2);
  });

  it('chooses among readings of whole measures and of marks beside them', () => {
    const flow = `<app><lem>${bar({ upper: note('c4', 1, 'xml:id="x"') })}</lem><rdg>${bar({ upper: notes('d4 e4', 2) })}</rdg></app>`;
    expect(pitches(read(meiScore(flow)))).toBe('C4');
    const marked = bar({
      upper: note('c4', 1, 'xml:id="x"'),
      marks: '<choice><sic/><corr><trill startid="#x"/></corr></choice>',
    });
    expect(read(meiScore(marked)).notes[0]?.ornament?.kind).toBe('trill');
  });

  it('tells what it passes over, with the bar', () => {
    const score = read(
      meiScore(bar({ upper: `${notes('c4', 2)}<wiggle/>${notes('d4', 2)}`, marks: '<bend tstamp="1"/>' })),
    );
    expect(timeline(score)).toBe('0 C4, 2 D4');
    expect(
      score.remarks
        .filter((each) => each.code === 'skipped')
        .map((each) => `${each.barNumber}: ${each.message}`),
    ).toEqual([
      '1: Not read: the element “wiggle” in a layer.',
      '1: Not read: the element “bend” in a measure.',
    ]);
  });

  it('reads title, subtitle and composer', () => {
    const head =
      '<fileDesc><titleStmt><title type="main">Lanterns</title><title type="subordinate">a study</title><respStmt><persName role="composer">A. Nobody</persName></respStmt></titleStmt></fileDesc>';
    expect(read(meiScore(one(), { head })).titles).toEqual({
      title: 'Lanterns',
      subtitle: 'a study',
      composer: 'A. Nobody',
      arranger: '',
      rights: '',
    });
  });
});

it('leaves out the sign by which a catalogue joins a subtitle to its title', () => {
  const head =
    '<fileDesc><titleStmt><title>Lanterns</title><title type="subtitle">: a study</title></titleStmt></fileDesc>';
  expect(read(meiScore(one(), { head })).titles.subtitle).toBe('a study');
});

describe('what cannot be read', () => {
  it('names a version it does not know', () => {
    expect(readResult(meiScore(one(), { version: '2010-05' }))).toMatchObject({
      ok: false,
      problem: { code: 'unsupported', feature: 'MEI 2010-05' },
    });
  });

  it('finds no parts in an empty document', () => {
    expect(readResult('<mei meiversion="5.1"/>')).toMatchObject({ ok: false, problem: { code: 'no-parts' } });
  });

  it.each([
    ['dur="3"', 'duration'],
    ['dur="4" dots="99"', 'dots (a whole number from 0 to 4)'],
    ['dur="4" oct.ges="-1"', 'oct.ges (a whole number from 0 to 9)'],
    ['dur="NaN"', 'duration'],
  ])('refuses a note with %s', (attributes, what) => {
    expect(readResult(meiScore(bar({ upper: note('c4', null, attributes) })))).toMatchObject({
      ok: false,
      problem: { code: 'bad-value', what },
    });
  });

  it.each([
    [
      'tuplets whose fractions never come together',
      [101, 103, 107, 109, 113].map((n) => `<tuplet num="${n}" numbase="97">`).join('') +
        notes('c4', 4) +
        '</tuplet>'.repeat(5),
    ],
    [
      'tuplets nested without end',
      '<tuplet num="997" numbase="1">'.repeat(50) + notes('c4', 4) + '</tuplet>'.repeat(50),
    ],
    ['a tuplet of nothing', `<tuplet num="0" numbase="2">${notes('c4', 4)}</tuplet>`],
    ['a rest of a billion bars', `${notes('c4', 4)}<multiRest num="999999999"/>`],
  ])('refuses %s', (_, upper) => {
    expect(readResult(meiScore(bar({ upper })))).toMatchObject({ ok: false, problem: { code: 'bad-value' } });
  });
});
