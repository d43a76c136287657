import { createMemory } from '../drawer/drawing-memory.ts';
import type { ReservedSpace } from '../spaces/reserve-spaces.ts';
import type { LaidOutSystem, SystemReading } from './laid-out-system.ts';

/** Keeps lines with our drawings placed on them, by the document that each was laid out from. */
export interface LineMemory {
  /**
   * @param reading with rooms by their names in the document
   * @returns the line, its rooms being those given; undefined where the same document was not read with such rooms
   */
  readonly find: (
    key: string,
    reading: Pick<SystemReading, 'rooms' | 'indexOf'>,
  ) => LaidOutSystem | undefined;
  readonly keep: (key: string, system: LaidOutSystem) => void;
}

export const createLineMemory = (mostCharacters: number): LineMemory => {
  const memory = createMemory<LaidOutSystem>(mostCharacters, sizeOf);
  return {
    find: (key, { indexOf, rooms }) => {
      const system = memory.find(key);
      const firstBar = indexOf.get(system?.firstId ?? '');
      if (system === undefined || firstBar === undefined) return undefined;
      const placed = system.placed.flatMap((each) => {
        const room = rooms.get(each.placeholder.id);
        return room !== undefined && standSame(each.room, room) ? [{ ...each, room }] : [];
      });
      return placed.length === system.placed.length ? { ...system, firstBar, placed } : undefined;
    },
    keep: memory.keep,
  };
};

/** Whether two drawings come to stand at one place in the same line. */
const standSame = (one: ReservedSpace, other: ReservedSpace): boolean =>
  one.box.widthVu === other.box.widthVu &&
  one.box.heightVu === other.box.heightVu &&
  one.line === other.line &&
  one.startVu === other.startVu &&
  one.endVu === other.endVu &&
  one.headVu === other.headVu &&
  one.stance === other.stance &&
  one.beginsInBar === other.beginsInBar &&
  one.endsInBar === other.endsInBar &&
  one.staves.top === other.staves.top &&
  one.staves.bottom === other.staves.bottom &&
  `${one.begins} ${one.endsBefore}` === `${other.begins} ${other.endsBefore}`;

/** A line is held with its gaps, filled, and as a part of its page. */
const HELD = 3;

/** What a line is drawn with, and for each drawing about what it takes to say where it stands. Outlines are shared. */
const sizeOf = ({ picture: { body, heading }, placed }: LaidOutSystem): number =>
  [...body, ...heading].reduce((sum, { length }) => sum + HELD * length, 4000 * placed.length);
