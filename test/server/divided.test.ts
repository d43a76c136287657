import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { planPart } from '../../engine/plan-part.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import type { AnnotateChoice } from '../../server/api/requests/options.ts';
import { listHarpFiles } from '../../server/harp-files.ts';
import { composeHarpsReply } from '../../server/http/reply.ts';
import { annotateDivided } from '../../server/threads/tasks/annotate/annotate-divided.ts';
import { computeDivision } from '../../server/threads/tasks/annotate/divide-score.ts';
import { forTwo } from '../../server/threads/tasks/annotate/for-two.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../server/threads/tasks/stage-clock.ts';
import { buildHarp, note, words } from '../engine/score/musicxml/musicxml-builder.ts';
import { groupsOf } from '../render/page-tree.ts';
import { annotator } from '../render/shared-annotator.ts';
import { meiScore } from '../render/small-score.ts';
import { oneHarp } from '../two-harps.ts';

/** Two hands that want the C pedal natural and sharp at once. */
const CROSSED = oneHarp([
  'C5 E5 G5 E5 / C#3 A3 E3 A3',
  'C5 E5 G5 C6 / C#3 A3 E3 C#3',
  'G4 B4 D5 G5 / G2 D3 G3 B3',
]);

const openedScore = (text: string): Score => {
  const opened = openScore(new TextEncoder().encode(text));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const divided = async (bytes: Uint8Array, choice: AnnotateChoice = {}, kind: 'svg' | 'pdf' = 'svg') => {
  const done = await annotateDivided(
    { bytes, fileName: '' },
    forTwo(choice),
    { kind },
    annotator,
    startStageClock(IGNORE_PROGRESS),
  );
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return done.value;
};

const reportOf = async (bytes: Uint8Array, choice: AnnotateChoice = {}) => {
  const done = await computeDivision(
    { bytes, fileName: '' },
    forTwo(choice),
    startStageClock(IGNORE_PROGRESS),
  );
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return done.value;
};

const headsIn = (pages: readonly string[]): number => pages.join('').match(/class="notehead"/g)?.length ?? 0;

describe('a part divided between two players', () => {
  it('is divided with what was decided about its notes: what is left out or written otherwise stops nobody', async () => {
    const clash = buildHarp(note('C5', 4) + note('C#5', 4, { chord: true }));
    const notesOfSecond = async (choice: AnnotateChoice): Promise<number> =>
      (await reportOf(new TextEncoder().encode(clash), { divide: 'least', ...choice })).least.notes;
    expect(await notesOfSecond({})).toBe(1);
    expect(await notesOfSecond({ omit: [{ barIndex: 0, beat: '1', pitch: 'C#5' }] })).toBe(0);
    expect(await notesOfSecond({ respell: [{ barIndex: 0, beat: '1', pitch: 'C#5', to: 'Db5' }] })).toBe(0);
  });

  it('becomes a part for each and a score of both', async () => {
    const files = listHarpFiles(await divided(CROSSED), 'svg');
    expect(files.map(({ name, ending }) => `${name}.${ending}`)).toEqual([
      'first player.svg',
      'second player.svg',
      'both players.svg',
    ]);
  });

  it('has every note once in the score of both, at the staves of its player; what another plays is a rest', async () => {
    const { harps, together } = await divided(CROSSED);
    const svg = together!.pages.join('');
    expect(headsIn(harps[0]!.annotation.pages)).toBe(24);
    expect(headsIn(together!.pages)).toBe(24);
    expect(svg.match(/class="mRest[ "]/g)).toHaveLength(6);
    expect(svg).not.toContain('#999999');
  });

  it('has ties, trills and beams of the other’s notes grey as these are, and its own black', async () => {
    const hand = (octave: number, name: string): string =>
      `<note xml:id="${name}1" pname="e" oct="${octave}" dur="4"/><note xml:id="${name}2" pname="e" oct="${octave}" dur="4"/>` +
      `<beam><note pname="f" oct="${octave}" dur="8" tie="i"/><note pname="f" oct="${octave}" dur="8" tie="t"/></beam><rest dur="4"/>`;
    const signs = (name: string): string =>
      `<tie startid="#${name}1" endid="#${name}2"/><trill startid="#${name}1"/>`;
    const other = 'r.1/c3.4 c3.4 r.2';
    const dynamics = [0, 1, 2].map((bar) => [bar, '<dynam tstamp="1" staff="1">p</dynam>']);
    const text = new TextDecoder()
      .decode(
        meiScore({
          bars: ['r.1 / r.2', other, other, 'c4.1/r.1'],
          events: { ...Object.fromEntries(dynamics), 0: signs('u') + signs('l') + dynamics[0]![1] },
        }),
      )
      .replace('<rest dur="1"/>', hand(5, 'u'))
      .replace('<rest dur="2"/>', hand(3, 'l'));
    const score = openedScore(text);
    const others = new Set(score.notes.filter(({ staff }) => staff === 2).map(({ id }) => id));
    const notes = score.notes.map((each) => (others.has(each.id) ? { ...each, role: 'cue' as const } : each));
    const own = { ...score, notes, share: { player: 1, others, unclear: [] } };
    const drawn = await annotator.engrave(own, planPart(own, {}), {}, 'svg');
    if (!drawn.ok) throw new Error(JSON.stringify(drawn.problem));
    const colours = (name: string): readonly (string | undefined)[] =>
      groupsOf(drawn.value.pages[0]!, name).map(({ attributes }) => attributes.color);
    // What holds when the player comes in again is for both.
    expect(colours('dynam')).toEqual([undefined, '#999999', undefined]);
    // Those of the other's bars, and the last of what the other has in the first.
    expect(colours('rest').filter((colour) => colour === '#999999')).toHaveLength(3);
    for (const [name, count] of [
      ['tie', 2],
      ['trill', 1],
      ['beam', 1],
    ] as const) {
      const found = colours(name);
      expect([name, found.length, found.filter((each) => each === '#999999').length]).toEqual([
        name,
        2 * count,
        count,
      ]);
    }
  });

  it('leaves each respelled note to the player who has it', async () => {
    const respell = [
      { barIndex: 0, beat: '1', pitch: 'C#3', to: 'Db3' },
      { barIndex: 2, beat: '2', pitch: 'B4', to: 'Cb5' },
    ];
    const { players } = await reportOf(CROSSED, { respell });
    const respelled = players.map(
      ({ plan }) => (plan as { respellings: readonly unknown[] }).respellings.length,
    );
    expect(respelled.reduce((sum, each) => sum + each)).toBe(2);
  });

  it('refuses a respelling of a note that neither has', async () => {
    const respell = [{ barIndex: 0, beat: '1', pitch: 'B3', to: 'Cb4' }];
    const done = await computeDivision(
      { bytes: CROSSED, fileName: '' },
      forTwo({ respell }),
      startStageClock(IGNORE_PROGRESS),
    );
    expect(done).toMatchObject({ ok: false, problem: { code: 'bad-option', option: 'respell.0.pitch' } });
  });

  it('has the pedals of each player at their own staves', async () => {
    const { together } = await divided(CROSSED);
    const heights = [1, 2].map((harp) => {
      const place = new RegExp(`id="harp-${harp}-[^"]*" class="pedal-marking[^>]*translate\\(\\S+ (\\S+)\\)`);
      return Number(place.exec(together!.pages.join(''))![1]);
    });
    expect(heights[0]).toBeLessThan(heights[1]!);
  });

  it('has every note once too where the file is MEI', async () => {
    const { harps, together } = await divided(
      meiScore({
        bars: ['c5 e5 g5 e5 / c#3 a3 e3 a3', 'c5+e5.2 r.2 / c#3 a2.8 b2.8 r.2'],
        events: { 1: '<dir tstamp="1" staff="2">dolce</dir>' },
      }),
    );
    expect(headsIn(together!.pages)).toBe(13);
    expect(headsIn(harps[0]!.annotation.pages)).toBe(13);
  });

  it('comes from words that say whose notes are whose, and “a 2” is played by both', async () => {
    const told = new TextEncoder().encode(
      buildHarp(
        words('I') + note('C5', 4),
        words('II') + note('C#5', 4),
        words('a 2') + note('E5', 4),
      ).replace('<part-name>Harp</part-name>', '<part-name>Harps</part-name>'),
    );
    const { together } = await divided(told);
    expect(headsIn(together!.pages)).toBe(4);
  });

  it('is sent as one archive', async () => {
    const reply = composeHarpsReply(await divided(CROSSED, {}, 'pdf'), { kind: 'pdf' });
    expect(reply.ok && Object.keys(unzipSync(reply.value.body))).toEqual([
      'first player.pdf',
      'second player.pdf',
      'both players.pdf',
    ]);
  });

  it('tells first what a second harp must play at the least, whatever the aim', async () => {
    const { least, aim, players, proved } = await reportOf(CROSSED);
    expect(aim).toBe('balanced');
    expect(least).toEqual({
      notes: 3,
      bars: ['1', '2'],
      barNames: ['1', '2'],
      barIndices: [0, 1],
      sentence:
        'The least found for the second harp to play: 3 notes in bars 1 and 2 (C5, bar 1, beat 1; C5, bar 2, beat 1; C6, bar 2, beat 4).',
    });
    expect(players.map(({ plan }) => plan.harp === 'pedal' && plan.summary.playable)).toEqual([true, true]);
    expect(new Set(players.flatMap(({ notes }) => notes)).size).toBe(24);
    expect(proved).toBe(true);
  });

  it('is refused for a lever harp', async () => {
    const done = await computeDivision(
      { bytes: CROSSED, fileName: '' },
      forTwo({ instrument: 'lever-harp-34' }),
      startStageClock(IGNORE_PROGRESS),
    );
    expect(done.ok ? null : done.problem.code).toBe('unsupported');
  });
});
