import { group } from '../group.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Rest } from '../score/model/between-notes.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import type { SharingMark } from '../score/model/texts.ts';

/** The players of one note, by their numbers; `unknown` where nothing tells. */
export type ToldPlayers = readonly number[] | 'all' | 'unknown';

/**
 * Who plays each note of a shared part, by note id. The last words before it decide: “I” or “II” for one player, “a 2”
 * for both, and after “div.” the stems of two voices on its staff, up for the first player (common practice, no
 * source). What is tied belongs to the note before.
 *
 * Words at one moment that differ between the staves hold for their staff alone, otherwise for all staves; “I” and “II”
 * at one moment on one staff divide it.
 */
export const tellPlayers = (score: Score): ReadonlyMap<string, ToldPlayers> => {
  const stateAt = followMarks(score);
  const voices = dividedVoices(score);
  const told = new Map<string, ToldPlayers>();
  for (const note of score.notes) {
    const tied = note.tiedFrom === null ? undefined : told.get(note.tiedFrom);
    told.set(note.id, tied ?? playersOf(note, stateAt(note.onset, note.staff), voices));
  }
  return told;
};

type State = Pick<SharingMark, 'kind' | 'players'> | null;

const playersOf = (note: Note, state: State, voices: ReadonlyMap<string, number>): ToldPlayers => {
  switch (state?.kind) {
    case undefined:
      return 'unknown';
    case 'together':
      return state.players.length === 0 ? 'all' : state.players;
    case 'one':
      return state.players;
    case 'divided': {
      const player = voices.get(voiceKey(note));
      return player === undefined ? 'unknown' : [player];
    }
  }
};

/** What the words say at a score time, for one staff. */
const followMarks = ({ sharing, harp }: Score): ((at: Rational, staff: number) => State) => {
  const moments = [...group(sharing, ({ at }) => `${at.num}/${at.den}`).values()].sort((a, b) =>
    compare(a[0]!.at, b[0]!.at),
  );
  const ofStaff = Array.from({ length: harp.staves }, (_, i) =>
    moments.map((marks) => ({ at: marks[0]!.at, state: stateOf(marks, i + 1) })),
  );
  return (at, staff) => {
    const states = ofStaff[Math.min(staff, harp.staves) - 1] ?? [];
    return states.findLast((each) => compare(each.at, at) <= 0)?.state ?? null;
  };
};

/** The words of one moment, as they hold for a staff. */
const stateOf = (marks: readonly SharingMark[], staff: number): State => {
  const own = marks.filter((mark) => mark.staff === staff);
  const here = own.length > 0 ? own : marks;
  const names = new Set(here.map(({ kind, players }) => `${kind} ${players.join(' ')}`));
  if (names.size === 1) return here[0]!;
  return {
    kind: 'divided',
    players: [...new Set(here.flatMap(({ players }) => players))].sort((a, b) => a - b),
  };
};

const voiceKey = ({ bar, staff, voice }: Pick<Note, 'bar' | 'staff' | 'voice'>): string =>
  `${bar};${staff};${voice}`;

const FIRST = 1;
const SECOND = 2;

/** The player of each voice of a bar where two voices on a staff point their stems away from each other; rests count as a voice. */
const dividedVoices = ({ notes, rests }: Score): ReadonlyMap<string, number> => {
  const players = new Map<string, number>();
  const written = notes.filter(({ role }) => role !== 'cue');
  const events: readonly (Note | Rest)[] = [...written, ...rests];
  for (const staff of group(events, ({ bar, staff: each }) => `${bar};${each}`).values()) {
    const voices = [...group(staff, ({ voice }) => voice).values()];
    if (voices.length !== 2) continue;
    const [a, b] = voices.map(stemOf);
    if (a === 'mixed' || b === 'mixed' || a === b) continue;
    const firstIsUp = a === 'up' || b === 'down';
    players.set(voiceKey(voices[0]![0]!), firstIsUp ? FIRST : SECOND);
    players.set(voiceKey(voices[1]![0]!), firstIsUp ? SECOND : FIRST);
  }
  return players;
};

/** The way that all stems of a voice point; null where none has one: rests, whole notes, stems left to the printer. */
const stemOf = (voice: readonly (Note | Rest)[]): 'up' | 'down' | 'mixed' | null => {
  const ways = new Set(
    voice.flatMap((event) => ('stem' in event && event.stem !== null ? [event.stem] : [])),
  );
  const [way] = ways;
  return ways.size > 1 ? 'mixed' : (way ?? null);
};
