import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findGlissandi } from '../../../engine/glissando/settings.ts';
import { readWantedSound } from '../../../engine/glissando/wanted-sound.ts';
import { formatSetting, POSITIONS, parseSetting, type Setting } from '../../../engine/harp/setting.ts';
import { ALL_SETTINGS, pitchClassOf } from '../../../engine/harp/setting-sound.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';
import { rational } from '../../../engine/music/rational.ts';
import { describeSetting } from '../../../engine/settings/describe-setting.ts';
import { listHeldSounds } from '../../../engine/settings/held-sounds.ts';
import { searchSettings } from '../../../engine/settings/search-settings.ts';
import { settingAtQuarters } from '../../../engine/settings/setting-at.ts';
import { findShortestWay } from '../../../engine/settings/shortest-way.ts';
import { cases } from '../../thorough.ts';

const setting = (names: string): Setting => {
  const read = parseSetting(names);
  if (!read.ok) throw new Error(names);
  return read.value;
};

const NATURALS = setting('D C B E F G A');
const REST = 0.25;

const anySetting = fc.integer({ min: 0, max: ALL_SETTINGS.length - 1 }).map((index) => ALL_SETTINGS[index]!);

const pitchClassesIn = (which: Setting): readonly number[] => [
  ...new Set(LETTERS.map((letter) => pitchClassOf(letter, which))),
];

const read = (name: string): ReadonlySet<number> => {
  const wanted = readWantedSound(name);
  if (!wanted.ok) throw new Error(`“${name}” is not understood`);
  return wanted.value.pitchClasses;
};

const namesOf = (which: Setting): readonly string[] => listHeldSounds(which).map(({ name }) => name);

