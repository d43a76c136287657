import { compare, multiply, type Rational, rational, subtract, ZERO } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import { barLength, beatLength, isCompound } from '../../bars/beats.ts';
import type { Rest } from '../../model/between-notes.ts';
import type { Anchor, Control, KeyChange, NoteDraft } from '../draft.ts';
import { contentOf } from '../editorial.ts';
import { type MeterReading, readMeterSig } from '../form/meters.ts';
import { addTime, scaleTime } from '../score-time.ts';
import { isTrue, readDecimal, xmlId } from '../values.ts';
import { readLength, readTupletRatio } from './durations.ts';
import { graceOf } from './graces.ts';
import { readKeySig } from './keys.ts';
import type { Inherited, LayerContext } from './layer-context.ts';
import { copyNote, readNotes } from './notes.ts';

/** A sign for a whole bar, whose length the other layers decide. */
const WHOLE_BAR_SIGNS: ReadonlySet<string> = new Set([
  'mRest',
  'mSpace',
  'multiRest',
  'mRpt',
  'mRpt2',
  'multiRpt',
]);

export interface LayerReading {
  readonly place: LayerContext;
  /** The harp's notes: those of other players are read for their times only. */
  readonly notes: readonly NoteDraft[];
  readonly rests: readonly Rest[];
  readonly anchors: readonly (readonly [id: string, anchor: Anchor])[];
  readonly controls: readonly Control[];
  readonly keyChanges: readonly KeyChange[];
  readonly meter: MeterReading | undefined;
  readonly wholeBar: XmlElement | null;
  /** Quarter notes from the bar's start to the end of the last event; 0 where only signs for a whole bar stand. */
  readonly length: Rational;
}

const CONTAINERS: ReadonlySet<string> = new Set(['beam', 'tuplet', 'graceGrp', 'bTrem', 'fTrem', 'ligature']);
const EVENTS: ReadonlySet<string> = new Set(['note', 'chord', 'rest', 'space']);
/** Allowed in a layer until MEI 3. */
const CONTROLS: ReadonlySet<string> = new Set([
  'arpeg',
  'dir',
  'gliss',
  'harpPedal',
  'mordent',
  'octave',
  'ornam',
  'reh',
  'tempo',
  'tie',
  'trill',
  'turn',
]);
// biome-ignore format: a list of names reads better unbroken
const SILENT: ReadonlySet<string> = new Set([
  'accid', 'anchoredText', 'annot', 'artic', 'barLine', 'beamSpan', 'breath', 'caesura', 'cb', 'clef', 'clefGrp',
  'colLayout', 'curve', 'custos', 'damage', 'div', 'dot', 'dynam', 'fermata', 'fing', 'fingGrp', 'gap', 'hairpin',
  'handShift', 'harm', 'label', 'labelAbbr', 'line', 'lyrics', 'midi', 'pad', 'pb', 'pedal', 'phrase', 'refrain', 'sb', 'slur',
  'syl', 'symbol', 'tupletSpan', 'verse',
]);

/** Reads the events of one layer, each at its time. */
export const readLayer = (element: XmlElement, place: LayerContext): LayerReading =>
  new LayerReader(place).read(element);

/** The cursor that goes through a layer. */
class LayerReader {
  readonly place: LayerContext;
  private at: Rational = ZERO;
  private readonly notes: NoteDraft[] = [];
  private readonly rests: Rest[] = [];
  private readonly anchors: (readonly [string, Anchor])[] = [];
  private readonly controls: Control[] = [];
  private readonly keyChanges: KeyChange[] = [];
  private meter: MeterReading | undefined;
  private wholeBar: XmlElement | null = null;
  private openBeam: string | null = null;

  constructor(place: LayerContext) {
    this.place = place;
  }

  read(layer: XmlElement): LayerReading {
    const hidden = this.place.hidden || layer.attributes.visible === 'false';
    const cue = isTrue(layer, 'cue');
    this.enter(layer, {
      ratio: rational(1),
      grace: null,
      cue,
      hidden,
      tremolo: null,
      inTuplet: false,
      beam: null,
    });
    const { place, notes, rests, anchors, controls, keyChanges, meter, wholeBar } = this;
    return { place, notes, rests, anchors, controls, keyChanges, meter, wholeBar, length: this.at };
  }

  /** The score time at which an element stands. */
  private onsetOf(element: XmlElement): Rational {
    return addTime(this.place.barOnset, this.at, element, this.place.log);
  }

  private advance(duration: Rational, element: XmlElement): void {
    this.at = addTime(this.at, duration, element, this.place.log);
  }

  private enter(container: XmlElement, inherited: Inherited): void {
    for (const each of contentOf(container, this.place.log)) {
      if (EVENTS.has(each.name)) this.readEvent(each, inherited);
      else if (CONTAINERS.has(each.name)) this.enter(each, this.handDown(each, inherited));
      else this.readSign(each, inherited);
    }
  }

  private handDown(container: XmlElement, inherited: Inherited): Inherited {
    const { log, bar } = this.place;
    const tuplet = container.name === 'tuplet';
    const ratio = tuplet
      ? scaleTime(inherited.ratio, readTupletRatio(container, bar, log), container, log)
      : inherited.ratio;
    const grace = graceOf(container) ?? (container.name === 'graceGrp' ? 'plain' : inherited.grace);
    return {
      // Both notes of a two-note tremolo are written with the length of the whole (MEI Guidelines, tremolos).
      ratio: container.name === 'fTrem' ? scaleTime(ratio, rational(1, 2), container, log) : ratio,
      grace: inherited.grace ?? grace,
      cue: inherited.cue || isTrue(container, 'cue'),
      hidden: inherited.hidden || container.attributes.visible === 'false',
      tremolo: container.name === 'bTrem' || container.name === 'fTrem' ? container : inherited.tremolo,
      inTuplet: inherited.inTuplet || tuplet,
      beam: inherited.beam ?? (container.name === 'beam' ? `beam${container.span.start}` : null),
    };
  }

