import { isLetter, type Letter } from '../../../music/pitch.ts';
import { add, type Rational } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import type { Anchor, LinkPosition, NoteDraft, WrittenPitch } from '../draft.ts';
import { contentOf } from '../editorial.ts';
import { isTrue, readInteger, readList, xmlId } from '../values.ts';
import { readAlter } from './accidentals.ts';
import type { Inherited, LayerContext } from './layer-context.ts';
import { readTremolo } from './tremolos.ts';

/** When an event happens; a grace takes no time. */
interface EventTime {
  readonly onset: Rational;
  readonly duration: Rational;
  readonly grace: NoteDraft['grace'];
  readonly inherited: Inherited;
}

interface NotesReading {
  readonly notes: readonly NoteDraft[];
  readonly anchors: readonly (readonly [string, Anchor])[];
}

/** Reads a note, or the notes of a chord, which inherit what the chord says. */
export const readNotes = (event: XmlElement, time: EventTime, place: LayerContext): NotesReading => {
  const elements =
    event.name === 'chord' ? contentOf(event, place.log).filter((each) => each.name === 'note') : [event];
  const first = elements[0];
  const anchorAt = (notes: readonly NoteDraft[]): Anchor => ({
    bar: place.bar,
    staff: place.staff,
    onset: time.onset,
    isNote: true,
    notes,
  });
  const isHarps = elements.some((each) => harpStaffOf(each, event, place) > 0);
  if (!isHarps) {
    const others = anchorAt([]);
    const named = event.name === 'chord' ? [...elements, event] : elements;
    const anchors = named.map((each) => [xmlId(each), others] as const).filter(isNamed);
    return { notes: [], anchors };
  }
  const articulations = event.name === 'chord' ? articulationsOf(event, place) : [];
  const notes: NoteDraft[] = [];
  const anchors: [string, Anchor][] = [];
  for (const element of elements) {
    const staff = harpStaffOf(element, event, place);
    const id = xmlId(element);
    if (staff === 0) {
      if (id !== undefined) anchors.push([id, anchorAt([])]);
      continue;
    }
    const note = readNote(
      element,
      event,
      { staff, chord: place.ids.of(first ?? event, 'n'), articulations },
      time,
      place,
    );
    if (note === null) continue;
    notes.push(note);
    if (id !== undefined) anchors.push([id, anchorAt([note])]);
  }
  const id = event.name === 'chord' ? xmlId(event) : undefined;
  if (id !== undefined) anchors.push([id, anchorAt(notes)]);
  return { notes, anchors };
};

const isNamed = (each: readonly [string | undefined, Anchor]): each is readonly [string, Anchor] =>
  each[0] !== undefined;

/** The harp's staff that a note is printed on, else the one that holds it; 0 for a note of another player. */
const harpStaffOf = (
  { attributes }: XmlElement,
  event: XmlElement,
  { staff, harpStaff }: LayerContext,
): number =>
  harpStaff(attributes.staff?.trim() ?? event.attributes.staff?.trim() ?? staff) || harpStaff(staff);

const readNote = (
  element: XmlElement,
  event: XmlElement,
  shared: { readonly staff: number; readonly chord: string; readonly articulations: readonly string[] },
  time: EventTime,
  place: LayerContext,
): NoteDraft | null => {
  const { log, ids, bar, staff, layer } = place;
  const written = readPitch(element, place);
  if (written === null) return null;
  const articulations = [...shared.articulations, ...articulationsOf(element, place)];
  const either = (name: string): string | undefined => element.attributes[name] ?? event.attributes[name];
  return {
    id: ids.of(element, 'n'),
    span: element.span,
    bar,
    staff: shared.staff,
    layer,
    voice: `${staff}.${layer}`,
    onset: time.onset,
    duration: time.duration,
    grace: time.grace,
    written,
    chord: shared.chord,
    role: roleOf(element, event, time.inherited),
    tie: readLink(either('tie')),
    gliss: readLink(either('gliss')),
    slurs: (either('slur') ?? '').split(/\s+/u),
    fermata: either('fermata') !== undefined,
    ornament: either('ornam')?.trim() ?? null,
    tremolo: time.grace === null ? readTremolo(event, time.inherited.tremolo, ids, log) : null,
    diamond: either('head.shape')?.trim() === 'diamond',
    harmonic: articulations.includes('harm'),
    letRing: isTrue(element, 'lv') || isTrue(event, 'lv'),
    damp: articulations.includes('dampall') ? 'damp-all' : articulations.includes('damp') ? 'damp' : null,
    stem: readStem(either('stem.dir')),
    beam: time.inherited.beam,
    copyOf: null,
  };
};