describe('the sounds of a setting', () => {
  it('are, of all naturals together, the seven church modes by their names', () => {
    const whole = listHeldSounds(NATURALS).filter((sound) => sound.whole);
    expect(whole.map(({ name }) => name)).toEqual([
      'C major',
      'D dorian',
      'E phrygian',
      'F lydian',
      'G mixolydian',
      'A minor',
      'B locrian',
    ]);
  });

  it('are named with the signs of notes: dorian ♭2, not b2', () => {
    const names = namesOf(setting('D C B Eb F G A'));
    expect(names).toContain('D dorian ♭2');
    for (const name of ALL_SETTINGS.slice(0, 40).flatMap(namesOf)) {
      expect(name).not.toMatch(/(dorian|lydian|locrian|mixolydian) [b#]/);
    }
  });

  it('have the triads and seventh chords of a key', () => {
    expect(namesOf(setting('D C Bb Eb F G Ab'))).toEqual(
      expect.arrayContaining([
        'E♭ major triad',
        'B♭ dominant seventh',
        'D half-diminished',
        'C minor seventh',
      ]),
    );
  });

  it('name each string that gives them, doubled ones too', () => {
    const [first] = listHeldSounds(setting('D# C B# Eb F# Gb A')).filter(({ name }) =>
      name.startsWith('A dim'),
    );
    expect(first!.name).toBe('A diminished seventh');
    expect(first!.strings).toEqual(['A♮', 'C♮', 'B♯', 'D♯', 'E♭', 'F♯', 'G♭']);
  });

  it('take their root from the string that spells most notes as they are', () => {
    // D sharp and E flat sound one pitch; the chord of C sharp minor's dominant is spelled in sharps.
    expect(namesOf(setting('D# C B Eb F# G# A'))).toContain('B major triad');
    expect(namesOf(setting('Db C# B E F# G# A'))).toContain('C♯ minor triad');
  });

  it('are understood by the search under the names they are given, and have just the pitches of their strings', () => {
    fc.assert(
      fc.property(anySetting, (which) => {
        for (const { name, strings } of listHeldSounds(which)) {
          const given = strings.map((string) => [...read(string.replace('♮', ''))][0]!);
          expect([name, [...new Set(given)].sort()]).toEqual([name, [...read(name)].sort()]);
        }
      }),
      { numRuns: 15 },
    );
  });

  it('leave out none that all the strings give: the settings found for a scale hold it', () => {
    for (const scale of ['C whole tone', 'F# harmonic minor', 'Eb major pentatonic', 'G dominant ninth']) {
      for (const { setting: found } of findGlissandi([{ pitchClasses: read(scale) }]).exact) {
        const whole = listHeldSounds(found).filter((sound) => sound.whole);
        expect(whole.some(({ name }) => sameSet(read(name), read(scale)))).toBe(true);
      }
    }
  });
});

const sameSet = (a: ReadonlySet<number>, b: ReadonlySet<number>): boolean =>
  a.size === b.size && [...a].every((each) => b.has(each));

describe('the neighbours of a setting', () => {
  it('are one move of one pedal away: fourteen', () => {
    const { neighbours } = describeSetting(NATURALS);
    expect(new Set(neighbours.map((each) => formatSetting(each.setting))).size).toBe(14);
  });

  it('say what a move adds and takes: B flat for B; a B sharp only doubles the C', () => {
    const { neighbours } = describeSetting(NATURALS);
    const [flat, sharp] = neighbours.filter(({ letter }) => letter === 'B');
    expect([flat!.adds, flat!.takes, flat!.doubles]).toEqual([['B♭'], ['B♮'], []]);
    expect([sharp!.adds, sharp!.takes, sharp!.doubles]).toEqual([[], ['B♮'], [['C', 'B']]]);
    expect(flat!.gains.map(({ name }) => name)).toContain('F major');
    expect(flat!.loses.map(({ name }) => name)).toContain('C major');
  });

  it('gain and lose just what makes the one setting’s sounds those of the other', () => {
    const keys = (sounds: readonly { readonly key: string }[]) => sounds.map(({ key }) => key);
    fc.assert(
      fc.property(anySetting, (which) => {
        const { sounds, neighbours } = describeSetting(which);
        for (const { setting: near, adds, takes, gains, loses } of neighbours) {
          const after = new Set([...keys(sounds), ...keys(gains)]);
          for (const lost of keys(loses)) expect(after.delete(lost)).toBe(true);
          expect(after).toEqual(new Set(keys(listHeldSounds(near))));
          const [before, now] = [pitchClassesIn(which), pitchClassesIn(near)];
          expect(adds).toHaveLength(now.filter((each) => !before.includes(each)).length);
          expect(takes).toHaveLength(before.filter((each) => !now.includes(each)).length);
        }
      }),
      { numRuns: 10 },
    );
  });
});

/** Every setting that a foot's next move, or none, can lead to. */
const afterOneFoot = (which: Setting, letters: readonly (keyof Setting)[]): readonly Setting[] => [
  which,
  ...letters.flatMap((letter) =>
    POSITIONS.filter((to) => to !== which[letter]).map((to) => ({ ...which, [letter]: to })),
  ),
];

/** How many times are needed, by trying every course of both feet from one setting; apart from the engine's own way. */
const timesFrom = (from: Setting): ReadonlyMap<string, number> => {
  const times = new Map([[formatSetting(from), 0]]);
  let reached: readonly Setting[] = [from];
  for (let time = 1; reached.length > 0; time += 1) {
    const next = reached.flatMap((which) =>
      afterOneFoot(which, ['D', 'C', 'B']).flatMap((half) => afterOneFoot(half, ['E', 'F', 'G', 'A'])),
    );
    reached = next.filter((which) => {
      const name = formatSetting(which);
      if (times.has(name)) return false;
      times.set(name, time);
      return true;
    });
  }
  return times;
};

describe('the way to another setting', () => {
  it('moves both feet at once, each one pedal at a time with its rest between', () => {
    const way = findShortestWay(NATURALS, setting('Db C# Bb Eb F# G A'), REST);
    expect(way.steps.map(({ moves }) => moves.map(({ letter }) => letter).join(''))).toEqual([
      'DE',
      'CF',
      'B',
    ]);
    expect(way.steps.map(({ seconds }) => seconds)).toEqual([0, 0.25, 0.5]);
    expect([way.moves, way.seconds]).toEqual([5, 0.5]);
  });

  it('passes no setting with strings out of order where another order avoids it', () => {
    // F flat before E leaves its sharp would put F below E.
    const way = findShortestWay(setting('D C B E# F G A'), setting('D C B Eb Fb G A'), REST);
    expect(way.steps.map(({ moves }) => moves.map(({ letter }) => letter).join(''))).toEqual(['E', 'F']);
    const back = findShortestWay(setting('D C B Eb Fb G A'), setting('D C B E# F G A'), REST);
    expect(back.steps.map(({ moves }) => moves.map(({ letter }) => letter).join(''))).toEqual(['F', 'E']);
  });

  it('takes no moves where the pedals stand so already', () => {
    expect(findShortestWay(NATURALS, NATURALS, REST)).toEqual({ steps: [], moves: 0, seconds: 0 });
  });

  it('is as short as the shortest of all courses of the feet, to every one of the 2,187 settings', () => {
    for (const from of [NATURALS, setting('D# Cb B# Eb F# Gb A')]) {
      const times = timesFrom(from);
      expect(times.size).toBe(2187);
      for (const to of ALL_SETTINGS) {
        const way = findShortestWay(from, to, 1);
        expect([formatSetting(to), way.steps.length]).toEqual([
          formatSetting(to),
          times.get(formatSetting(to)),
        ]);
        expect(way.seconds).toBe(Math.max(0, way.steps.length - 1));
      }
    }
  });

  it('ends where it is to end, moves no foot twice at a time and no pedal twice', () => {
    fc.assert(
      fc.property(anySetting, anySetting, (from, to) => {
        const { steps, moves } = findShortestWay(from, to, REST);
        expect(steps.at(-1)?.setting ?? from).toEqual(to);
        const moved = steps.flatMap((step) => step.moves.map(({ letter }) => letter));
        expect(new Set(moved).size).toBe(moves);
        for (const step of steps) {
          expect(new Set(step.moves.map(({ foot }) => foot)).size).toBe(step.moves.length);
        }
      }),
      { numRuns: cases(100) },
    );
  });
});

describe('a search for a sound', () => {
  it('names the settings nearest to where the pedals stand first', () => {
    const { holding } = searchSettings([{ pitchClasses: read('Eb major triad') }], NATURALS, REST);
    expect(formatSetting(holding[0]!.setting)).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♮');
    expect([holding[0]!.moves, holding[0]!.seconds]).toEqual([2, 0]);
  });

  it('counts the time after the moves: two feet are quicker than one', () => {
    const { holding } = searchSettings([{ pitchClasses: read('Eb major triad') }], NATURALS, REST);
    const two = holding.filter(({ moves }) => moves === 2).map(({ seconds }) => seconds);
    expect(two).toEqual([0, 0, 0.25, 0.25]);
  });

  it('finds just the settings whose strings have all of it', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('C whole tone', 'G dominant seventh', 'F# minor triad', 'C Eb Gb A', 'D E'),
        anySetting,
        (sound, from) => {
          const wanted = read(sound);
          const { whole, holding } = searchSettings([{ pitchClasses: wanted }], from, REST);
          const has = (which: Setting) => [...wanted].every((each) => pitchClassesIn(which).includes(each));
          expect(whole.length + holding.length).toBe(ALL_SETTINGS.filter(has).length);
          expect(whole.length).toBe(findGlissandi([{ pitchClasses: wanted }]).exact.length);
          const moves = holding.map((each) => each.moves);
          expect(moves).toEqual(moves.toSorted((a, b) => a - b));
        },
      ),
      { numRuns: 10 },
    );
  });

  it('tells what is missing where no setting has all of it: eight notes for seven strings', () => {
    const { whole, holding, nearest } = searchSettings(
      [{ pitchClasses: read('C C# D Eb E F F# G') }],
      NATURALS,
      REST,
    );
    expect([whole.length, holding.length]).toEqual([0, 0]);
    const missing = new Set(nearest.map((each) => each.missing.length));
    expect(missing.size).toBe(1);
    expect(missing.has(0)).toBe(false);
  });
});

describe('where the pedals stand at a bar', () => {
  const course = {
    initial: NATURALS,
    moves: [
      { letter: 'F', to: 1, at: rational(4) },
      { letter: 'C', to: 1, at: rational(6) },
      { letter: 'F', to: 0, at: rational(8) },
    ],
  } as const;

  it('counts the moves at its first moment, and none that come later', () => {
    expect(formatSetting(settingAtQuarters(course, 0))).toBe('D♮ C♮ B♮ | E♮ F♮ G♮ A♮');
    expect(formatSetting(settingAtQuarters(course, 4))).toBe('D♮ C♮ B♮ | E♮ F♯ G♮ A♮');
    expect(formatSetting(settingAtQuarters(course, 8))).toBe('D♮ C♯ B♮ | E♮ F♮ G♮ A♮');
  });
});
