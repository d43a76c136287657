import { describe, expect, it } from 'vitest';
import type { HarpKind } from '../../../engine/harp/harps.ts';
import { HARPS } from '../../../engine/harp/harps.ts';
import { defaultOf } from '../../../engine/options/choose.ts';
import type { ListedOption } from '../../../engine/options/list-options.ts';
import { DEFAULT_PLAN_OPTIONS, pedalOptionsFor } from '../../../engine/pedals/options.ts';
import { DEFAULT_ENGRAVING } from '../../../render/engraving-options.ts';
import { checkHarpOptions } from '../../../server/api/requests/harp-options.ts';
import { annotateOptions } from '../../../server/api/requests/options.ts';
import {
  chosenOf,
  cleanChoices,
  listedFor,
  OWN,
  optionsOf,
  planChoicesOf,
  valuesOf,
} from '../../../server/page/client/options/choices.ts';
import { groupsFor, studyOptionsFor } from '../../../server/page/client/options/offered-options.ts';

const HARP_OF = { pedal: HARPS['concert-harp'], lever: HARPS['lever-harp-34'] } as const;

/** Words that a control could hold for an option. */
const wordsFor = (listed: ListedOption): readonly string[] => {
  const values = valuesOf(listed);
  const { option } = listed;
  if (values !== null) return Object.keys(values);
  switch (option.kind) {
    case 'switch':
      return ['true', 'false'];
    case 'text':
      return option.examples;
    case 'amount':
    case 'amount-or-never':
      return [`${option.least}`, `${option.default}`, `${option.most}`];
    default:
      return [];
  }
};

const CASES = (['pedal', 'lever'] as const).flatMap((harp) =>
  listedFor(harp).flatMap((listed) =>
    wordsFor(listed).map((word) => [harp, listed.name, word, listed] as const),
  ),
);

describe('the choices of the page', () => {
  it.each(CASES)('for the %s harp offer %s as %s, which the service takes', (harp, name, word, { ownOf }) => {
    const own = ownOf === null ? {} : { [ownOf.name]: OWN };
    const choices = cleanChoices({ ...own, [name]: word }, harp);
    expect(chosenOf(choices, name, harp)).toBe(word);
    const options = optionsOf(choices, harp);
    expect(annotateOptions.safeParse(options).error).toBeUndefined();
    expect(checkHarpOptions(options, HARP_OF[harp])).toMatchObject({ ok: true });
  });

  it.each<[HarpKind]>([['pedal'], ['lever']])(
    'for the %s harp begin with a value that is offered',
    (harp) => {
      for (const listed of listedFor(harp)) {
        const values = valuesOf(listed);
        const usual = `${defaultOf(listed.option, harp)}`;
        if (values !== null) expect(Object.keys(values), listed.name).toContain(usual);
      }
    },
  );

  it.each<[HarpKind]>([['pedal'], ['lever']])(
    'for the %s harp stand in one group each, if they have a label',
    (harp) => {
      const offered = groupsFor(harp).flatMap(({ options }) => options.map(({ name }) => name));
      const labelled = listedFor(harp).filter(({ option }) => option.label !== null);
      expect([...offered].sort()).toEqual(labelled.map(({ name }) => name).sort());
    },
  );

  it.each<[HarpKind]>([['pedal'], ['lever']])(
    'for the %s harp have all that shapes a study edition beside its download: for whom it is, too',
    (harp) => {
      const names = studyOptionsFor(harp).map(({ name }) => name);
      expect(names).toEqual(['level', 'blanks', 'language']);
    },
  );

  it('offer every look and every way to plan but the prices, the tuning, which has a table, the edition, which is a download, and dividing a part', () => {
    const shown = new Set(
      (['pedal', 'lever'] as const).flatMap((harp) =>
        groupsFor(harp).flatMap(({ options }) => options.map(({ name }) => name)),
      ),
    );
    const hidden = (['pedal', 'lever'] as const)
      .flatMap((harp) => listedFor(harp).map(({ name }) => name))
      .filter((name) => !shown.has(name) && !name.startsWith('weights.'));
    expect([...new Set(hidden)]).toEqual(['divide', 'edition', 'tuning']);
  });

  it('send the defaults of the engine and the service where all is as at first', () => {
    const sent = optionsOf({}, 'pedal');
    expect(pedalOptionsFor(sent)).toEqual(DEFAULT_PLAN_OPTIONS);
    const {
      fullSettings: _,
      cueParts: _cues,
      leverLook: _look,
      leverHands: _hands,
      leverTables: _tables,
      ...engraving
    } = DEFAULT_ENGRAVING;
    expect(sent).toMatchObject(engraving);
    expect(optionsOf({}, 'lever')).toMatchObject({
      placement: 'between',
      respelledLook: 'named',
      tuning: 'sparing',
      leverSeconds: 0.6,
    });
  });

  it('are none where all is as at first', () => {
    for (const harp of ['pedal', 'lever'] as const) {
      const usual = listedFor(harp).map(({ name, option }) => [name, `${defaultOf(option, harp)}`]);
      expect(cleanChoices(Object.fromEntries(usual), harp)).toEqual({});
    }
  });

  it('are those of the level where the user has chosen no other', () => {
    const choices = cleanChoices({ level: 'beginner', legend: 'false', staffMm: '8' }, 'pedal');
    expect(choices).toEqual({ level: 'beginner', legend: 'false' });
    expect(optionsOf(choices, 'pedal')).toMatchObject({
      ...{ staffMm: 8, legend: false, changeWords: true },
      settings: { systemStart: true, pageStart: false },
    });
    expect(optionsOf({ language: 'german' }, 'pedal')).toMatchObject({ naming: 'german' });
    expect(optionsOf({ level: 'beginner' }, 'lever')).toMatchObject({ leverTables: 'each-line' });
  });

  it('gather what belongs together', () => {
    const choices = cleanChoices(
      {
        'settings.start': 'false',
        'settings.afterRestBars': 'null',
        paper: OWN,
        'paper.widthMm': '150.5',
        staffMm: '6',
      },
      'pedal',
    );
    expect(optionsOf(choices, 'pedal')).toMatchObject({
      settings: { start: false, rehearsalMarks: true, afterRestBars: null },
      paper: { widthMm: 150.5, heightMm: 297 },
      staffMm: 6,
    });
  });

  it.each([
    null,
    7,
    'text',
    { naming: 'klingon' },
    { staffMm: 7 },
    { 'paper.widthMm': '99' },
    { 'paper.heightMm': '1e9' },
    { leverLook: 'notes' },
  ])('for the pedal harp remember nothing of %j', (found) => {
    expect(cleanChoices(found, 'pedal')).toEqual({});
  });

  it('plan in the browser by what the service is told', () => {
    const choices = {
      spelling: 'free',
      footRestSeconds: '0.4',
      followMarkings: 'true',
      crossFeet: 'true',
      scordatura: 'A4 +50',
    };
    const told = annotateOptions.parse(optionsOf(choices, 'pedal'));
    expect(pedalOptionsFor(planChoicesOf(choices))).toEqual(pedalOptionsFor(told));
    expect(pedalOptionsFor(told)).toEqual({
      ...DEFAULT_PLAN_OPTIONS,
      spelling: 'free',
      followMarkings: true,
      crossFeet: true,
      weights: { ...DEFAULT_PLAN_OPTIONS.weights, footRestSeconds: 0.4 },
      scordatura: new Map([['A4', 50]]),
    });
  });
});
