import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { takeShare } from '../../../engine/sharing/take-share.ts';
import '../../property-seed.ts';
import { cases } from '../../thorough.ts';
import { chord, bar as meiBar, note as meiNote, meiScore, read } from '../score/mei/mei-builder.ts';
import { backup, buildScore, note, readScore, rest, words } from '../score/musicxml/musicxml-builder.ts';

const onStaff = (text: string, staff: number): string => words(text, `<staff>${staff}</staff>`);

const harps = (...bars: readonly string[]): Score =>
  readScore(buildScore([{ id: 'P1', name: 'Harp I. II.', bars }]));

/** The notes of one player, by their names. */
const share = (score: Score, player: '1' | '2'): string =>
  takeShare(score, player)
    .notes.filter(({ role }) => role !== 'cue')
    .map(({ pitch }) => pitchName(pitch))
    .join(' ');

const codesOf = (score: Score, player: '1' | '2'): readonly string[] =>
  planPedals(takeShare(score, player)).findings.map(({ code }) => code);

/** Two voices of one staff, the upper with its stems up. */
const twoVoices = (upper: string, lower: string, stems = true): string => {
  const up = stems ? ({ stem: 'up' } as const) : {};
  const down = stems ? ({ stem: 'down' } as const) : {};
  return note(upper, 2, up) + note(upper, 2, up) + backup(4) + note(lower, 4, { voice: '2', ...down });
};

