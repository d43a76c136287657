import {
  type BarAccidentals,
  compare,
  type Note,
  type Rational,
  type Rest,
  type XmlElement,
} from '../../engine/index.ts';

/** A bar of a cue as it is to be written. */
export interface CueBar {
  /** The layer of the other part's document. */
  readonly layer: XmlElement;
  /** Notes and rests of the part in this bar, by the start of their elements. */
  readonly notes: ReadonlyMap<number, Note>;
  readonly rests: ReadonlyMap<number, Rest>;
  /** Nothing is written from here on. */
  readonly entry: Rational;
  /** Of the staff on which it stands. */
  readonly accidentals: BarAccidentals;
}

/** The id of a note in a cue. */
export const cueId = (note: string): string => `cue-${note}`;

/** What holds events together, with the attributes that shape it. */
const WRAPPERS: Readonly<Record<string, readonly string[]>> = {
  beam: [],
  graceGrp: ['grace'],
  tuplet: ['num', 'numbase', 'num.visible', 'num.format', 'bracket.visible'],
  bTrem: ['num', 'unitdur', 'form'],
  fTrem: ['beams', 'beams.float', 'unitdur'],
};

const LENGTH = ['dur', 'dots', 'grace', 'stem.mod'] as const;

/** Accidentals of whole semitones, as MEI writes them (data.ACCIDENTAL.WRITTEN). */
const SIGNS: ReadonlyMap<number, string> = new Map([
  [-2, 'ff'],
  [-1, 'f'],
  [0, 'n'],
  [1, 's'],
  [2, 'x'],
]);

/** The events of a bar of another part as small notes at concert pitch, with stems up; nothing that hangs on them. */
export const writeCueBar = (bar: CueBar): string =>
  bar.layer.children.map((each) => write(each, bar)).join('');

const write = (element: XmlElement, bar: CueBar): string => {
  const { name } = element;
  if (name === 'note') return writeNote(element, bar, LENGTH);
  if (name === 'chord') return writeChord(element, bar);
  if (name === 'rest') return writeRest(element, bar);
  if (name === 'space') return tag('space', kept(element, LENGTH));
  if (name === 'mRest' || name === 'mSpace') return '<mSpace/>';
  const shaped = WRAPPERS[name];
  if (shaped === undefined) return '';
  const inner = element.children.map((each) => write(each, bar)).join('');
  // What the entry cuts short may leave nothing to be beamed.
  if (name === 'beam' && countBeamed(inner) < 2) return inner;
  return inner === '' ? '' : `<${name}${kept(element, shaped)}>${inner}</${name}>`;
};

const countBeamed = (events: string): number =>
  events.replace(/<chord[\s\S]*?<\/chord>/g, '<note/>').match(/<(?:note|rest)[\s/]/g)?.length ?? 0;

const writeNote = (
  element: XmlElement,
  { notes, entry, accidentals }: CueBar,
  own: readonly string[],
): string => {
  const note = notes.get(element.span.start);
  if (note === undefined) return own.length === 0 ? '' : tag('space', kept(element, ['dur', 'dots']));
  if (compare(note.onset, entry) >= 0) return '';
  const { letter, octave, alter } = note.pitch;
  const isPlain = note.tiedFrom !== null || accidentals.alterOf(letter, octave) === alter;
  const sign = isPlain ? undefined : SIGNS.get(alter);
  accidentals.write(letter, octave, alter);
  const pitch = ` xml:id="${cueId(note.id)}" pname="${letter.toLowerCase()}" oct="${octave}"`;
  const accidental = sign === undefined ? '' : ` accid="${sign}"`;
  return tag('note', `${pitch}${accidental}${kept(element, own)} cue="true" stem.dir="up"`);
};

const writeChord = (element: XmlElement, bar: CueBar): string => {
  const inner = element.children
    .filter(({ name }) => name === 'note')
    .map((each) => writeNote(each, bar, []))
    .join('');
  return inner === '' ? '' : `<chord${kept(element, LENGTH)} cue="true" stem.dir="up">${inner}</chord>`;
};

/** The line in the middle of the staff: the harp's own rests stand below. */
const MIDDLE = 4;

const writeRest = (element: XmlElement, { rests, entry }: CueBar): string => {
  const rest = rests.get(element.span.start);
  if (rest !== undefined && compare(rest.onset, entry) >= 0) return '';
  return tag('rest', `${kept(element, ['dur', 'dots'])} cue="true" loc="${MIDDLE}"`);
};

const tag = (name: string, attributes: string): string => `<${name}${attributes}/>`;

const kept = ({ attributes }: XmlElement, names: readonly string[]): string =>
  names
    .filter((name) => attributes[name] !== undefined)
    .map(
      (name) =>
        ` ${name}="${attributes[name]!.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;')}"`,
    )
    .join('');
