import { describe, expect, it } from 'vitest';
import { openScore } from '../../../../engine/score/open.ts';
import { kindOfWords } from '../../../../engine/score/texts/tempo-words.ts';
import { directionOf, fluteAndHarp, meiFluteAndHarp } from '../../../render/small-score.ts';

const read = (bytes: Uint8Array) => {
  const opened = openScore(bytes);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return opened.value;
};

const textsOf = (bytes: Uint8Array): string[] =>
  read(bytes).texts.map(({ bar, kind, text }) => `${bar + 1} ${kind} ${text}`.trim());

const flute = (directions: Readonly<Record<number, string>>): Uint8Array =>
  fluteAndHarp(['c5', 'd5', 'e5', 'f5'], directions);

const words = (text: string, attributes = ''): string =>
  `<direction ${attributes}><direction-type><words>${text}</words></direction-type></direction>`;

/** The same score, its bars before its parts. */
const timewise = (bytes: Uint8Array): Uint8Array => {
  const text = new TextDecoder().decode(bytes);
  const parts = [...text.matchAll(/<part id="(\w+)">(.*?)<\/part>/gsu)].map(([, id, content]) => ({
    id,
    bars: [...content!.matchAll(/<measure[^>]*>(.*?)<\/measure>/gsu)].map(([, bar]) => bar!),
  }));
  const bars = parts[0]!.bars.map(
    (_, i) =>
      `<measure number="${i + 1}">${parts.map(({ id, bars }) => `<part id="${id}">${bars[i]}</part>`).join('')}</measure>`,
  );
  return new TextEncoder().encode(
    `${text.slice(0, text.indexOf('<part id=')).replace('score-partwise', 'score-timewise')}${bars.join('')}</score-timewise>`,
  );
};

describe('what another part prints for every player', () => {
  it('is a word of tempo over the top staff, a gradual one too, whether it sounds or not', () => {
    const score = flute({ 0: words('Lento', 'placement="above"'), 1: words('rit.'), 2: words('a tempo') });
    expect(textsOf(score)).toEqual(['1 tempo Lento', '2 gradual rit.', '3 tempo a tempo']);
  });

  it('is whatever the file marks as of the whole system', () => {
    expect(textsOf(flute({ 1: words('gracieux', 'placement="above" system="only-top"') }))).toEqual([
      '2 tempo gracieux',
    ]);
  });

  it('is no expression or technique of its player', () => {
    const score = flute({
      0: words('dolce', 'placement="above"'),
      1: words('flutter'),
      2: words('slow gliss.'),
    });
    expect(textsOf(score)).toEqual([]);
  });

  it('is no word of tempo under a staff: that is its player’s', () => {
    expect(textsOf(flute({ 1: words('animato', 'placement="below"') }))).toEqual([]);
    expect(textsOf(flute({ 1: words('rit.', 'placement="below"') }))).toEqual([]);
  });

  it('is a metronome mark with its note and figure, in one line with the words of its direction', () => {
    const mark =
      '<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>66</per-minute></metronome>';
    const both = `<words>Andante</words></direction-type><direction-type>${mark}`;
    expect(textsOf(flute({ 1: directionOf(both) }))).toEqual(['2 tempo Andante \uECA5\uECB7 = 66']);
  });

  it('is an order to all, and a sign of return', () => {
    const score = flute({ 2: words('attacca'), 3: directionOf('<segno/>') });
    expect(textsOf(score)).toEqual(['3 order attacca', '4 segno']);
  });

  it('is a character where it stands beside a tempo, as in another language', () => {
    const twice = words('Ruhig', 'placement="above"') + words('Tranquillo');
    expect(textsOf(flute({ 1: twice }))).toEqual(['2 tempo Ruhig', '2 tempo Tranquillo']);
    expect(textsOf(flute({ 1: words('tranquillo') }))).toEqual([]);
  });

  it('is told once where two parts have it', () => {
    const bytes = flute({ 1: words('rit.', 'placement="above"') });
    const text = new TextDecoder().decode(bytes);
    const harp = text.indexOf('<part id="P2">');
    const second = text.indexOf('<measure number="2">', harp) + '<measure number="2">'.length;
    const doubled = text.slice(0, second) + words('rit.') + text.slice(second);
    expect(textsOf(new TextEncoder().encode(doubled))).toEqual(['2 gradual rit.']);
  });

  it('is the same in a score sorted by bars', () => {
    const score = flute({ 0: words('Lento'), 1: words('rit.'), 2: directionOf('<rehearsal>K</rehearsal>') });
    expect(textsOf(timewise(score))).toEqual(textsOf(score));
    expect(textsOf(score)).toHaveLength(3);
  });

  it('of MEI is a tempo of any staff, and a direction that is one over the top staff', () => {
    const score = meiFluteAndHarp([
      '<tempo staff="1" tstamp="1" mm="60" mm.unit="4"/>',
      '<dir staff="1" tstamp="3" place="above">rall.</dir><dir staff="1" tstamp="1">dolce</dir>',
      '<tempo startid="#flute-3">Vivace</tempo><repeatMark staff="1" tstamp="1" func="segno"/>',
    ]);
    expect(textsOf(score)).toEqual(['1 tempo \uECA5 = 60', '2 gradual rall.', '3 segno', '3 tempo Vivace']);
  });
});

