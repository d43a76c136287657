import type { TuneEvent, Tuplet } from '../tune.ts';
import type { NoteTies } from './write-note.ts';

const beamsOf = ({ value }: TuneEvent): number => Math.max(0, Math.log2(value.unit) - 2);

/** The beams of an event whose neighbours under the same beam are known; short stumps go towards the note before. */
const writeBeams = (
  before: TuneEvent | null,
  event: TuneEvent,
  after: TuneEvent | null,
): readonly string[] => {
  if (before === null && after === null) return [];
  return Array.from({ length: beamsOf(event) }, (_, level) => {
    const goesBack = before !== null && beamsOf(before) > level;
    const goesOn = after !== null && beamsOf(after) > level;
    if (goesBack) return goesOn ? 'continue' : 'end';
    if (goesOn) return 'begin';
    return before === null ? 'forward hook' : 'backward hook';
  });
};

/** The event beside another under the same beam; rests and gaps stand between them. */
const besideInBeam = (events: readonly TuneEvent[], index: number, step: 1 | -1): TuneEvent | null => {
  const { beam } = events[index]!;
  if (beam === null) return null;
  for (let at = index + step; at >= 0 && at < events.length; at += step) {
    const other = events[at]!;
    if (other.beam !== beam) return null;
    if (other.kind === 'note') return other;
  }
  return null;
};

const sameTuplet = (a: Tuplet, b: TuneEvent | undefined): boolean => b?.tuplet === a;

/**
 * How the events of a voice in a bar hang together.
 *
 * @param inWord for each verse, whether a word goes on from the bar before; carried on
 */
export const tieNotes = (events: readonly TuneEvent[], inWord: boolean[]): readonly NoteTies[] =>
  events.map((event, index) => {
    const { tuplet } = event;
    const words = event.lyrics.map(({ text, goesOn }, verse) => {
      const before = inWord[verse] ?? false;
      if (text !== '') inWord[verse] = goesOn === 'hyphen';
      return before;
    });
    return {
      tuplet: {
        starts: tuplet !== null && !sameTuplet(tuplet, events[index - 1]),
        ends: tuplet !== null && !sameTuplet(tuplet, events[index + 1]),
      },
      beams:
        event.kind === 'note'
          ? writeBeams(besideInBeam(events, index, -1), event, besideInBeam(events, index, 1))
          : [],
      inWord: words,
    };
  });
