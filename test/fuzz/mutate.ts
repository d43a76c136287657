import { strFromU8, strToU8, zipSync } from 'fflate';
import { seededRandom } from '../engine/pedals/course/random-task.ts';

/** A number from 0 to below 1. */
export type Random = () => number;

const below = (random: Random, limit: number): number => Math.floor(random() * limit);

const pick = <T>(random: Random, list: readonly T[]): T => list[below(random, list.length)]!;

type Mutation = (bytes: Uint8Array, random: Random) => Uint8Array;

const flipBytes: Mutation = (bytes, random) => {
  const copy = new Uint8Array(bytes);
  for (let count = 1 + below(random, 8); count > 0 && copy.length > 0; count -= 1) {
    copy[below(random, copy.length)] = below(random, 256);
  }
  return copy;
};

const cutOff: Mutation = (bytes, random) => bytes.slice(0, below(random, bytes.length + 1));

const cutOut: Mutation = (bytes, random) => {
  const from = below(random, bytes.length);
  const until = Math.min(bytes.length, from + 1 + below(random, 2_000));
  return new Uint8Array([...bytes.subarray(0, from), ...bytes.subarray(until)]);
};

const onText =
  (change: (text: string, random: Random) => string): Mutation =>
  (bytes, random) =>
    strToU8(change(strFromU8(bytes), random));

/** The whole of an element that has no element of its name inside it. */
const elementsIn = (text: string): RegExpExecArray[] => [
  ...text.matchAll(/<([a-zA-Z][\w.-]*)(?:\s[^<>]*)?>(?:(?!<\1[\s>])[\s\S])*?<\/\1>/g),
];

const someElement = (text: string, random: Random): RegExpExecArray | null => {
  const from = below(random, text.length);
  const elements = elementsIn(text.slice(from, from + 20_000));
  if (elements.length === 0) return null;
  const found = pick(random, elements);
  found.index += from;
  return found;
};

const replaceAt = (text: string, { index, 0: whole }: RegExpExecArray, put: string): string =>
  text.slice(0, index) + put + text.slice(index + whole.length);

const changeElement = (change: (element: RegExpExecArray, random: Random) => string): Mutation =>
  onText((text, random) => {
    const element = someElement(text, random);
    return element === null ? text : replaceAt(text, element, change(element, random));
  });

const dropElement = changeElement(() => '');

const doubleElement = changeElement(({ 0: whole }, random) => whole.repeat(2 + below(random, 20)));

const nestElement = changeElement(({ 0: whole, 1: name }, random) => {
  const depth = 1 + below(random, 300);
  return `<${name}>`.repeat(depth) + whole + `</${name}>`.repeat(depth);
});

const renameElement = changeElement(({ 0: whole, 1: name }, random) => {
  const other = pick(random, [
    'note',
    'measure',
    'chord',
    'tuplet',
    'backup',
    'repeat',
    'staff',
    'x',
    'beam',
  ]);
  return whole.replaceAll(`<${name}`, `<${other}`).replaceAll(`</${name}>`, `</${other}>`);
});

const STRANGE = [
  '',
  '0',
  '-1',
  '1e9',
  '999999999999',
  'NaN',
  '1/0',
  '2147483648',
  '𝄞',
  'x'.repeat(5_000),
  '0.0001',
];

/** Numbers where music has them: durations, beats, octaves, and whatever stands in attributes. */
const changeNumber = onText((text, random) => {
  const from = below(random, text.length);
  const value = /(?<=[">])-?\d+(?:\.\d+)?(?=["<])/.exec(text.slice(from));
  if (value === null) return text;
  return (
    text.slice(0, from + value.index) +
    pick(random, STRANGE) +
    text.slice(from + value.index + value[0].length)
  );
});

const dropAttribute = onText((text, random) => {
  const from = below(random, text.length);
  return text.slice(0, from) + text.slice(from).replace(/ [\w:.-]+="[^"]*"/, '');
});

const swapHalves = onText((text, random) => {
  const at = below(random, text.length);
  return text.slice(at) + text.slice(0, at);
});

const addEntity = onText((text) =>
  text.replace(/<(score-partwise|mei)/, '<!DOCTYPE $1 [<!ENTITY a "aaaa">]><$1'),
);

const pack: Mutation = (bytes, random) =>
  zipSync({
    [pick(random, ['a.musicxml', '../a.xml', 'a/b.xml', 'META-INF/container.xml', 'x'.repeat(300)])]: bytes,
  });

const packAndHarm: Mutation = (bytes, random) => flipBytes(pack(bytes, random), random);

/** Some are listed more often: what is still a score goes farther than what is refused at the door. */
const MUTATIONS: readonly Mutation[] = [
  flipBytes,
  cutOff,
  cutOut,
  swapHalves,
  addEntity,
  packAndHarm,
  pack,
  renameElement,
  nestElement,
  ...Array.from({ length: 3 }, () => [dropElement, doubleElement, dropAttribute]).flat(),
  ...Array.from({ length: 6 }, () => changeNumber),
];

/** The random numbers of one mutant: those of neighbouring mutants have nothing in common. */
export const mutantRandom = (seed: number, number: number): Random =>
  seededRandom(Math.imul(number + 1, 0x9e3779b1) ^ Math.imul(seed + 1, 0x85ebca6b));

/** A file with one or two things changed in it, of bytes or of structure. */
export const mutate = (bytes: Uint8Array, random: Random): Uint8Array => {
  let mutant = bytes;
  for (let count = 1 + below(random, 3); count > 0; count -= 1)
    mutant = pick(random, MUTATIONS)(mutant, random);
  return mutant;
};
