import { describe, expect, it } from 'vitest';
import { parseSetting } from '../../engine/harp/setting.ts';
import { ZERO } from '../../engine/music/rational.ts';
import { drawMarking, type MarkingLook } from '../../render/draw/draw-marking.ts';
import type { Drawing } from '../../render/draw/drawing.ts';
import { drawPlaceNumber } from '../../render/draw/place-number.ts';
import type { EngravingChoice } from '../../render/engraving-options.ts';
import type { Marking } from '../../render/markings/markings.ts';
import { annotateBytes } from './annotate-bytes.ts';
import { drawnPart } from './drawn-part.ts';
import { PLAIN_CHANGE, PLAIN_SETTING } from './marking-builder.ts';
import { annotator } from './shared-annotator.ts';
import { meiScore } from './small-score.ts';

/**
 * Pictures that were looked at before they were stored in test/golden, each a file that any viewer shows. After a
 * wanted change of looks: `npx vitest run test/render/goldens.test.ts -u`, then look at them again.
 */

const PLACE = { id: 'marking-1', at: ZERO, bar: 0, beat: { num: 1, den: 1 }, graceNote: null };

const settingOf = (text: string): Marking => {
  const setting = parseSetting(text);
  if (!setting.ok) throw new Error(text);
  return { kind: 'setting', setting: setting.value, changed: ['C', 'E', 'F'], ...PLAIN_SETTING, ...PLACE };
};

const SETTING = settingOf('D C# Bb | Eb F# G Ab');
const BOTH_FEET: Marking = {
  kind: 'change',
  right: [
    { letter: 'F', position: 1 },
    { letter: 'A', position: -1 },
  ],
  left: [{ letter: 'B', position: 0 }],
  ...PLAIN_CHANGE,
  ...PLACE,
};

const LOOK: MarkingLook = {
  settingLook: 'diagram',
  naming: 'english',
  language: 'english',
  circleChanged: false,
};

const picture = ({ box, body }: Drawing): string => {
  const [width, height] = [box.widthVu, box.heightVu].map((vu) => Number((vu * 10).toFixed(2)));
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" ` +
    `viewBox="0 0 ${Number(box.widthVu.toFixed(4))} ${Number(box.heightVu.toFixed(4))}">\n` +
    `${body.replaceAll('><', '>\n<')}\n</svg>\n`
  );
};

const ARTS: readonly (readonly [string, Drawing])[] = [
  ['setting-diagram', drawMarking(SETTING, LOOK)],
  ['setting-diagram-ringed', drawMarking(SETTING, { ...LOOK, circleChanged: true })],
  ['setting-one-row-english', drawMarking(SETTING, { ...LOOK, settingLook: 'letters-one-row' })],
  [
    'setting-one-row-ringed',
    drawMarking(SETTING, { ...LOOK, settingLook: 'letters-one-row', circleChanged: true }),
  ],
  [
    'setting-one-row-german',
    drawMarking(SETTING, { ...LOOK, settingLook: 'letters-one-row', naming: 'german' }),
  ],
  [
    'setting-one-row-fixed-do',
    drawMarking(SETTING, { ...LOOK, settingLook: 'letters-one-row', naming: 'fixed-do' }),
  ],
  ['setting-two-rows-english', drawMarking(SETTING, { ...LOOK, settingLook: 'letters-two-rows' })],
  ['change-english', drawMarking(BOTH_FEET, LOOK)],
  ['change-german', drawMarking(BOTH_FEET, { ...LOOK, naming: 'german' })],
  ['change-fixed-do', drawMarking(BOTH_FEET, { ...LOOK, naming: 'fixed-do' })],
  ['flag', drawPlaceNumber(12)],
];

describe('a marking looks as it did when it was looked at', () => {
  it.each(ARTS)('%s', async (name, art) => {
    await expect(picture(art)).toMatchFileSnapshot(`../golden/${name}.svg`);
  });
});

/** Four bars with a long slur, low notes, a change of both feet, a joined rest and a place that cannot be played. */
const BARS = [
  'e5.2 g#5.2/c2.4 g2.4 e3.2',
  'f#5.4 ab5.4 c#5.2/bb2.2 f#2.2',
  'R/R',
  'R/R',
  'c5+c#6.2 f##4.2/c2.1',
];

const PAGES: readonly (readonly [string, EngravingChoice])[] = [
  ['page-below', {}],
  ['page-above-letters', { placement: 'above', settingLook: 'letters-one-row', circleChanged: true }],
  ['page-between-two-rows', { placement: 'between', settingLook: 'letters-two-rows', naming: 'german' }],
  [
    'page-study',
    { stringColours: 'c-red-f-blue', respelledLook: 'named', naming: 'fixed-do', multiBarRests: false },
  ],
];

describe('a page looks as it did when it was looked at', () => {
  it.each(PAGES)('%s', async (name, engraving) => {
    const paper = { widthMm: 180, heightMm: 100 };
    const annotated = await annotateBytes(
      annotator,
      meiScore({ bars: BARS }),
      { engraving: { paper, ...engraving } },
      'svg',
    );
    if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
    expect(annotated.value.pages).toHaveLength(1);
    await expect(drawnPart(annotated.value.pages[0]!)).toMatchFileSnapshot(`../golden/${name}.svg`);
  });
});
