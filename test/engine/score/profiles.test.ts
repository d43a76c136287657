import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkProfile } from '../../../engine/harp/check-profile.ts';
import { HARPS } from '../../../engine/harp/harps.ts';
import { stringsWithLevers } from '../../../engine/harp/levered-strings.ts';
import { isFixedString } from '../../../engine/harp/profile.ts';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { stepOf } from '../../../engine/music/pitch.ts';
import { chooseProfile } from '../../../engine/score/choose-profile.ts';
import { parseXml } from '../../../engine/xml/parse-xml.ts';
import { describeLeverStart } from '../../../render/spoken/describe-levers.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { smallPart } from '../../part-builder.ts';
import { leverPart } from '../proof/levers/lever-part.ts';

const countStrings = ({ lowest, highest }: (typeof HARPS)[keyof typeof HARPS]): number =>
  stepOf(highest) - stepOf(lowest) + 1;

const chosenFor = (name: string, sound?: string) => {
  const score = smallPart({ upper: 'C4/4' });
  const xml = `<score-partwise><part-list><score-part id="P1"><part-name>x</part-name>${
    sound === undefined
      ? ''
      : `<score-instrument id="P1-I1"><instrument-sound>${sound}</instrument-sound></score-instrument>`
  }</score-part></part-list></score-partwise>`;
  const root = parseXml(xml);
  if (!root.ok) throw new Error(root.problem.code);
  return chooseProfile({
    ...score,
    harp: { ...score.harp, name },
    source: { ...score.source, root: root.value },
  });
};

describe('the harp of a tune in ABC', () => {
  const harpOf = (name: string) => {
    const score = smallPart({ upper: 'C4/4' });
    return chooseProfile({ ...score, isTune: true, harp: { ...score.harp, name } });
  };

  it('is the lever harp with 34 strings, and the player is told so', () => {
    const { profile, isHarpOfTunes, remark } = harpOf('');
    expect(profile).toBe(HARPS['lever-harp-34']);
    expect(isHarpOfTunes).toBe(true);
    expect(remark?.message).toContain('lever harp, 34 strings');
  });

  it('is the one that its part names', () => {
    expect(harpOf('Concert harp').profile).toBe(HARPS['concert-harp']);
    expect(harpOf('Celtic harp, 27 strings').profile).toBe(HARPS['lever-harp-27']);
  });
});

describe('the harps that come with the program', () => {
  it('have the number of strings that their names state', () => {
    for (const [name, profile] of Object.entries(HARPS)) {
      const stated = Number(/\d+/.exec(profile.name)?.[0]);
      expect(countStrings(profile), name).toBe(stated);
    }
  });

  it('are 47 strings C1 to G7 for the concert harp, C1, D1 and G7 without discs (Widor 1923; common practice)', () => {
    const harp = HARPS['concert-harp'];
    expect(countStrings(harp)).toBe(47);
    const fixed = [
      stepOf({ letter: 'C', octave: 1 }),
      stepOf({ letter: 'D', octave: 1 }),
      stepOf({ letter: 'G', octave: 7 }),
    ];
    expect(harp.fixed.map(stepOf)).toEqual(fixed);
    expect(isFixedString(harp, { letter: 'E', octave: 1 })).toBe(false);
  });

  it('are 34 strings tuned in E flat for the lever harp (common practice)', () => {
    const harp = HARPS['lever-harp-34'];
    expect(countStrings(harp)).toBe(34);
    expect(formatSetting(harp.tuning.letters)).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♭');
  });
});

describe('the harp that a part is written for', () => {
  it.each([
    'Lever Harp',
    'Celtic Harp 1',
    'Folk harp',
    'Harpe celtique',
    'Harpe à leviers',
    'Hakenharfe',
    'Keltische Harfe',
    'Arpa celtica',
    'Arpa Celta',
    'Arpa de palancas',
    'Clàrsach',
  ])('is a lever harp for “%s”', (name) => {
    const { profile, remark } = chosenFor(name);
    expect(profile).toBe(HARPS['lever-harp-34']);
    expect(remark?.message).toContain('The name of the part says');
  });

  it('is a lever harp for the sound pluck.celtic-harp (MusicXML standard sounds)', () => {
    const { profile, remark } = chosenFor('Harp', 'pluck.celtic-harp');
    expect(profile.kind).toBe('lever');
    expect(remark?.message).toContain('The sound of the part says');
  });

  it.each(['Harp', 'Harfe', 'Arpa', 'Pedal harp', 'Harpe chromatique', 'Piano'])(
    'is the concert harp for “%s”, without a remark',
    (name) => {
      expect(chosenFor(name, 'pluck.harp')).toMatchObject({ profile: HARPS['concert-harp'], remark: null });
    },
  );

  it('has the size that the name states', () => {
    expect(chosenFor('Lever harp (27 strings)').profile).toBe(HARPS['lever-harp-27']);
    expect(chosenFor('Harp 40').profile).toBe(HARPS['pedal-harp-40']);
  });
});

