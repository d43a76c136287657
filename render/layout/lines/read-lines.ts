import type { Drawer } from '../drawer/drawer.ts';
import type { LinesToDraw } from './draw-lines.ts';
import { type LaidOutSystem, readLaidOutSystem, type SystemReading } from './laid-out-system.ts';

/**
 * Lays lines out and reads them; those that were laid out from the same before are not again.
 *
 * @param wanted indices of the lines; all without it
 * @returns null where Verovio cannot load the document, or a line has no bar of the score
 */
export const readLines = (
  { lines: memory }: Pick<Drawer, 'lines'>,
  { count, draw, keyOf }: LinesToDraw,
  reading: SystemReading,
  wanted: readonly number[] = Array.from({ length: count ?? 0 }, (_, line) => line),
): LaidOutSystem[] | null => {
  const read = (svgs: readonly string[] | null): LaidOutSystem[] | null => {
    const systems = svgs?.map((svg) => readLaidOutSystem(svg, reading)) ?? [null];
    return systems.every((system) => system !== null) ? systems : null;
  };
  if (count === null) return read(draw());
  const found = wanted.map((line) => {
    const key = keyIn(keyOf, reading, line);
    return { line, key, system: memory.find(key, reading) };
  });
  const missing = found.filter(({ system }) => system === undefined);
  const fresh = missing.length === 0 ? [] : read(draw(missing.map(({ line }) => line)));
  if (fresh === null) return null;
  missing.forEach(({ key }, i) => {
    memory.keep(key, fresh[i]!);
  });
  const rest = fresh.values();
  return found.map(({ system }) => system ?? rest.next().value!);
};

/** Tells which lines will be laid out, those that were not before. @param groups as they will be asked for, in their order */
export const expectLines = (
  drawer: Pick<Drawer, 'lines'>,
  lines: LinesToDraw,
  reading: SystemReading,
  groups: readonly (readonly number[])[],
): void =>
  lines.expect(groups.map((group) => group.filter((line) => !isLineKnown(drawer, lines, reading, line))));

/** Whether a line was laid out and read before. */
export const isLineKnown = (
  { lines: memory }: Pick<Drawer, 'lines'>,
  { keyOf }: LinesToDraw,
  reading: SystemReading,
  line: number,
): boolean => memory.find(keyIn(keyOf, reading, line), reading) !== undefined;

const keyIn = (keyOf: LinesToDraw['keyOf'], reading: SystemReading, line: number): string =>
  `${keyOf(line)} ${howRead(reading)}`;

/** What decides where drawings come to stand beside the line and the drawings. */
const howRead = ({ pads, placement }: SystemReading): string =>
  pads.size === 0 ? placement : JSON.stringify([placement, ...pads]);
