import { describe, expect, it } from 'vitest';
import { COMPARE_CATALOGUE } from '../../../engine/compare/catalogue.ts';
import { HARPS } from '../../../engine/harp/harps.ts';
import { LEVER_CATALOGUE } from '../../../engine/levers/catalogue.ts';
import { DEFAULT_LEVER_OPTIONS, leverOptionsFor } from '../../../engine/levers/options.ts';
import { defaultOf } from '../../../engine/options/choose.ts';
import type { Catalogue } from '../../../engine/options/describe-option.ts';
import { OPTION_GROUPS } from '../../../engine/options/groups.ts';
import { listOptions } from '../../../engine/options/list-options.ts';
import { PEDAL_CATALOGUE } from '../../../engine/pedals/catalogue.ts';
import { DEFAULT_PLAN_OPTIONS, pedalOptionsFor } from '../../../engine/pedals/options.ts';
import { SHARING_CATALOGUE } from '../../../engine/sharing/catalogue.ts';
import { ENGRAVING_CATALOGUE } from '../../../render/engraving-catalogue.ts';
import { completeEngraving } from '../../../render/engraving-options.ts';
import { OPTION_CATALOGUE } from '../../../render/option-catalogue.ts';
import { compareOptions } from '../../../server/api/answers/comparison.ts';
import { describeApi } from '../../../server/api/openapi.ts';
import { checkHarpOptions } from '../../../server/api/requests/harp-options.ts';
import { annotateOptions, planOptions } from '../../../server/api/requests/options.ts';
import { nameOptions, readOptions } from '../../../server/api/requests/read-options.ts';
import { annotateChoice, markChoice, proofChoice } from '../../../server/command/arguments/command-flags.ts';
import { flagOf } from '../../../server/command/arguments/flags.ts';
import { writeHelp } from '../../../server/command/arguments/help.ts';

const HELP = writeHelp();

const API = describeApi() as {
  paths: Record<string, { post: { parameters: { name: string; description: string }[] } }>;
};

const CATALOGUES = [
  SHARING_CATALOGUE,
  PEDAL_CATALOGUE,
  LEVER_CATALOGUE,
  ENGRAVING_CATALOGUE,
  COMPARE_CATALOGUE,
];

const LISTED = listOptions(OPTION_CATALOGUE);

const NAMES = Object.keys(OPTION_CATALOGUE) as (keyof typeof OPTION_CATALOGUE)[];

/** The options of one harp, each with its default. */
const usualFor = (harp: 'pedal' | 'lever') =>
  Object.fromEntries(
    Object.entries(OPTION_CATALOGUE as Catalogue)
      .filter(([, { harps }]) => harps === harp || harps === 'both')
      .map(([name, option]) => [name, defaultOf(option, harp)]),
  );

const areMultiples = (values: readonly number[], step: number | null) =>
  step === null || values.every((value) => Number.isInteger(value / step));

describe('every option of the catalogue', () => {
  it('is described once', () => {
    const names = CATALOGUES.flatMap((catalogue) => Object.keys(catalogue));
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });

  it.each(LISTED.map((listed) => [listed.name, listed] as const))(
    '%s is told in plain words',
    (_name, listed) => {
      const { option, group } = listed;
      expect(option.description).toMatch(/^[A-Z].*\.$/s);
      expect(Object.keys(OPTION_GROUPS)).toContain(group);
      if (option.label !== null) expect(option.label).toMatch(/^[A-Z].*[^.]$/);
      if (option.kind === 'one-of' || option.kind === 'named-or-own') {
        const words = Object.values(option.values);
        expect(new Set(words).size).toBe(words.length);
      }
    },
  );

  it.each(LISTED.map((listed) => [listed.name, listed] as const))(
    '%s has a default, and offers numbers, that are within its range',
    (_name, { option }) => {
      if (option.kind === 'text') expect(option.read(option.default).ok).toBe(true);
      if (option.kind !== 'amount' && option.kind !== 'amount-or-never') return;
      const { least, most, step, offered } = option;
      const numbers = [...(option.default === null ? [] : [option.default]), ...(offered?.values ?? [])];
      expect(Math.min(...numbers)).toBeGreaterThanOrEqual(least);
      expect(Math.max(...numbers)).toBeLessThanOrEqual(most);
      expect(areMultiples(numbers, step)).toBe(true);
      if (offered !== null && option.default !== null) expect(offered.values).toContain(option.default);
    },
  );

  it.each(NAMES)('%s is accepted by the service with its default, and changes nothing', (name) => {
    const { harps } = OPTION_CATALOGUE[name];
    const harp = harps === 'lever' ? 'lever' : 'pedal';
    const given = { [name]: defaultOf(OPTION_CATALOGUE[name], harp) };
    const read = readOptions(annotateOptions, '', JSON.stringify(given));
    expect(read).toEqual({ ok: true, value: given });
    if (!read.ok) return;
    expect(pedalOptionsFor(read.value)).toEqual(DEFAULT_PLAN_OPTIONS);
    expect(leverOptionsFor(read.value)).toEqual(DEFAULT_LEVER_OPTIONS);
    const { fullSettings: _, cueParts: __, ...look } = read.value;
    expect(completeEngraving(look, harp)).toEqual(completeEngraving({}, harp));
  });

  it.each(NAMES)('%s is accepted for the harps that it concerns, and refused for others by name', (name) => {
    const { harps } = OPTION_CATALOGUE[name];
    for (const profile of [HARPS['concert-harp'], HARPS['lever-harp-34']]) {
      const checked = checkHarpOptions({ [name]: usualFor(profile.kind)[name] ?? '' }, profile);
      if (harps === 'both' || harps === profile.kind) expect(checked.ok).toBe(true);
      else expect(checked).toMatchObject({ ok: false, problem: { option: name } });
    }
  });

  it.each(LISTED.map(({ name }) => name))('%s has a parameter in the description for programs', (name) => {
    const parameter = API.paths['/v1/annotate']!.post.parameters.find((each) => each.name === name);
    const { option } = LISTED.find((each) => each.name === name)!;
    expect(parameter?.description).toContain(option.description);
  });
});

describe('the help of the command line', () => {
  const all = [annotateChoice, planOptions, proofChoice, markChoice, compareOptions].flatMap((schema) =>
    nameOptions(schema),
  );

  it.each([...new Set(all.map(({ name }) => name))])('names %s, and says what it does', (name) => {
    const told = all.find((each) => each.name === name)?.description;
    expect(HELP).toContain(`\n  --${flagOf(name)}`);
    expect(HELP.replace(/\n */g, ' ')).toContain(told);
  });

  it.each(LISTED.map(({ name, option }) => [name, option] as const))(
    'has every value of %s',
    (name, option) => {
      const [, told = ''] = HELP.split(`\n  --${flagOf(name)}`);
      if (option.kind !== 'one-of' && option.kind !== 'named-or-own') return;
      const [head = ''] = told.split('\n');
      for (const value of Object.keys(option.values)) expect(head).toContain(value);
    },
  );

  it('fits a terminal of 120 columns', () => {
    expect(HELP.split('\n').filter((line) => line.length > 120 && !/^ {2}[A-Z_]+ /.test(line))).toEqual([]);
  });
});