describe('a part that says no harp by its name', () => {
  const markedWith = (text: string, name = 'Harp') => {
    const score = leverPart({ upper: 'C4/4' }, [1, 1, text]);
    return chooseProfile({ ...score, harp: { ...score.harp, name } });
  };

  it.each(Object.keys(LANGUAGES) as Language[])(
    'is for a lever harp where its words tell how levers stand, as in %s',
    (language) => {
      const levers = stringsWithLevers(HARPS['lever-harp-34']);
      const { tuning } = HARPS['lever-harp-34'];
      const string = levers.find(({ letter, octave }) => letter === 'F' && octave === 4)!;
      for (const up of [[{ string, alter: 1 as const }], []]) {
        const text = describeLeverStart({ tuning, up, levers }, language).join('\n');
        const { profile, remark } = markedWith(text);
        expect(profile, text).toBe(HARPS['lever-harp-34']);
        expect(remark?.message).toBe(
          'Markings in the part tell of levers: the lever harp, 34 strings, is assumed.',
        );
      }
    },
  );

  it.each(['F♯4', 'Tuning E♭ major', 'F♯, others down', 'lever le fa', 'D C B E F G A'])(
    'is for the concert harp with “%s”, which may be said to either player',
    (text) => expect(markedWith(text)).toMatchObject({ profile: HARPS['concert-harp'], remark: null }),
  );

  it.each(['Pedal harp', 'Harp (47 strings)', 'Konzertharfe', 'Harpe à pédales'])(
    'is for pedals all the same where it is named “%s”',
    (name) => expect(markedWith('Levers up: F♯4', name).profile).toBe(HARPS['concert-harp']),
  );

  it('is for pedals where a diagram of them stands beside words for levers', () => {
    const score = leverPart({ upper: 'C4/4' }, [1, 1, 'Levers up: F♯4']);
    const [words] = score.leverWords;
    const diagram = { ...words!, form: 'harp-pedals', positions: {}, ahead: false } as const;
    expect(chooseProfile({ ...score, markings: [diagram] }).profile).toBe(HARPS['concert-harp']);
  });
});

describe('a harp given as data', () => {
  it('is a lever harp in E flat tuning where it states no other', () => {
    const checked = checkProfile({ kind: 'lever', name: 'mine', lowest: 'G2', highest: 'C6' });
    expect(checked).toEqual({
      ok: true,
      value: {
        kind: 'lever',
        name: 'mine',
        lowest: { letter: 'G', octave: 2 },
        highest: { letter: 'C', octave: 6 },
        fixed: [],
        tuning: HARPS['lever-harp-34'].tuning,
      },
    });
  });

  it('may be tuned to another key, and single strings apart', () => {
    const checked = checkProfile({
      kind: 'lever',
      name: 'mine',
      lowest: 'C3',
      highest: 'C6',
      tuning: 'D C B E F G A',
      apart: ['Bb3'],
      fixed: ['C3'],
    });
    expect(checked.ok && checked.value.kind === 'lever' && checked.value.tuning.exceptions).toEqual([
      { string: { letter: 'B', octave: 3 }, alter: -1 },
    ]);
  });

  const good = { kind: 'pedal', name: 'mine', lowest: 'C1', highest: 'G7', fixed: ['C1'] };
  it.each([
    ['harp', 12],
    ['harp', null],
    ['kind of harp', { ...good, kind: 'hook' }],
    ['name of a harp', { ...good, name: ' ' }],
    ['lowest string', { ...good, lowest: 'H1' }],
    ['highest string for a harp whose lowest is C1', { ...good, highest: 'C1' }],
    ['highest string for a harp whose lowest is C1', { ...good, lowest: 'C1', highest: 'B9' }],
    ['fixed string', { ...good, fixed: ['A7'] }],
    ['fixed string', { ...good, fixed: ['C1', 'C1'] }],
    ['list of fixed strings', { ...good, fixed: 'C1' }],
    ['field of a harp', { ...good, tuning: 'D C B E F G A' }],
    ['tuning', { ...good, kind: 'lever', tuning: 'D C B' }],
    ['string with its own tuning', { ...good, kind: 'lever', apart: ['B##3'] }],
  ])('is refused for its %s', (what, given) => {
    const checked = checkProfile(given);
    expect(!checked.ok && checked.problem.code === 'bad-value' && checked.problem.what).toBe(what);
  });

  it('is never thrown at, whatever is given', () => {
    fc.assert(
      fc.property(fc.anything(), fc.jsonValue(), (anything, json) => {
        expect(checkProfile(anything).ok).toBe(false);
        expect(checkProfile({ ...good, fixed: json }).ok).toBe(Array.isArray(json) && json.length === 0);
      }),
    );
  });
});
