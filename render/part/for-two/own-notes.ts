import { childrenNamed, descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { cut, type Edit } from '../../edit.ts';

/** What one player's staves are in one bar. */
export interface OwnStaves {
  readonly edits: readonly Edit[];
  /** Ids of what is taken out: nothing may hang on these. */
  readonly removed: readonly string[];
  /** Whether the player has any of the notes that stand there. */
  readonly plays: boolean;
}

const idOf = ({ attributes }: XmlElement): string => attributes['xml:id'] ?? '';

export const idsWithin = (element: XmlElement): readonly string[] => [
  ...(idOf(element) === '' ? [] : [idOf(element)]),
  ...element.children.flatMap(idsWithin),
];

/** What holds for the bars after, and stays where the music of a layer goes. */
const LASTING = ['clef', 'keySig', 'meterSig'];

type Taken = Pick<OwnStaves, 'edits' | 'removed'>;

const NOTHING: Taken = { edits: [], removed: [] };

const join = (taken: readonly Taken[]): Taken => ({
  edits: taken.flatMap(({ edits }) => edits),
  removed: taken.flatMap(({ removed }) => removed),
});

/**
 * Takes the other player's notes out of the staves of one bar: rests stand for them, and where a player has no notes on a
 * staff it rests. Tremolos between notes of both stay whole.
 */
export const takeOwnNotes = (
  text: string,
  staves: readonly XmlElement[],
  isOther: (id: string) => boolean,
): OwnStaves => {
  const whose = readOwners(isOther);
  const taken = join(staves.filter(whose.hasOthers).map((staff) => takeFromStaff(text, staff, whose)));
  return { ...taken, plays: staves.some(whose.hasOwn) || !staves.some(whose.hasOthers) };
};

/** Whose notes an element holds. */
interface Owners {
  readonly hasOwn: (element: XmlElement) => boolean;
  readonly hasOthers: (element: XmlElement) => boolean;
}

const readOwners = (isOther: (id: string) => boolean): Owners => ({
  hasOwn: (element) => notesIn(element).some((note) => !isOther(idOf(note))),
  hasOthers: (element) => notesIn(element).some((note) => isOther(idOf(note))),
});

const notesIn = (element: XmlElement): readonly XmlElement[] =>
  element.name === 'note' ? [element] : descendantsNamed(element, 'note');

const takeFromStaff = (text: string, staff: XmlElement, whose: Owners): Taken => {
  const layers = childrenNamed(staff, 'layer');
  if (whose.hasOwn(staff)) {
    return join(
      layers
        .filter(whose.hasOthers)
        .map((layer) => (whose.hasOwn(layer) ? takeFrom(layer, whose) : silence(text, layer, '<mSpace/>'))),
    );
  }
  const [first, ...more] = layers;
  return join([
    ...(first === undefined ? [] : [silence(text, first, '<mRest/>')]),
    ...more.map((layer) => replace(layer, '')),
  ]);
};

const replace = (element: XmlElement, put: string): Taken => ({
  edits: [{ ...element.span, put }],
  removed: idsWithin(element),
});

/** A layer in which the player has nothing. */
const silence = (text: string, { children, inner }: XmlElement, put: string): Taken => {
  const write = (each: readonly XmlElement[]): string =>
    each.map(({ span }) => text.slice(span.start, span.end)).join('');
  const lasting = children.flatMap((child) =>
    LASTING.includes(child.name) ? [child] : descendantsNamed(child, ...LASTING),
  );
  const opening = lasting.filter((each) => each === children[0]);
  const later = lasting.filter((each) => each !== children[0]);
  return {
    edits: [{ ...inner, put: `${write(opening)}${put}${write(later)}` }],
    removed: children.flatMap(idsWithin),
  };
};

/** An event, or what holds events, of which the other player has some or all. */
const takeFrom = (element: XmlElement, whose: Owners): Taken => {
  if (!whose.hasOthers(element) || element.name === 'fTrem') return NOTHING;
  const inside = (): Taken => join(element.children.map((child) => takeFrom(child, whose)));
  if (whose.hasOwn(element)) {
    return element.name === 'chord' ? takeFromChord(element, whose) : inside();
  }
  switch (element.name) {
    case 'graceGrp':
      return replace(element, '');
    case 'note':
    case 'chord':
    case 'bTrem': {
      const rest = restFor(element);
      return rest === null ? NOTHING : replace(element, rest);
    }
    case 'beam':
      return join([withoutTags(element), inside()]);
    default:
      return inside();
  }
};

const takeFromChord = (chord: XmlElement, { hasOthers }: Owners): Taken =>
  join(
    childrenNamed(chord, 'note')
      .filter(hasOthers)
      .map((note) => replace(note, '')),
  );

const withoutTags = ({ span, inner, attributes }: XmlElement): Taken => ({
  edits: [cut({ start: span.start, end: inner.start }), cut({ start: inner.end, end: span.end })],
  removed: [attributes['xml:id'] ?? ''],
});

/** A rest as long as an event; nothing for a grace note, null where the event does not say how long it is. */
const restFor = (event: XmlElement): string | null => {
  const holder = event.name === 'bTrem' ? event.children[0] : event;
  const { dur, dots, grace } = holder?.attributes ?? {};
  if (grace !== undefined) return '';
  if (dur === undefined) return null;
  return `<rest dur="${dur}"${dots === undefined ? '' : ` dots="${dots}"`}/>`;
};
