import { describe, expect, it } from 'vitest';
import { annotateOptions } from '../../../server/api/options.ts';
import {
  type ChoiceName,
  type Choices,
  cleanChoices,
  DEFAULTS,
  kindOf,
  optionsOf,
  planChoicesOf,
  valuesOf,
} from '../../../server/page/client/options/choices.ts';
import { STRINGS } from '../../../server/page/strings.ts';

const NAMES = Object.keys(DEFAULTS) as ChoiceName[];

const valuesFor = (name: ChoiceName): readonly string[] =>
  ({
    list: Object.keys(valuesOf(name)),
    switch: ['true', 'false'],
    length: ['100', '229.5', '1000'],
    strings: ['A4 +50', 'C5 -33.3, B3 +100'],
  })[kindOf(name)];

const CASES = NAMES.flatMap((name) => valuesFor(name).map((value) => [name, value] as const));

describe('the choices of the page', () => {
  it.each(CASES)('offer %s as %s, which the service takes', (name, value) => {
    const choices: Choices = name.startsWith('paper') ? { paper: 'own', [name]: value } : { [name]: value };
    const options = optionsOf(choices);
    if (value !== DEFAULTS[name]) expect(options).not.toEqual({});
    expect(annotateOptions.safeParse(options).error).toBeUndefined();
  });

  it('begin with a value that is offered, and have a name each', () => {
    for (const name of NAMES) {
      expect(STRINGS.choices.names[name]).toBeTruthy();
      if (kindOf(name) === 'list') expect(Object.keys(valuesOf(name))).toContain(DEFAULTS[name]);
    }
  });

  it('send nothing where all is as at first', () => {
    expect(optionsOf(cleanChoices(DEFAULTS))).toEqual({});
  });

  it('gather what belongs together', () => {
    const choices = cleanChoices({
      'settings.start': 'false',
      'settings.afterRestBars': 'null',
      paper: 'own',
      paperWidth: '150.5',
      inFile: 'pins',
      staffMm: '6',
    });
    expect(optionsOf(choices)).toEqual({
      settings: { start: false, afterRestBars: null },
      paper: { widthMm: 150.5, heightMm: 297 },
      keepMarkings: true,
      staffMm: 6,
    });
  });

  it.each([
    null,
    7,
    'text',
    { naming: 'klingon' },
    { staffMm: 7 },
    { paperWidth: '99' },
    { paperHeight: '1e9' },
  ])('remember nothing of %j', (found) => {
    expect(cleanChoices(found)).toEqual({});
  });

  it('plan in the browser by what the service is told', () => {
    const choices = {
      spelling: 'free',
      footRest: '0.4',
      inFile: 'pins',
      crossFeet: 'true',
      scordatura: 'A4 +50',
    };
    expect(planChoicesOf(choices)).toEqual({
      spelling: 'free',
      keepMarkings: true,
      pedalsTogether: false,
      crossFeet: true,
      footRestSeconds: 0.4,
      scordatura: 'A4 +50',
    });
    expect(optionsOf(choices)).toEqual({
      spelling: 'free',
      footRest: 0.4,
      keepMarkings: true,
      crossFeet: true,
      scordatura: 'A4 +50',
    });
  });
});