describe('a movement', () => {
  const final = '<barline location="right"><bar-style>light-heavy</bar-style></barline>';
  const double = final.replace('light-heavy', 'light-light');
  const closed = (bytes: Uint8Array, bar: number, numbers: readonly number[], line = final): Uint8Array => {
    let count = 0;
    const text = new TextDecoder()
      .decode(bytes)
      .replace(/<\/measure>/gu, (end) => ((count++ % 4) + 1 === bar ? line : '') + end)
      .replace(/<measure number="(\d)">/gu, (_, n) => `<measure number="${numbers[Number(n) - 1]}">`);
    return new TextEncoder().encode(text);
  };

  it('begins behind a final bar line, under its title', () => {
    const score = flute({ 0: words('I. Ebb'), 2: words('II. Flood', 'placement="above"') });
    const read2 = read(closed(score, 2, [1, 2, 3, 4]));
    expect(read2.movements).toEqual([2]);
    expect(read2.texts.map(({ kind, text }) => `${kind} ${text}`)).toEqual([
      'movement I. Ebb',
      'movement II. Flood',
    ]);
  });

  it('begins behind a final bar line where the bars are counted anew', () => {
    expect(read(closed(flute({}), 2, [1, 2, 1, 2])).movements).toEqual([2]);
  });

  it('begins behind a double bar line only where the bars are counted anew', () => {
    expect(read(closed(flute({}), 2, [1, 2, 1, 2], double)).movements).toEqual([2]);
    const titled = flute({ 2: words('II. Flood', 'placement="above"') });
    expect(read(closed(titled, 2, [1, 2, 3, 4], double)).movements).toEqual([]);
  });

  it('heads its verses for all, bold', () => {
    const score = read(flute({ 0: words('1st Verse'), 2: words('Refrain') }));
    expect(score.texts.map(({ bold, text }) => `${text} ${bold}`)).toEqual([
      '1st Verse true',
      'Refrain true',
    ]);
  });

  it('is titled by the name of a form, which heads a section elsewhere and is one player’s word under a staff', () => {
    const titled = (place: string) =>
      read(flute({ 0: words('INTERMEZZO', place), 2: words('Trio', place) })).texts;
    expect(titled('placement="above"').map(({ kind, text }) => `${kind} ${text}`)).toEqual([
      'movement INTERMEZZO',
      'tempo Trio',
    ]);
    expect(titled('placement="below"')).toEqual([]);
  });

  it('does not begin behind a final bar line in the middle of a piece', () => {
    expect(read(closed(flute({}), 2, [1, 2, 3, 4])).movements).toEqual([]);
  });
});

describe('words of a tempo', () => {
  it('lose a bracket that the file opens for a figure it lacks', () => {
    expect(textsOf(flute({ 0: words('Allegro (') }))).toEqual(['1 tempo Allegro']);
  });
});

describe('words', () => {
  it.each([
    ['Un peu moins vite', 'tempo'],
    ['Etwas bewegter', 'tempo'],
    ['Not too fast', 'tempo'],
    ['Poco più mosso', 'tempo'],
    ['Más despacio', 'tempo'],
    ['Zeitmaß', 'tempo'],
    ['non riten.', 'tempo'],
    ['ohne zu schleppen', 'tempo'],
    ['più tranquillo', 'tempo'],
    ['Lebhaft und drängend', 'tempo'],
    ['poco rall.', 'gradual'],
    ['Cédez', 'gradual'],
    ['zurückhaltend', 'gradual'],
    ['slowing down', 'gradual'],
    ['acelerando', 'gradual'],
    ['string.', 'gradual'],
    ['Generalpause', 'order'],
    ['D.C. al Fine', 'order'],
    ['Recit.', 'order'],
    ['maestoso', 'character'],
    ['dolce', null],
    ['4th string', null],
    ['Solo', null],
    ['vibrato lento', null],
  ])('“%s” are of the kind %s', (text, kind) => expect(kindOfWords(text)).toBe(kind));
});