describe('one player’s share', () => {
  it('is what “I” and “II” give to each, one after the other', () => {
    const score = harps(words('I') + note('C4', 4), words('II') + note('D4', 4), note('E4', 4));
    expect(share(score, '1')).toBe('C4');
    expect(share(score, '2')).toBe('D4 E4');
  });

  it('has what both play “a 2”, and again after “unis.”', () => {
    const score = harps(
      words('a 2') + note('C4', 4),
      words('II') + note('D4', 4),
      words('unis.') + note('E4', 4),
    );
    expect(share(score, '1')).toBe('C4 E4');
    expect(share(score, '2')).toBe('C4 D4 E4');
  });

  it('is the voice with the stems up for the first, down for the second, where they divide', () => {
    const score = harps(words('div.') + twoVoices('G4', 'C4'), words('a 2') + twoVoices('A4', 'D4'));
    expect(share(score, '1')).toBe('G4 G4 A4 D4 A4');
    expect(share(score, '2')).toBe('C4 A4 D4 A4');
  });

  it('is told by one voice’s stems where the other has none: whole notes, rests', () => {
    const whole = note('G4', 2, { stem: 'up' }) + note('A4', 2, { stem: 'up' });
    expect(share(harps(words('div.') + whole + backup(4) + note('C4', 4, { voice: '2' })), '2')).toBe('C4');
    expect(share(harps(words('div.') + whole + backup(4) + rest(4, { voice: '2' })), '1')).toBe('G4 A4');
    expect(share(harps(words('div.') + whole + backup(4) + rest(4, { voice: '2' })), '2')).toBe('');
  });

  it('is a staff, where “I” stands at one and “II” at the other', () => {
    const score = harps(
      onStaff('I', 1) +
        onStaff('II', 2) +
        note('C5', 4) +
        backup(4) +
        note('C3', 4, { staff: 2, voice: '3' }),
    );
    expect(share(score, '1')).toBe('C5');
    expect(share(score, '2')).toBe('C3');
  });

  it('has both staves where the word stands at one of them alone', () => {
    const score = harps(
      onStaff('II', 1) + note('C5', 4) + backup(4) + note('C3', 4, { staff: 2, voice: '3' }),
    );
    expect(share(score, '1')).toBe('');
    expect(share(score, '2')).toBe('C5 C3');
  });

  it('is a voice where “I” and “II” stand at one staff at the same moment', () => {
    const score = harps(words('I') + words('II') + twoVoices('G4', 'C4'));
    expect(share(score, '1')).toBe('G4 G4');
    expect(share(score, '2')).toBe('C4');
  });

  it('keeps a tied note with the player who plucked it, whatever word comes meanwhile', () => {
    const score = harps(
      words('I') + note('C4', 4, { ties: ['start'] }),
      words('II') + note('C4', 4, { ties: ['stop'] }),
    );
    expect(share(score, '1')).toBe('C4 C4');
    expect(share(score, '2')).toBe('');
  });

  it('leaves out the other player’s glissando', () => {
    const swept = (type: string): string => `<glissando type="${type}" number="1" line-type="wavy"/>`;
    const gliss = note('C4', 2, { notations: swept('start') }) + note('C6', 2, { notations: swept('stop') });
    const score = harps(words('I') + gliss, words('II') + note('C4', 4));
    expect(takeShare(score, '1').sweeps).toHaveLength(1);
    expect(takeShare(score, '2').sweeps).toEqual([]);
    expect(codesOf(score, '2')).not.toContain('glissando-guessed');
  });

  it('keeps what nothing tells apart, and says in which bars', () => {
    const score = harps(words('div.') + note('C4', 4), note('D4', 4), words('II') + note('E4', 4));
    expect(share(score, '1')).toBe('C4 D4');
    const [finding] = planPedals(takeShare(score, '1')).findings;
    expect(finding!.code).toBe('shared-notes-kept');
    expect(finding!.sentence).toBe(
      'Nothing tells which notes in bars 1–2 are for player 1: all of them are planned.',
    );
  });

  it('keeps two voices whose stems point one way, or that have none', () => {
    const score = harps(words('div.') + twoVoices('G4', 'C4', false));
    expect(share(score, '1')).toBe('G4 C4 G4');
    expect(codesOf(score, '1')).toContain('shared-notes-kept');
  });

  it('is planned by itself: C and C♯ at once stop one player, and neither of two', () => {
    const score = harps(words('div.') + twoVoices('C#5', 'C4'));
    expect(planPedals(score).summary.playable).toBe(false);
    for (const player of ['1', '2'] as const) {
      expect(planPedals(takeShare(score, player)).summary.playable).toBe(true);
    }
    expect(formatSetting(planPedals(takeShare(score, '1')).initial)).toContain('C♯');
    expect(formatSetting(planPedals(takeShare(score, '2')).initial)).toContain('C♮');
  });

  it('is named after its player', () => {
    const score = harps(words('I') + note('C4', 4), words('II') + note('D4', 4));
    expect(takeShare(score, '2').harp.name).toBe('Harp I. II. (2.)');
    expect(takeShare(score, 'all')).toBe(score);
  });

  it('draws no finding about several players where all is told', () => {
    const score = harps(words('I') + note('C4', 4), words('a 2') + note('D4', 4));
    expect(planPedals(score).findings.map(({ code }) => code)).toContain('written-for-several');
    expect(codesOf(score, '2')).toEqual([]);
  });

  it('is the whole part where it is for one player, and a remark says so', () => {
    const score = readScore(buildScore([{ id: 'P1', name: 'Harp', bars: [note('C4', 4)] }]));
    const taken = takeShare(score, '2');
    expect(taken.share).toBeNull();
    expect(taken.remarks.at(-1)!.message).toBe(
      'The part is not known to be for several players: all of it is planned.',
    );
  });

  it('in MEI: layers by their stems, words by their staff', () => {
    const layers =
      `<layer n="1">${meiNote('g4', 2, 'stem.dir="up"')}${meiNote('a4', 2, 'stem.dir="up"')}</layer>` +
      `<layer n="2">${chord('c4 e4', 1)}</layer>`;
    const score = read(
      meiScore(
        meiBar({ upper: layers, marks: '<dir staff="1" tstamp="1">div. a 2</dir>' }) +
          meiBar({ upper: meiNote('f4', 1), marks: '<dir staff="1 2" tstamp="1">2.</dir>' }),
      ),
    );
    expect(share(score, '1')).toBe('G4 A4');
    expect(share(score, '2')).toBe('C4 E4 F4');
  });

  it('law: every note is someone’s, and nobody loses what both play', () => {
    const word = fc.constantFrom('', 'I', 'II', 'a 2', 'div.', 'unis.', 'tutti', '1.');
    const music = fc.constantFrom(
      note('C4', 4),
      twoVoices('G4', 'C4'),
      twoVoices('G4', 'C4', false),
      note('E4', 4, { stem: 'down' }),
    );
    const bars = fc.array(fc.tuple(word, music), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(bars, (each) => {
        const score = harps(...each.map(([text, content]) => (text === '' ? '' : words(text)) + content));
        const [first, second] = (['1', '2'] as const).map((player) => takeShare(score, player).share!);
        for (const { id } of score.notes) expect(first!.others.has(id) && second!.others.has(id)).toBe(false);
        expect(first!.unclear).toEqual(second!.unclear);
      }),
      { numRuns: cases(60) },
    );
  });
});
