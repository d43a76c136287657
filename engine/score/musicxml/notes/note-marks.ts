import { childrenNamed, firstChild, NO_CHILDREN, type XmlElement } from '../../../xml/tree.ts';
import type { PhraseMark } from '../../model/between-notes.ts';
import type { Harmonic, Note, Ornament } from '../../model/note.ts';
import type { RemarkList } from '../remark-list.ts';
import { readInteger } from '../values.ts';

/** The signs at one notehead that bear on strings and pedals. */
export interface NoteMarks {
  readonly tieStart: boolean;
  readonly tieStop: boolean;
  readonly letRing: boolean;
  readonly ornament: OrnamentSign | null;
  /** A trill's wavy line that goes on from an earlier note. */
  readonly trillContinues: boolean;
  readonly tremolo: TremoloSign | null;
  readonly harmonic: HarmonicSign | null;
  readonly arpeggio: Note['arpeggio'];
  readonly sweeps: readonly SweepSign[];
  readonly slurs: readonly SlurSign[];
  /** Signs that stop the music at the note. */
  readonly stops: readonly Exclude<PhraseMark['kind'], 'slur'>[];
}

/** `above` and `below` are the alterations of accidentals at the ornament; null where none is written. */
export interface OrnamentSign {
  readonly kind: Ornament['kind'];
  readonly above: number | null;
  readonly below: number | null;
}

export interface TremoloSign {
  readonly kind: 'single' | 'start' | 'stop';
  readonly marks: number;
}

export interface HarmonicSign {
  readonly notated: Harmonic['notated'];
  readonly assumed: boolean;
}

export interface SweepSign {
  readonly kind: 'glissando' | 'slide';
  readonly type: 'start' | 'stop';
  readonly number: string;
  /** The words that are printed along its line. */
  readonly text: string;
}

export interface SlurSign {
  readonly type: 'start' | 'stop';
  readonly number: string;
}

const NO_MARKS: NoteMarks = {
  tieStart: false,
  tieStop: false,
  letRing: false,
  ornament: null,
  trillContinues: false,
  tremolo: null,
  harmonic: null,
  arpeggio: null,
  sweeps: [],
  slurs: [],
  stops: [],
};

export const readNoteMarks = (note: XmlElement, bar: number, remarks: RemarkList): NoteMarks => {
  if (firstChild(note, 'notations') === undefined && firstChild(note, 'tie') === undefined) return NO_MARKS;
  const notations = contentsOf(note.children, 'notations');
  const ties = [...childrenNamed(note, 'tie'), ...namedIn(notations, 'tied')].map(
    (tie) => tie.attributes.type,
  );
  const ornaments = contentsOf(notations, 'ornaments');
  const technical = contentsOf(notations, 'technical');
  reportBends(technical, bar, remarks);
  return {
    tieStart: ties.includes('start') || ties.includes('continue'),
    tieStop: ties.includes('stop') || ties.includes('continue'),
    letRing: ties.includes('let-ring'),
    ornament: readOrnament([...ornaments, ...namedIn(notations, 'accidental-mark')]),
    trillContinues: ornaments.some(
      (each) =>
        each.name === 'wavy-line' && (each.attributes.type === 'stop' || each.attributes.type === 'continue'),
    ),
    tremolo: readTremolo(ornaments, bar, remarks),
    harmonic: readHarmonic(technical.find((each) => each.name === 'harmonic')),
    arpeggio: readArpeggio(notations),
    sweeps: notations.flatMap(readSweep),
    slurs: notations.flatMap(readSlur),
    stops: [...notations, ...contentsOf(notations, 'articulations')].flatMap(readStop),
  };
};

const namedIn = (elements: readonly XmlElement[], name: string): readonly XmlElement[] =>
  elements.some((each) => each.name === name) ? elements.filter((each) => each.name === name) : NO_CHILDREN;

/** What is in the elements of a name: one list for most notes, which have one such element at most. */
const contentsOf = (elements: readonly XmlElement[], name: string): readonly XmlElement[] => {
  const named = namedIn(elements, name);
  return named.length === 1 ? named[0]!.children : named.flatMap((each) => each.children);
};

const reportBends = (technical: readonly XmlElement[], bar: number, remarks: RemarkList): void => {
  if (technical.some((each) => each.name === 'bend')) remarks.skip('A pitch bend is ignored', bar);
};

/** The sign without a stroke, MusicXML's `inverted-mordent`, brings in the upper neighbour. */
const ORNAMENTS: ReadonlyMap<string, Ornament['kind']> = new Map([
  ['trill-mark', 'trill'],
  ['mordent', 'mordent'],
  ['inverted-mordent', 'inverted-mordent'],
  ['turn', 'turn'],
  ['delayed-turn', 'delayed-turn'],
  ['vertical-turn', 'turn'],
  ['inverted-turn', 'inverted-turn'],
  ['delayed-inverted-turn', 'delayed-inverted-turn'],
  ['inverted-vertical-turn', 'inverted-turn'],
  ['shake', 'shake'],
  ['schleifer', 'other'],
  ['haydn', 'other'],
  ['other-ornament', 'other'],
]);

