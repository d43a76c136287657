import { compare, type Rational, ZERO } from '../../../music/rational.ts';
import { childrenNamed, type XmlElement } from '../../../xml/tree.ts';
import { applyDefinition, type Definitions, staffStateOf, withStaff } from '../definitions.ts';
import type { Control } from '../draft.ts';
import { contentOf } from '../editorial.ts';
import type { Ids } from '../ids.ts';
import { openLog, type ReadLog } from '../log.ts';
import { type LayerReading, readLayer } from '../notes/layer.ts';
import { findTupletSpans } from '../notes/tuplet-spans.ts';
import { readMeterSig } from './meters.ts';

/** What a measure needs to know of the score around it. */
export interface MeasureContext {
  readonly bar: number;
  readonly onset: Rational;
  readonly harpStaff: (n: string) => number;
  readonly ids: Ids;
  readonly log: ReadLog;
}

/** The layers of all staves of a measure, what stands beside them, and the definitions that hold afterwards. */
export interface MeasureReading {
  readonly layers: readonly LayerReading[];
  readonly controls: readonly Control[];
  /** In force within the measure. */
  readonly definitions: Definitions;
  /** In force after it: key and meter signatures inside its layers included. */
  readonly following: Definitions;
  /** Quarter notes to the end of the longest layer of any staff. */
  readonly length: Rational;
}

/** Reads a measure. Staves of other players are read for their times only: what is wrong in them is not told. */
export const readMeasure = (
  measure: XmlElement,
  before: Definitions,
  place: MeasureContext,
): MeasureReading => {
  const { bar, log } = place;
  const content = contentOf(measure, log);
  const spans = findTupletSpans(measure, bar, log);
  const quiet = openLog('');
  let definitions = before;
  const layers: LayerReading[] = [];
  const controls: Control[] = [];
  for (const [index, each] of content.entries()) {
    if (each.name === 'scoreDef' || each.name === 'staffDef')
      definitions = applyDefinition(definitions, each, log);
    else if (each.name !== 'staff') controls.push({ element: each, bar, staff: null, at: null });
    else {
      const n = each.attributes.n?.trim() ?? `${index + 1}`;
      const own = place.harpStaff(n) > 0 ? log : quiet;
      definitions = defineInside(each, n, definitions, own);
      for (const item of contentOf(each, own)) {
        if (item.name === 'layer')
          layers.push(readStaffLayer(item, each, n, definitions, spans, { ...place, log: own }));
        else if (item.name !== 'staffDef') controls.push({ element: item, bar, staff: n, at: null });
      }
    }
  }
  const length = layers.reduce((most, each) => (compare(each.length, most) > 0 ? each.length : most), ZERO);
  const following = layers.reduce(afterLayer, definitions);
  return {
    layers,
    controls: [...controls, ...layers.flatMap((each) => each.controls)],
    definitions,
    following,
    length,
  };
};

const readStaffLayer = (
  layer: XmlElement,
  staff: XmlElement,
  n: string,
  definitions: Definitions,
  spans: ReturnType<typeof findTupletSpans>,
  place: MeasureContext,
): LayerReading =>
  readLayer(layer, {
    bar: place.bar,
    barOnset: place.onset,
    staff: n,
    layer: layer.attributes.n?.trim() ?? `${childrenNamed(staff, 'layer').indexOf(layer) + 1}`,
    harpStaff: place.harpStaff,
    state: staffStateOf(definitions, n),
    ticksPerQuarter: definitions.ticksPerQuarter,
    hidden: staff.attributes.visible === 'false',
    ids: place.ids,
    spans,
    log: place.log,
  });

/** Definitions inside a staff, and a meter signature that stands at the head of one of its layers. */
const defineInside = (staff: XmlElement, n: string, definitions: Definitions, log: ReadLog): Definitions => {
  let now = definitions;
  for (const each of contentOf(staff, log)) {
    if (each.name === 'staffDef')
      now = applyDefinition(now, { ...each, attributes: { ...each.attributes, n } }, log);
    if (each.name !== 'layer') continue;
    const head = contentOf(each, log).find((item) => item.name !== 'clef' && item.name !== 'keySig');
    const isMeter = head?.name === 'meterSig' || head?.name === 'meterSigGrp';
    const meter = isMeter ? readMeterSig(head, staffStateOf(now, n).meter, log) : undefined;
    if (meter !== undefined) now = withStaff(now, n, meter);
  }
  return now;
};

const afterLayer = (definitions: Definitions, { place, keyChanges, meter }: LayerReading): Definitions => {
  const key = keyChanges.at(-1)?.key;
  if (key === undefined && meter === undefined) return definitions;
  return withStaff(definitions, place.staff, { ...(key && { key }), ...meter });
};
