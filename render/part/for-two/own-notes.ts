import { childrenNamed, descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { cut, type Edit } from '../../edit.ts';
import { holdsLastingSigns, lastingSigns } from './lasting-signs.ts';

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
        .map((layer) => (whose.hasOwn(layer) ? takeFrom(layer, whose) : hush(layer, whose))),
    );
  }
  const [first, ...more] = layers;
  const signs = lastingSigns(text, layers);
  const rest = `${signs.opening}<mRest/>${signs.later}`;
  return join([
    ...(first === undefined ? [] : [fill(first, rest)]),
    ...more.map((layer) => replace(layer, '')),
  ]);
};

/** A layer in which the player has nothing, beside others in which there is something: a clef in it keeps its moment. */
const hush = (layer: XmlElement, whose: Owners): Taken =>
  holdsLastingSigns(layer)
    ? join(layer.children.map((child) => takeFrom(child, whose, 'space')))
    : fill(layer, '<mSpace/>');

const replace = (element: XmlElement, put: string): Taken => ({
  edits: [{ ...element.span, put }],
  removed: idsWithin(element),
});

const fill = ({ children, inner }: XmlElement, put: string): Taken => ({
  edits: [{ ...inner, put }],
  removed: children.flatMap(idsWithin),
});

/** What stands where the other player's events were, as long as they are. */
type Silence = 'rest' | 'space';

/**
 * An event, or what holds events, of which the other player has some or all.
 *
 * @param silence where it is spaces, rests go too
 */
const takeFrom = (element: XmlElement, whose: Owners, silence: Silence = 'rest'): Taken => {
  if (element.name === 'rest' && silence === 'space') return silenceFor(element, silence);
  if (!whose.hasOthers(element)) return NOTHING;
  const inside = (): Taken => join(element.children.map((child) => takeFrom(child, whose, silence)));
  if (whose.hasOwn(element)) {
    if (element.name === 'fTrem') return NOTHING;
    return element.name === 'chord' ? takeFromChord(element, whose) : inside();
  }
  switch (element.name) {
    case 'graceGrp':
      return replace(element, '');
    case 'note':
    case 'chord':
    case 'bTrem':
    case 'fTrem':
      return silenceFor(element, silence);
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

/** Silence as long as an event; nothing for a grace note; the event stays where it does not say how long it is. */
const silenceFor = (event: XmlElement, silence: Silence): Taken => {
  const holder = event.name === 'bTrem' || event.name === 'fTrem' ? event.children[0] : event;
  const { dur, dots, grace } = holder?.attributes ?? {};
  if (grace !== undefined) return replace(event, '');
  if (dur === undefined) return NOTHING;
  return replace(event, `<${silence} dur="${dur}"${dots === undefined ? '' : ` dots="${dots}"`}/>`);
};
