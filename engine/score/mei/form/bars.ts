import { compare, equals, multiply, type Rational, rational, ZERO } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import { numberBars } from '../../bars/bar-numbers.ts';
import { barLength } from '../../bars/beats.ts';
import type { Rest } from '../../model/between-notes.ts';
import { applyDefinition, NO_DEFINITIONS, type StaffState, staffStateOf } from '../definitions.ts';
import type { Anchor, BarDraft, Control, NoteDraft, StaffBar } from '../draft.ts';
import type { Ids } from '../ids.ts';
import type { ReadLog } from '../log.ts';
import type { LayerReading } from '../notes/layer.ts';
import { addTime } from '../score-time.ts';
import { readInteger } from '../values.ts';
import { type BarRepeater, type PastBar, startRepeater } from './bar-repeater.ts';
import type { FlowItem } from './form.ts';
import { type MeasureReading, readMeasure } from './measure.ts';

/** The movement bar by bar, before marks beside the music are worked in. */
export interface BarsReading {
  readonly bars: readonly BarDraft[];
  /** The harp's notes in the order of the file. */
  readonly notes: readonly NoteDraft[];
  readonly rests: readonly Rest[];
  readonly anchors: ReadonlyMap<string, Anchor>;
  readonly controls: readonly Control[];
}

/** Reads the bars in printed order. @param harpStaves the `n` of the harp's staves from the top */
export const readBars = (
  flow: readonly FlowItem[],
  harpStaves: readonly string[],
  ids: Ids,
  log: ReadLog,
): BarsReading => {
  const harpStaff = (n: string): number => harpStaves.indexOf(n) + 1;
  const repeater = startRepeater(ids, log);
  const bars: BarDraft[] = [];
  const past: PastBar[] = [];
  const notes: NoteDraft[] = [];
  const rests: Rest[] = [];
  const anchors = new Map<string, Anchor>();
  const controls: Control[] = [];
  const numbers = numbersIn(flow);
  let definitions = NO_DEFINITIONS;
  let onset = ZERO;
  for (const item of flow) {
    const { element } = item;
    if (item.kind === 'definition') {
      definitions = applyDefinition(definitions, element, log);
      controls.push({ element, bar: bars.length, staff: null, at: onset });
      continue;
    }
    const reading = readMeasure(element, definitions, {
      bar: bars.length,
      onset,
      harpStaff,
      ids,
      log,
    });
    const bar = draftBar(item, reading, {
      index: bars.length,
      number: numbers[bars.length]!,
      onset,
      harpStaves,
      ids,
      log,
    });
    const sounding = reading.layers.map((layer) => repeatInto(layer, reading, past, onset, repeater));
    bars.push(bar);
    past.push({ onset, layers: sounding });
    for (const each of sounding) notes.push(...each.notes);
    rests.push(
      ...reading.layers.flatMap((layer) => restsOf(layer, bar, ids)).filter((rest) => rest.staff > 0),
    );
    for (const [id, anchor] of reading.layers.flatMap((each) => each.anchors))
      if (!anchors.has(id)) anchors.set(id, anchor);
    controls.push(...reading.controls);
    definitions = reading.following;
    onset = addTime(onset, bar.duration, element, log);
  }
  return { bars, notes, rests, anchors, controls };
};

const repeatInto = (
  layer: LayerReading,
  { layers }: MeasureReading,
  past: readonly PastBar[],
  onset: Rational,
  repeater: BarRepeater,
): PastBar['layers'][number] => {
  const { staff, layer: n } = layer.place;
  const alone = layers.filter((each) => each.place.staff === staff).length === 1;
  return { staff, layer: n, notes: [...layer.notes, ...repeater.repeat(layer, alone, past, onset)] };
};

/** A rest for the whole bar lasts as long as the bar turns out to be. */
const restsOf = (layer: LayerReading, bar: BarDraft, ids: Ids): readonly Rest[] => {
  const sign = layer.wholeBar;
  if (sign?.name !== 'mRest' && sign?.name !== 'multiRest') return layer.rests;
  const { staff, layer: n, harpStaff } = layer.place;
  const { index, onset, duration } = bar;
  const whole = {
    id: ids.of(sign, 'r'),
    span: sign.span,
    bar: index,
    staff: harpStaff(staff),
    voice: `${staff}.${n}`,
    onset,
    duration,
  };
  return [...layer.rests, whole];
};

/** A bar without a number whose metre is not to be kept goes on from the one before, or leads to the first. */
const numbersIn = (flow: readonly FlowItem[]): readonly string[] =>
  numberBars(
    flow
      .filter((item) => item.kind === 'bar')
      .map(({ element: { attributes } }) => ({
        name: attributes.n ?? '',
        uncounted: attributes.metcon === 'false',
      })),
  );

interface BarPlace {
  readonly index: number;
  readonly number: string;
  readonly onset: Rational;
  readonly harpStaves: readonly string[];
  readonly ids: Ids;
  readonly log: ReadLog;
}

const draftBar = (item: FlowItem & { kind: 'bar' }, reading: MeasureReading, place: BarPlace): BarDraft => {
  const { element } = item;
  const { index, number, onset, harpStaves, ids, log } = place;
  const state = staffStateOf(reading.definitions, harpStaves[0] ?? '');
  const rested = multiply(barLength(state.meter), rational(restedBars(reading, log)));
  remarkOverfull(reading, state, element, index, log);
  const staves = harpStaves.map((n) => staffBar(n, reading, onset));
  return {
    index,
    number,
    id: ids.of(element, 'b'),
    element,
    onset,
    duration: compare(reading.length, ZERO) > 0 ? reading.length : rested,
    meter: state.meter,
    keyFifths: staves[0]?.key.fifths ?? 0,
    endings: item.endings,
    staves,
  };
};

/** More bars of rest than this are taken for an error. */
const MAX_RESTED = 2000;

const restedBars = (reading: MeasureReading, log: ReadLog): number =>
  reading.layers.reduce((most, { wholeBar }) => {
    const num =
      wholeBar?.name === 'multiRest' ? readInteger(wholeBar, 'num', [1, MAX_RESTED], log) : undefined;
    return Math.max(most, num ?? 1);
  }, 1);

const remarkOverfull = (
  reading: MeasureReading,
  state: StaffState,
  element: XmlElement,
  bar: number,
  log: ReadLog,
): void => {
  if (state.unmeasured || element.attributes.metcon === 'false') return;
  const over = reading.layers.filter(
    (layer) =>
      layer.place.harpStaff(layer.place.staff) > 0 && compare(layer.length, barLength(state.meter)) > 0,
  );
  if (over.length > 0)
    log.remark(
      'bar-overfull',
      bar,
      `The bar is longer than its time signature of ${state.meter.beats}/${state.meter.beatUnit}.`,
    );
};

const staffBar = (n: string, reading: MeasureReading, onset: Rational): StaffBar => {
  const state = staffStateOf(reading.definitions, n);
  const keyChanges = reading.layers
    .filter((layer) => layer.place.staff === n)
    .flatMap((layer) => layer.keyChanges)
    .sort((a, b) => compare(a.at, b.at));
  const atStart = keyChanges.filter((change) => equals(change.at, onset)).at(-1);
  return { key: atStart?.key ?? state.key, keyChanges, transposition: state.transposition };
};
