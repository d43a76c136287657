import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { HARP_NAMES, HARPS, harpLabel } from '../../../engine/harp/harps.ts';
import { stepOf } from '../../../engine/music/pitch.ts';
import { chooseProfile } from '../../../engine/score/choose-profile.ts';
import { listInstruments } from '../../../server/api/requests/instruments.ts';
import { writeHelp } from '../../../server/command/arguments/help.ts';
import { smallPart } from '../../part-builder.ts';

const FOLDER = new URL('../../../engine/harp/profiles/', import.meta.url);

const dataFiles = readdirSync(FOLDER).map((file) => file.replace(/\.ts$/, ''));

describe('the harps', () => {
  it.each(dataFiles)('have %s, which has a data file', (name) => {
    expect(HARP_NAMES).toContain(name);
  });

  it.each(HARP_NAMES)('tell of %s in its own words, with as many strings as it has', (name) => {
    expect(dataFiles).toContain(name);
    const profile = HARPS[name];
    const strings = stepOf(profile.highest) - stepOf(profile.lowest) + 1;
    expect(profile.name).toContain(`${strings} strings`);
    expect(harpLabel(name).replace(/^./, (capital) => capital.toLowerCase())).toBe(profile.name);
    expect(listInstruments().instruments.find(({ id }) => id === name)).toMatchObject({ strings });
    expect(writeHelp()).toMatch(new RegExp(`${name} +${profile.name}`));
  });

  it.each(HARP_NAMES)('find %s by the kind and the number of strings in the name of a part', (name) => {
    const score = smallPart({ upper: 'C4/4' });
    const { profile } = chooseProfile({ ...score, harp: { ...score.harp, name: HARPS[name].name } });
    expect(profile).toBe(HARPS[name]);
  });
});