/** Quarter-tone signs beside the common ones; arrows and other microtones are left to the pitch of the note. */
const ALTER_OF_ACCIDENTAL: ReadonlyMap<string, number> = new Map([
  ['sharp', 1],
  ['natural', 0],
  ['flat', -1],
  ['double-sharp', 2],
  ['sharp-sharp', 2],
  ['flat-flat', -2],
  ['natural-sharp', 1],
  ['natural-flat', -1],
  ['quarter-flat', -0.5],
  ['quarter-sharp', 0.5],
  ['three-quarters-flat', -1.5],
  ['three-quarters-sharp', 1.5],
]);

/** The first ornament counts; a wavy line that starts without a sign of its own is a trill (MusicXML 4.0, `wavy-line`). */
const readOrnament = (elements: readonly XmlElement[]): OrnamentSign | null => {
  const isWavyStart = (each: XmlElement): boolean =>
    each.name === 'wavy-line' && each.attributes.type === 'start';
  const sign =
    elements.find((each) => ORNAMENTS.has(each.name)) ?? elements.find((each) => isWavyStart(each)) ?? null;
  if (sign === null) return null;
  const kind = ORNAMENTS.get(sign.name) ?? 'trill';
  let above: number | null = null;
  let below: number | null = null;
  for (const mark of elements) {
    const alter = mark.name === 'accidental-mark' ? ALTER_OF_ACCIDENTAL.get(mark.text.trim()) : undefined;
    if (alter === undefined) continue;
    if (isForUpper(kind, mark.attributes.placement, above !== null)) above = alter;
    else below = alter;
  }
  return { kind, above, below };
};

/** Where an ornament has both neighbours, the accidental above the sign is for the upper one, and the first without a place. */
const isForUpper = (kind: Ornament['kind'], placement: string | undefined, hasUpper: boolean): boolean => {
  if (kind === 'mordent') return false;
  if (!kind.endsWith('turn')) return true;
  return placement === undefined ? !hasUpper : placement === 'above';
};

const MOST_MARKS = 8;

/** No marks are an unmeasured tremolo (MusicXML 4.0, `tremolo`). */
const readTremolo = (
  ornaments: readonly XmlElement[],
  bar: number,
  remarks: RemarkList,
): TremoloSign | null => {
  const tremolo = ornaments.find((each) => each.name === 'tremolo');
  if (tremolo === undefined) return null;
  const { type } = tremolo.attributes;
  const isEmpty = tremolo.text.trim() === '';
  if (isEmpty && type !== 'unmeasured')
    remarks.skip('A tremolo does not say how many marks it has and is read as unmeasured', bar);
  const marks = isEmpty ? 0 : readInteger(tremolo, 'number of tremolo marks', 0, MOST_MARKS);
  return { kind: type === 'start' || type === 'stop' ? type : 'single', marks };
};

/** On the harp a circle without more stands at the string to be played (common practice, no source). */
const readHarmonic = (harmonic: XmlElement | undefined): HarmonicSign | null => {
  if (harmonic === undefined) return null;
  for (const notated of ['base-pitch', 'touching-pitch', 'sounding-pitch'] as const) {
    if (firstChild(harmonic, notated) !== undefined) return { notated, assumed: false };
  }
  return { notated: 'base-pitch', assumed: true };
};

const readArpeggio = (notations: readonly XmlElement[]): Note['arpeggio'] => {
  const arpeggiate = notations.find((each) => each.name === 'arpeggiate');
  if (arpeggiate === undefined)
    return notations.some((each) => each.name === 'non-arpeggiate') ? 'none' : null;
  const { direction } = arpeggiate.attributes;
  return direction === 'up' || direction === 'down' ? direction : 'plain';
};

/** Attributes are read out of the text when they are asked for, so that only those of lines and slurs are. */
const readSweep = (element: XmlElement): readonly SweepSign[] => {
  const { name } = element;
  if (name !== 'glissando' && name !== 'slide') return [];
  const { type, number = '1' } = element.attributes;
  return type === 'start' || type === 'stop' ? [{ kind: name, type, number, text: element.text }] : [];
};

const readSlur = (element: XmlElement): readonly SlurSign[] => {
  if (element.name !== 'slur') return [];
  const { type, number = '1' } = element.attributes;
  return type === 'start' || type === 'stop' ? [{ type, number }] : [];
};

const STOPS = { fermata: 'fermata', 'breath-mark': 'breath', caesura: 'caesura' } as const;

const readStop = ({ name }: XmlElement): NoteMarks['stops'] =>
  name === 'fermata' || name === 'breath-mark' || name === 'caesura' ? [STOPS[name]] : [];
