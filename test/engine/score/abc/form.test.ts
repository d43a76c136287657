import { describe, expect, it } from 'vitest';
import { rationalKey } from '../../../../engine/music/rational.ts';
import { openAbc, readAbc, say, tune } from './abc-builder.ts';

const LONG = 'M:2/4\nL:1/8\nK:C';

/** The numbers of the bars as they are played. */
const orderOf = async (music: string, head = LONG): Promise<string> => {
  const { bars, playOrder } = await readAbc(tune(music, head));
  return playOrder.map((bar) => bars[bar]!.number).join(' ');
};

describe('the form of a tune', () => {
  it.each([
    ['a repeat', '|:C4|D4:|E4|]', '1 2 1 2 3'],
    ['a repeat from the start', 'C4|D4:|E4|]', '1 2 1 2 3'],
    ['two repeats back to back', '|:C4::D4:|', '1 1 2 2'],
    ['endings', '|:C4|1 D4:|2 E4||F4|]', '1 2 1 3 4'],
    ['endings in brackets, for several times', '|:C4|[1,2 D4:|[3 E4|]', '1 2 1 2 1 3'],
    ['a pickup, which takes no number and completes the last bar', 'G2|:C4|D2:|', '0 1 2 1 2'],
    ['da capo al fine', 'C4|!fine!D4|E4!D.C.alfine!|]', '1 2 3 1 2'],
    ['da capo in words over the notes', 'C4|"^Fine"D4|"^D.C. al Fine"E4|]', '1 2 3 1 2'],
    ['dal segno', 'C4|!segno!D4|E4!D.S.!|]', '1 2 3 2 3'],
    ['a rest of three bars', 'C4|Z3|D4|]', '1 2 3 4 5'],
  ])('%s', async (_claim, music, order) => {
    expect(await orderOf(music)).toBe(order);
  });

  it('has parts as rehearsal marks, and chord symbols that are no pedals', async () => {
    const { landmarks, markings, harp } = await readAbc(tune('P:A\n"Eb"C4|\nP:B\n"A7"D4|]', LONG));
    expect(landmarks.map(({ kind, text }) => `${kind} ${text}`)).toEqual(['rehearsal A', 'rehearsal B']);
    expect(markings).toEqual([]);
    expect(harp.players).toBe(1);
  });

  it('prints chords to choose from at one note beside each other', async () => {
    const { source } = await readAbc(tune('"A7""C"C4|"D/f+"D4|"slowly"E4|"Gd"F4|"Add"G4|]', LONG));
    expect([...source.text.matchAll(/<harm[^>]*>([^<]*)/g)].map(([, words]) => words)).toEqual([
      'A7 (C)',
      'D/f+',
      'Gd',
    ]);
  });

  it.each([
    ['Q:1/4=120', 120],
    ['Q:3/8=100', 150],
    ['Q:"Slowly" 1/2=60', 120],
    ['Q:1/8=80', 40],
  ])('has the tempo %s', async (field, quarters) => {
    const { tempo } = await readAbc(tune('C4|]', `M:2/4\nL:1/8\n${field}\nK:C`));
    expect(tempo.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual([quarters]);
  });

  it('has a tempo that changes within, and other meters and keys', async () => {
    const { tempo, bars } = await readAbc(tune('C4|\nM:3/4\nK:D\nQ:1/4=60\nF6|[M:C|][K:Bb]B8|]', LONG));
    expect(tempo.at(-1)).toMatchObject({ quartersPerMinute: 60 });
    expect(bars.map(({ meter, keyFifths }) => [meter.beats, meter.beatUnit, keyFifths])).toEqual([
      [2, 4, 0],
      [3, 4, 2],
      [2, 2, -2],
    ]);
  });

  it('has no meter where the file says so', async () => {
    const { remarks, bars } = await readAbc(tune('CDEFGAB|C|]', 'M:none\nL:1/4\nK:C'));
    expect(bars).toHaveLength(2);
    expect(remarks.filter(({ code }) => code === 'bar-overfull')).toEqual([]);
  });
});

describe('several voices', () => {
  const TWO = 'M:2/4\nL:1/8\nV:1 name="Melody"\nV:2 clef=bass name="Bass"\nK:C';

  it('on two staves are the two hands of the harp, however the lines are mixed', async () => {
    const apart = await readAbc(tune('[V:1] c4|d4|\n[V:2] C,4|D,4|\n[V:1] e4|]\n[V:2] E,4|]', TWO));
    const together = await readAbc(tune('V:1\nc4|d4|e4|]\nV:2\nC,4|D,4|E,4|]', TWO));
    const saying = ({ notes }: typeof apart) =>
      notes.map((each) => `${each.bar}.${each.staff} ${say(each)}`).sort();
    expect(saying(together)).toEqual(saying(apart));
    expect(apart.harp).toMatchObject({ staves: 2, name: '' });
    expect(apart.remarks.map(({ message }) => message)).toContain(
      'Melody and Bass are read as the two hands of one harp.',
    );
  });

  it('share a staff where they are written over each other', async () => {
    const { notes } = await readAbc(tune('c4 & C4|]', LONG));
    expect(notes.map((each) => `${rationalKey(each.onset)} ${say(each)}`).sort()).toEqual([
      '0 C4/2',
      '0 C5/2',
    ]);
  });

  it('of three staves are parts of which one is chosen', async () => {
    const three = tune(
      '[V:1] c4|]\n[V:2] e4|]\n[V:3] g4|]',
      'M:2/4\nL:1/8\nV:1 name="Flute"\nV:2 name="Harp"\nV:3 name="Cello"\nK:C',
    );
    expect((await readAbc(three)).notes.map(say)).toEqual(['E5/2']);
    expect((await readAbc(three, { part: 'Cello' })).notes.map(say)).toEqual(['G5/2']);
  });
});

describe('a tune book', () => {
  const BOOK =
    "%abc-2.1\nM:2/4\nL:1/8\n\nX:1\nT:The Lamp on the Quay\nK:C\nC4|]\n\nX:2\nT:Tea at N\\'o\\\"el's\nK:G\nF4|]\n\nX:2\nK:D\nF4|]\n";

  it('gives each tune by number or title, with what its head says for all', async () => {
    expect((await readAbc(BOOK, { tune: '1' })).notes.map(say)).toEqual(['C4/2']);
    expect((await readAbc(BOOK, { tune: ' the LAMP on the quay' })).titles.title).toBe(
      'The Lamp on the Quay',
    );
  });

  it('asks which tune is meant where it holds several, and tells two of one number apart', async () => {
    expect(await openAbc(BOOK)).toMatchObject({
      ok: false,
      problem: {
        code: 'choose-tune',
        tunes: [{ number: '1' }, { number: '2' }, { number: '2-2', title: '' }],
      },
    });
    expect((await readAbc(BOOK, { tune: '2-2' })).bars[0]!.keyFifths).toBe(2);
    expect(await openAbc(BOOK, { tune: '7' })).toMatchObject({
      ok: false,
      problem: { code: 'unknown-tune' },
    });
  });

  it('reads accents, and Latin-1 where a file is not UTF-8', async () => {
    const accents = tune('C8|]', "T:x\nC:Andr\\'e &Ouml;st\nM:4/4\nL:1/8\nK:C");
    expect((await readAbc(accents)).titles.composer).toBe('André Öst');
    const latin = Uint8Array.from(tune('C8|]').replace('Test', 'Caf\u00e9'), (char) => char.charCodeAt(0));
    const { openScoreFile } = await import('../../../../engine/score/open-file.ts');
    const opened = await openScoreFile(latin);
    expect(opened).toMatchObject({ ok: true, value: { titles: { title: 'Café' } } });
  });
});
