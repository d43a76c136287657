import type { XmlElement } from '../../../xml/tree.ts';
import type { Jump } from '../../model/bar.ts';
import { soundOf, typesOf, wordsIn } from '../directions/directions.ts';

/** Words for jumps as they are printed in most countries (common practice, no source). */
const WORDS: readonly (readonly [RegExp, Jump])[] = [
  [/^(?:d\. ?c\.?|d\.?c\.|da capo)(?!\p{L})/iu, { kind: 'da-capo' }],
  [/^(?:d\. ?s\.?|d\.?s\.|dal segno)(?!\p{L})/iu, { kind: 'dal-segno', label: '' }],
  [/^(?:to|alla|al) coda(?!\p{L})/iu, { kind: 'to-coda', label: '' }],
  [/^fine[.!]?$/iu, { kind: 'fine' }],
];

/**
 * The signs of a direction, of a lone `sound` or of a bar line that send the player elsewhere. What the file says for
 * playback goes before printed signs, and these before words.
 */
export const readJumps = (element: XmlElement): readonly Jump[] => {
  const sounding = jumpsOfSound(element.name === 'barline' ? element : soundOf(element));
  const leaves = sounding.some((jump) => jump.kind === 'to-coda');
  const returns = sounding.some((jump) => jump.kind === 'dal-segno');
  const names = new Set([...element.children, ...typesOf(element)].map((each) => each.name));
  const jumps = [...sounding];
  if (names.has('segno') && !returns && !has(jumps, 'segno')) jumps.push({ kind: 'segno', label: '' });
  if (names.has('coda') && !leaves && !has(jumps, 'coda')) jumps.push({ kind: 'coda', label: '' });
  if (sounding.length > 0 || element.name !== 'direction') return jumps;
  const words = wordsIn(element);
  const spelled = WORDS.find(([pattern]) => pattern.test(words))?.[1];
  if (spelled === undefined) return jumps;
  return spelled.kind === 'to-coda' || spelled.kind === 'dal-segno' ? [spelled] : [...jumps, spelled];
};

const has = (jumps: readonly Jump[], kind: Jump['kind']): boolean => jumps.some((jump) => jump.kind === kind);

/** The attributes of `sound`; a bar line has those for segno and coda too. */
const jumpsOfSound = (sound: XmlElement | undefined): readonly Jump[] => {
  const { segno, coda, tocoda, dalsegno, dacapo, fine } = sound?.attributes ?? {};
  const jumps: Jump[] = [];
  if (segno !== undefined) jumps.push({ kind: 'segno', label: segno });
  if (coda !== undefined) jumps.push({ kind: 'coda', label: coda });
  if (tocoda !== undefined) jumps.push({ kind: 'to-coda', label: tocoda });
  if (dacapo === 'yes') jumps.push({ kind: 'da-capo' });
  if (dalsegno !== undefined) jumps.push({ kind: 'dal-segno', label: dalsegno });
  if (fine !== undefined && fine !== 'no') jumps.push({ kind: 'fine' });
  return jumps;
};