const readPitch = (element: XmlElement, place: LayerContext): WrittenPitch | null => {
  const { log, bar, state } = place;
  const pname = element.attributes.pname?.trim();
  const octave = readInteger(element, 'oct', [0, 9], log) ?? state.octaveDefault;
  if (pname === undefined || octave === null) {
    log.skip('a note without a pitch', bar);
    return null;
  }
  const letter = readLetter(pname);
  if (letter === undefined) log.badValue('pitch name', pname, element);
  const accids = [element, ...contentOf(element, log).filter((each) => each.name === 'accid')];
  const firstOf = (name: string): number | undefined =>
    accids.map((each) => readAlter(each, name, log)).find((each) => each !== undefined);
  return {
    letter: letter ?? 'C',
    octave,
    accidental: firstOf('accid'),
    performedAlter: firstOf('accid.ges'),
    performedLetter: readLetter(element.attributes['pname.ges']?.trim() ?? ''),
    performedOctave: readInteger(element, 'oct.ges', [0, 9], log),
  };
};

const readLetter = (pname: string): Letter | undefined => {
  const letter = pname.toUpperCase();
  return isLetter(letter) ? letter : undefined;
};

const articulationsOf = (element: XmlElement, { log }: LayerContext): readonly string[] => [
  ...readList(element, 'artic'),
  ...contentOf(element, log)
    .filter((mark) => mark.name === 'artic')
    .flatMap((mark) => readList(mark, 'artic')),
];

const roleOf = (element: XmlElement, event: XmlElement, inherited: Inherited): NoteDraft['role'] => {
  const all = [element, event];
  if (inherited.cue || all.some((each) => isTrue(each, 'cue') || each.attributes.size === 'cue'))
    return 'cue';
  return inherited.hidden || all.some((each) => each.attributes.visible === 'false') ? 'hidden' : 'played';
};

const readStem = (text: string | undefined): NoteDraft['stem'] => {
  const direction = text?.trim();
  return direction === 'up' || direction === 'down' ? direction : null;
};

const readLink = (text: string | undefined): LinkPosition | null => {
  const first = text?.trim()[0];
  return first === 'i' || first === 'm' || first === 't' ? first : null;
};

/** Where a repeat sign plays a note again. */
interface CopyPlace {
  readonly bar: number;
  /** Quarter notes from the note to its copy. */
  readonly shift: Rational;
  readonly sign: XmlElement;
  /** New ids by those of the notes that are copied: filled here, so that chords and pairs stay together. */
  readonly names: Map<string, string>;
}

/**
 * A note as a repeat sign plays it: at its own time, with the place of the sign in the text. A copy of a copy is named
 * after the note that is written.
 */
export const copyNote = (note: NoteDraft, copy: CopyPlace, { ids }: Pick<LayerContext, 'ids'>): NoteDraft => {
  const model = note.copyOf ?? note;
  const nameOf = (id: string, modelId: string): string => {
    const known = copy.names.get(id) ?? ids.fresh(`${modelId}-r${copy.bar}`);
    copy.names.set(id, known);
    return known;
  };
  const pair = note.tremolo?.pair ?? null;
  return {
    ...note,
    id: nameOf(note.id, model.id),
    chord: nameOf(note.chord, model.chord),
    span: copy.sign.span,
    bar: copy.bar,
    onset: add(note.onset, copy.shift),
    beam: note.beam === null ? null : `${model.beam}-r${copy.bar}`,
    tremolo: note.tremolo && { ...note.tremolo, pair: pair && nameOf(pair, model.tremolo?.pair ?? pair) },
    copyOf: model,
  };
};
