import { describe, expect, it } from 'vitest';
import { pitchName } from '../../../../engine/music/pitch.ts';
import { listFixes } from '../../../../engine/pedals/offers/list-fixes.ts';
import type { PlaceFixes } from '../../../../engine/pedals/offers/model.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { dividePart } from '../../../../engine/sharing/divide/divide-part.ts';
import type { DivisionAim } from '../../../../engine/sharing/divide/division-weights.ts';
import { shareOf } from '../../../../engine/sharing/divide/planned-shares.ts';
import { describeLeast } from '../../../../engine/sharing/divided-shares.ts';
import { takeDividedShare } from '../../../../engine/sharing/take-share.ts';
import { smallPart } from '../../../part-builder.ts';
import { backup, buildScore, note, readScore, words } from '../../score/musicxml/musicxml-builder.ts';

const notesOf = (score: Score, player: '1' | '2', aim: DivisionAim = 'balanced'): string =>
  takeDividedShare(score, player, aim)
    .notes.filter(({ role }) => role === 'played')
    .map(({ pitch }) => pitchName(pitch))
    .join(' ');

const isPlayable = (score: Score): boolean => planPedals(score).summary.playable;

describe('a part divided between two players', () => {
  const clash = smallPart({ upper: 'C5/1 E5/1 C5/1 E5/1', lower: 'C#3/1 A3/1 C#3/1 A3/1' });

  it.each(['least', 'balanced'] as const)(
    'parts what no foot has time for, E5 from E♭5 in turn, though both are of one voice (%s)',
    (aim) => {
      const turns = Array.from({ length: 4 }, () => 'E5/1:4 Eb5/1:4').join(' ');
      const score = smallPart({ upper: `${turns} r/2`, quartersPerMinute: 108 });
      const { players, stops } = dividePart(score, aim);
      expect(stops).toEqual([0, 0]);
      if (aim === 'balanced') return;
      // The fewest that fixes give another harp are as many.
      const given = listFixes(score).passages.flatMap(({ offers }) =>
        offers.flatMap((offer) => (offer.kind === 'second-harp' ? [offer.changes.length] : [])),
      );
      expect([...players.values()].filter((player) => player === 2)).toHaveLength(Math.min(...given));
    },
  );

  it('gives each a part that can be played, where one harp cannot', () => {
    expect(isPlayable(clash)).toBe(false);
    const { players, stops, proved } = dividePart(clash, 'balanced');
    expect(stops).toEqual([0, 0]);
    expect(proved).toBe(true);
    for (const player of [1, 2] as const)
      expect(isPlayable(shareOf(clash, players, player).score)).toBe(true);
  });

  it('keeps whole voices together where that costs nothing', () => {
    expect([notesOf(clash, '1'), notesOf(clash, '2')].sort()).toEqual(['C5 E5 C5 E5', 'C♯3 A3 C♯3 A3']);
  });

  it('gives every note to one player', () => {
    const { players } = dividePart(clash, 'balanced');
    expect([...players.values()].every((player) => player === 1 || player === 2)).toBe(true);
    expect(players.size).toBe(clash.notes.length);
  });

  it('takes a chord apart that needs one pedal in two positions', () => {
    const score = smallPart({ upper: 'C4+C#5/4 | G4/4' });
    expect(dividePart(score, 'balanced').stops).toEqual([0, 0]);
  });

  it('leaves the second only what the first cannot play, where that is the aim', () => {
    const score = smallPart({ upper: 'E5/1 G5/1 E5/1 G5/1 | C5/2 C#5/2', lower: 'C3/4 | C#3/2 E3/2' });
    const { players, stops } = dividePart(score, 'least');
    expect(stops).toEqual([0, 0]);
    const second = [...players].filter(([, player]) => player === 2);
    expect(second.length).toBeGreaterThan(0);
    expect(second.length).toBeLessThanOrEqual(2);
  });

  it('names the trill that the second has to play with its upper note, as fixes do, and what no harp can play', () => {
    const score = smallPart({
      upper: 'C5/1 C6/1 C5/1 G5/1 | Bb5/4tr(Cb6) | A0/4',
      lower: 'C3/4 | C3/1 C4/1 C3/1 C2/1 | r/4',
    });
    expect(describeLeast(score, dividePart(score, 'least')).sentence).toBe(
      'The least that the second harp must play: 1 note in bar 2 (the trill on B♭5 with C♭6, bar 2, beat 1). Neither harp can play 1 note: A0, bar 3, beat 1.',
    );
    const [{ offers }] = listFixes(score).places as [PlaceFixes];
    expect(offers.map(({ sentence, heard }) => [sentence, heard])).toEqual(
      expect.arrayContaining([
        ['Give another harp the trill on B♭5 with C♭6 in bar 2.', 'Nothing.'],
        ['Leave out the trill on B♭5 with C♭6 in bar 2.', 'The trill on B♭5 with C♭6 is missing.'],
      ]),
    );
  });

  it('names which of two notes of one name the second has to play, and up to eight', () => {
    const clash = smallPart({ upper: 'D4+D5/2 r/2', lower: '(D#2) D#2/2 r/2' });
    expect(describeLeast(clash, dividePart(clash, 'least')).sentence).toContain('(the main note D♯2, bar 1');
    const fives = smallPart({ upper: Array.from({ length: 6 }, () => 'C5+C#5+E5/4').join(' | ') });
    expect(describeLeast(fives, dividePart(fives, 'least')).sentence).toMatch(/bar 6, beat 1\)\.$/);
  });

  it.each(['least', 'balanced'] as const)(
    'gives the other harp the pitch that a string without a disc has beside its own, which fixes offer it (%s)',
    (aim) => {
      const score = smallPart({
        upper: 'D4/4 | A4/4 | D4/4 | A4/4',
        lower: 'D1+D2/4 | Db1+A2/4 | D1+D2/4 | Db1+A2/4',
      });
      const offers = listFixes(score).places.map((place) => place.offers.map(({ kind }) => kind));
      expect(offers.map((kinds) => kinds.includes('second-harp'))).toEqual([true, true]);
      expect(dividePart(score, aim).stops).toEqual([0, 0]);
      if (aim === 'least') expect(notesOf(score, '2', aim)).toBe('D♭1 D♭1');
    },
  );

  it('leaves the second the one note of a clash, and not the two that it clashes with', () => {
    const score = smallPart({
      upper: 'D5/1 D#5/1 E5/2',
      lower: 'D2+D#3/1:4 A3/1:4 B3/1:4 A3/1:4 D#3/1 G2+G3/2',
    });
    expect(isPlayable(score)).toBe(false);
    expect(dividePart(score, 'least').stops).toEqual([0, 0]);
    expect(notesOf(score, '2', 'least')).toBe('D♯3');
  });

  it.each([1, 2])(
    'leaves the second no note that the first could have alone, where that is the aim (a part for %i)',
    (players) => {
      const one = smallPart({
        upper:
          'C5+F#4/1:2 E5+Bb4/1:2 C#5+G4/1:2 F5+A4/1:2 Eb5+B4/1:2 F#5+C4/1:2 G#5+D4/1:2 A5+Eb4/1:2 | E4/4',
        lower: 'F2+C3/2 Ab2+E3/2 | r/4',
        quartersPerMinute: 160,
      });
      const run = { ...one, harp: { ...one.harp, players } };
      const { players: found, stops } = dividePart(run, 'least');
      const second = [...found].filter(([, player]) => player === 2);
      expect(second.length).toBeGreaterThan(0);
      for (const [id] of second) {
        const without = new Map([...found, [id, 1 as const]]);
        const left = ([1, 2] as const)
          .flatMap((player) => planPedals(shareOf(run, without, player).score).findings)
          .filter(({ severity }) => severity === 'stop')
          .flatMap(({ places }) => places);
        expect(left.length).toBeGreaterThan(stops[0] + stops[1]);
      }
    },
  );

  it('leaves the second that side of a clash which costs the first fewer moves', () => {
    const score = smallPart({ upper: 'C5+C#5/4 | C#4/4 | C#5/4', lower: 'C#3/4 | C#3/4 | C#3/4' });
    const second = notesOf(score, '2', 'least');
    expect(second).toBe('C5');
    expect(dividePart(score, 'least').moves).toEqual([0, 0]);
  });

  it.each([
    {
      name: 'the octave that would move its pedal twice',
      upper: 'A4/4 | E4/2 G4/2 | D4+D5/4 | A4/4 | D5/2 A4/2',
      lower: 'A2/4 | D3/4 | Db2+Db3/2 E3/2 | r/4 | A2/4',
      second: 'D♭2 D♭3',
    },
    {
      name: 'the octave above where that below is asked for again',
      upper: 'E4/2 G4/2 | A4/4 | F4+F5/2 E4/2 | F#5/2 A4/2 | F5/2 A4/2',
      lower: 'r/4 | r/2 F#2/2 | F#2+F#3/4 | F#3/4 | r/4',
      second: 'F4 F5',
    },
    {
      name: 'the one note of each clash, beside which the other notes are all of one pedal',
      upper: 'Db5/2 A4/2 | E4/2 G4/2 | D5/4 | A4/4 | E4/2 G4/2',
      lower: 'D3/4 | D3/4 | Db2/2 E3/2 | D3/4 | r/2 Db2/2',
      second: 'D♭5 D♭2',
    },
  ])(
    'leaves the second that side of a clash which fixes give another harp first: $name',
    ({ upper, lower, second }) => {
      const score = smallPart({ upper, lower, quartersPerMinute: 60 });
      const byId = new Map(score.notes.map(({ id, pitch }) => [id, pitchName(pitch)]));
      const { places, passages } = listFixes(score);
      const clashes = [...passages, ...places].map(
        ({ offers }) =>
          offers
            .filter(({ kind }) => kind === 'second-harp')
            .flatMap((offer) =>
              'changes' in offer ? [offer.changes.map(({ note }) => byId.get(note)!)] : [],
            )[0] ?? [],
      );
      expect([...new Set(clashes.flat())].toSorted()).toEqual(second.split(' ').toSorted());
      expect(notesOf(score, '2', 'least').split(' ').toSorted()).toEqual(second.split(' ').toSorted());
    },
  );

  it('is not divided where one harp can play it all, and the second is to have as little as can be', () => {
    expect(notesOf(smallPart({ upper: 'C5/1 E5/1 G5/1 E5/1', lower: 'C3/4' }), '2', 'least')).toBe('');
  });

  it('takes a bar apart in time where a foot has no time for one voice', () => {
    const score = smallPart({
      upper: 'E4/1:2 F4/1:2 G4/1:2 A4/1:2 Eb4/1:2 F#4/1:2 G#4/1:2 Ab4/1:2 | E4/4',
      quartersPerMinute: 200,
    });
    expect(isPlayable(score)).toBe(false);
    expect(dividePart(score, 'balanced').stops).toEqual([0, 0]);
  });
});

describe('a part written for two on one pair of staves', () => {
  const down = { voice: '2', stem: 'down' } as const;
  const up = { stem: 'up' } as const;
  const score = readScore(
    buildScore([
      {
        id: 'P1',
        name: 'Harps',
        bars: [
          words('div.') +
            note('C5', 2, up) +
            note('E5', 2, up) +
            backup(4) +
            note('C#4', 2, down) +
            note('E4', 2, down),
          words('a 2') + note('G4', 4),
          words('I') + note('C5', 4),
          words('II') + note('C#5', 4),
        ],
      },
    ]),
  );

  it('comes apart as its writer marked it', () => {
    expect(notesOf(score, '1')).toBe('C5 E5 G4 C5');
    expect(notesOf(score, '2')).toBe('C♯4 E4 G4 C♯5');
  });
});

describe('the share of a divided part', () => {
  it('is named for its player, and says what the division comes to', () => {
    const share = takeDividedShare(smallPart({ upper: 'C4+C#5/4' }), '2', 'balanced');
    expect(share.harp.name).toBe('Harp (2.)');
    expect(share.remarks.at(-1)!.message).toMatch(/^Divided between two players: 1 note and 0 moves/);
  });
});
