import type { Control } from '../draft.ts';
import type { ReadLog } from '../log.ts';

/** Elements beside the music that are read elsewhere, or say nothing of pitches, times and pedals. */
// biome-ignore format: a list of names reads better unbroken
const KNOWN: ReadonlySet<string> = new Set([
  'anchoredText', 'annot', 'arpeg', 'attacca', 'beamSpan', 'bracketSpan', 'breath', 'caesura', 'cb', 'colLayout', 'cpMark',
  'curve', 'dir', 'div', 'dynam', 'fermata', 'fing', 'fingGrp', 'gap', 'gliss', 'hairpin', 'handShift', 'harm', 'harpPedal',
  'line', 'lv', 'lyrics', 'mNum', 'metaMark', 'midi', 'mordent', 'octave', 'ornam', 'pb', 'pedal', 'phrase', 'reh', 'relation',
  'relationList', 'repeatMark', 'sb', 'scoreDef', 'slur', 'sp', 'staffDef', 'stageDir', 'symbol', 'tempo', 'tie', 'trill',
  'tupletSpan', 'turn',
]);

/** Tells of every kind of element in a measure that the reader does not know, and of ossias, which it passes over. */
export const remarkUnknownElements = (controls: readonly Control[], log: ReadLog): void => {
  for (const { element, bar } of controls) {
    if (element.name === 'ossia') log.skip('an ossia', bar);
    else if (!KNOWN.has(element.name)) log.skip(`the element “${element.name}” in a measure`, bar);
  }
};
