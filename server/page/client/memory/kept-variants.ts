import { checkDecisions, type Decisions } from '../../../../engine/index.ts';
import { type Memory, putOnShelf, takeFromShelf } from './shelf.ts';

/** Decisions on a piece that the user keeps under a name, to go back to or to compare with. */
export interface Variant {
  readonly name: string;
  readonly decisions: Decisions;
}

const SHELF = 'tringle-variants';

/** Of one piece; a name is as long as the field lets it be. */
export const MOST_VARIANTS = 20;
export const LONGEST_NAME = 60;

const readVariant = (found: unknown): readonly Variant[] => {
  if (typeof found !== 'object' || found === null) return [];
  const name: unknown = Reflect.get(found, 'name');
  const checked = checkDecisions(Reflect.get(found, 'decisions'));
  return typeof name === 'string' && name.length <= LONGEST_NAME && checked.ok
    ? [{ name, decisions: checked.decisions }]
    : [];
};

/** The variants kept of a score, in the order in which they were kept. */
export const recallVariants = (memory: Memory, key: string): readonly Variant[] => {
  const found = takeFromShelf(memory, SHELF, key);
  return Array.isArray(found) ? found.flatMap(readVariant).slice(0, MOST_VARIANTS) : [];
};

/** @returns whether they could be kept */
export const keepVariants = (memory: Memory, key: string, variants: readonly Variant[]): boolean =>
  putOnShelf(memory, SHELF, key, variants);

/** Keeps decisions under a name; one of the same name gives way, and the oldest where there are too many. */
export const addVariant = (variants: readonly Variant[], added: Variant): readonly Variant[] =>
  [...variants.filter(({ name }) => name !== added.name), added].slice(-MOST_VARIANTS);