  private readEvent(event: XmlElement, inherited: Inherited): void {
    const { place } = this;
    const grace = graceOf(event) ?? inherited.grace;
    const ratio = place.spans.ratioAt(event, place, inherited);
    const length = grace === null ? this.lengthOf(event, ratio) : null;
    const duration = length ?? ZERO;
    const onset = this.onsetOf(event);
    if (event.name === 'rest') this.addRest(event, onset, duration);
    if (event.name === 'note' || event.name === 'chord') {
      const slashed = grace === 'slashed';
      const beam = inherited.beam ?? this.beamByAttribute(event);
      const read = readNotes(
        event,
        {
          onset,
          duration,
          grace: length === null ? { slashed } : null,
          inherited: beam === inherited.beam ? inherited : { ...inherited, beam },
        },
        place,
      );
      this.notes.push(...read.notes);
      this.anchors.push(...read.anchors);
    } else this.anchor(event);
    this.advance(duration, event);
  }

  /** The attribute `beam` says of each line under the beam whether it begins, goes on or ends (MEI 5.1, data.BEAM). */
  private beamByAttribute(event: XmlElement): string | null {
    const first = event.attributes.beam?.trim()[0];
    if (first === undefined) return null;
    if (first === 'i') this.openBeam = `beam${event.span.start}`;
    const beam = this.openBeam;
    if (first === 't') this.openBeam = null;
    return beam;
  }

  /** Quarter notes of an event; null, with a remark, where the file does not tell. */
  private lengthOf(event: XmlElement, ratio: Rational): Rational | null {
    const { log, ticksPerQuarter, state, bar } = this.place;
    const own = readLength(event, ticksPerQuarter, log);
    const member =
      own === undefined && event.name === 'chord'
        ? event.children.find((each) => each.name === 'note')
        : undefined;
    const length = own ?? (member && readLength(member, ticksPerQuarter, log)) ?? state.lengthDefault;
    if (length !== null && length !== undefined) return scaleTime(length, ratio, event, log);
    log.skip(`the length of a ${event.name}, which the file leaves out`, bar);
    return null;
  }

  private addRest(rest: XmlElement, onset: Rational, duration: Rational): void {
    const { bar, staff, layer, ids, harpStaff } = this.place;
    const own = harpStaff(rest.attributes.staff?.trim() ?? staff) || harpStaff(staff);
    if (own === 0) return;
    this.rests.push({
      id: ids.of(rest, 'r'),
      span: rest.span,
      bar,
      staff: own,
      voice: `${staff}.${layer}`,
      onset,
      duration,
    });
  }

  private anchor(element: XmlElement): void {
    const id = xmlId(element);
    const { bar, staff } = this.place;
    if (id !== undefined)
      this.anchors.push([id, { bar, staff, onset: this.onsetOf(element), isNote: false, notes: [] }]);
  }

  private readSign(sign: XmlElement, inherited: Inherited): void {
    const { log, bar, staff, state } = this.place;
    if (WHOLE_BAR_SIGNS.has(sign.name)) {
      this.wholeBar = sign;
      this.anchor(sign);
    } else if (sign.name === 'beatRpt') this.repeatSpan(sign, this.beatOf(sign));
    else if (sign.name === 'halfmRpt')
      this.repeatSpan(sign, multiply(barLength(state.meter), rational(1, 2)));
    else if (sign.name === 'keySig')
      this.keyChanges.push({ at: this.onsetOf(sign), key: readKeySig(sign, log) });
    else if (sign.name === 'meterSig' || sign.name === 'meterSigGrp')
      this.meter = readMeterSig(sign, state.meter, log);
    else if (CONTROLS.has(sign.name))
      this.controls.push({ element: sign, bar, staff, at: this.onsetOf(sign) });
    else if (sign.name === 'ossia') log.skip('an ossia', bar);
    else if (!SILENT.has(sign.name)) {
      log.skip(`the element “${sign.name}” in a layer`, bar);
      if (sign.children.length > 0) this.enter(sign, inherited);
    }
  }

  /** `beatdef` counts units of the meter; without it a beat is one unit, or three in a compound meter (common practice, no source). */
  private beatOf(sign: XmlElement): Rational {
    const { meter } = this.place.state;
    const beats = readDecimal(sign, 'beatdef', [0.125, 64], this.place.log) ?? (isCompound(meter) ? 3 : 1);
    return multiply(rational(Math.round(beats * 8), 8), beatLength(meter));
  }

  /** Plays again what this layer played in the time just before. */
  private repeatSpan(sign: XmlElement, span: Rational): void {
    const till = this.onsetOf(sign);
    const from = subtract(till, span);
    if (compare(from, this.place.barOnset) < 0)
      this.place.log.skip('a repeat sign with nothing before it', this.place.bar);
    const model = this.notes.filter(
      (note) => compare(note.onset, from) >= 0 && compare(note.onset, till) < 0,
    );
    const names = new Map<string, string>();
    this.notes.push(
      ...model.map((note) => copyNote(note, { bar: this.place.bar, shift: span, sign, names }, this.place)),
    );
    this.anchor(sign);
    this.advance(span, sign);
  }
}
