import { group } from '../group.ts';
import type { Side } from '../harp/side.ts';
import type { Note } from '../score/model/note.ts';

/** The hand that plays a note. */
export interface PlayingHand {
  readonly hand: Side;
  /** Nothing but the staff tells: with both hands within reach, either may play it. */
  readonly guessed: boolean;
}

/**
 * Which hand plays each note, by note id. The first of these that says something decides: words at the note, or before
 * it in its voice and bar; a beam over both staves whose stems all point one way, up for the right hand; a voice that
 * crosses to the other staff while another is at home there; on a staff whose fellow is silent in that bar, stems of two
 * voices; the staff (common practice, no source).
 */
export const findHands = (notes: readonly Note[]): ReadonlyMap<string, PlayingHand> => {
  const said = followWords(notes);
  const beamed = readBeams(notes);
  const crossed = readCrossings(notes);
  const voiced = readVoices(notes);
  return new Map(
    notes.map((note): [string, PlayingHand] => {
      const hand = said.get(note.id) ?? beamed.get(note.id) ?? crossed.get(note.id) ?? voiced.get(note.id);
      return [
        note.id,
        hand === undefined ? { hand: handOfStaff(note), guessed: true } : { hand, guessed: false },
      ];
    }),
  );
};

const handOfStaff = ({ staff }: Pick<Note, 'staff'>): Side => (staff === 1 ? 'right' : 'left');

const handOfStem = (stem: Note['stem']): Side | undefined =>
  stem === null ? undefined : stem === 'up' ? 'right' : 'left';

/** A word holds for the chord that it stands at, and for what follows in its voice until the bar ends or another comes. */
const followWords = (notes: readonly Note[]): ReadonlyMap<string, Side> => {
  const said = new Map<string, Side>();
  if (notes.every(({ hand }) => hand === null)) return said;
  const ofChord = new Map(
    notes.flatMap(({ chord, hand }): [string, Side][] => (hand?.hand ? [[chord, hand.hand]] : [])),
  );
  for (const voice of group(notes, ({ bar, staff, voice }) => `${bar};${staff};${voice}`).values()) {
    let last: Side | undefined;
    for (const { id, chord } of voice) {
      last = ofChord.get(chord) ?? last;
      if (last !== undefined) said.set(id, last);
    }
  }
  return said;
};

const readBeams = (notes: readonly Note[]): ReadonlyMap<string, Side> => {
  const beamed = notes.filter(({ beam }) => beam !== null);
  return new Map(
    [...group(beamed, ({ beam }) => beam).values()].flatMap((under): [string, Side][] => {
      const [first] = under;
      const hand = handOfStem(first!.stem);
      const overBoth = under.some(({ staff }) => staff !== first!.staff);
      const oneWay = under.every(({ stem }) => stem === first!.stem);
      return hand !== undefined && overBoth && oneWay ? under.map(({ id }) => [id, hand]) : [];
    }),
  );
};

/**
 * The notes of a voice that crosses to the other staff are played by the hand of its own. A chord or beam over both
 * staves may be shared by the hands and says nothing, and neither does a voice that has the other staff to itself.
 */
const readCrossings = (notes: readonly Note[]): ReadonlyMap<string, Side> => {
  const voices = group(notes, ({ voice }) => voice);
  const homes = new Map([...voices].map(([voice, own]) => [voice, homeStaff(own)]));
  const isAway = ({ voice, staff }: Note): boolean => homes.get(voice) !== staff;
  if (!notes.some(isAway)) return new Map();
  const placeOf = ({ bar, staff }: Note): string => `${bar};${staff}`;
  const atHome = new Set(notes.filter((note) => !isAway(note)).map(placeOf));
  const shared = [({ chord }: Note) => chord, ({ beam }: Note) => beam].map((unit) =>
    overBothStaves(notes, unit),
  );
  return new Map(
    notes
      .filter(
        (note) => isAway(note) && atHome.has(placeOf(note)) && shared.every((over) => !over.has(note.id)),
      )
      .map(({ id, voice }) => [id, handOfStaff({ staff: homes.get(voice)! })]),
  );
};

/** The staff on which most of a voice's notes stand. */
const homeStaff = (voice: readonly Note[]): number => {
  const upper = voice.filter(({ staff }) => staff === 1).length;
  return 2 * upper >= voice.length ? 1 : 2;
};

/** The ids of notes in chords or under beams that go over both staves. */
const overBothStaves = (
  notes: readonly Note[],
  unitOf: (note: Note) => string | number | null,
): ReadonlySet<string> =>
  new Set(
    [...group(notes, unitOf)].flatMap(([unit, within]) =>
      unit !== null && within.some(({ staff }) => staff !== within[0]!.staff)
        ? within.map(({ id }) => id)
        : [],
    ),
  );

const readVoices = (notes: readonly Note[]): ReadonlyMap<string, Side> => {
  const hands = new Map<string, Side>();
  for (const bar of group(notes, (note) => note.bar).values()) {
    const [first] = bar;
    if (bar.some(({ staff }) => staff !== first!.staff)) continue;
    const ways = [...group(bar, ({ voice }) => voice).values()].map(
      (voice) => new Set(voice.map(({ stem }) => stem)),
    );
    const clear = ways.length === 2 && ways.every((stems) => stems.size === 1 && !stems.has(null));
    if (!clear || [...ways[0]!][0] === [...ways[1]!][0]) continue;
    for (const { id, stem } of bar) hands.set(id, handOfStem(stem)!);
  }
  return hands;
};
