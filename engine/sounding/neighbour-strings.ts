import type { PedalHarpProfile } from '../harp/profile.ts';
import type { Scordatura } from '../harp/scordatura.ts';
import type { Moments } from '../time/moments.ts';
import { type Need, type Needs, otherPedalStrings } from './needs.ts';
import type { Respelling } from './respelling.ts';
import { createRivalSearch } from './rivals.ts';

/**
 * Takes the neighbour that an ornament brings in on another string of its pitch, where its own pedal is wanted elsewhere
 * at that time: a trill from G natural to G sharp is played on the strings G and A. No note is written for it, so that
 * nothing need be respelled. Where no other string is free, it stays, and clashes.
 */
export const clearNeighbours = (
  asked: Needs,
  moments: Moments,
  profile: PedalHarpProfile,
  scordatura: Scordatura,
): Needs => {
  if (!asked.needs.some(({ kind }) => kind === 'implied')) return asked;
  const rivalOf = createRivalSearch(asked.needs, moments);
  const moved: Respelling[] = [];
  const needs = asked.needs.map((need): Need => {
    if (need.kind !== 'implied' || rivalOf(need) === undefined) return need;
    const from = { letter: need.letter, octave: need.octave, alter: need.position };
    for (const to of otherPedalStrings(from, profile, scordatura)) {
      const other: Need = { ...need, letter: to.letter, octave: to.octave, position: to.alter };
      if (rivalOf(other) !== undefined) continue;
      moved.push({ note: need.note.id, from, to });
      return other;
    }
    return need;
  });
  return moved.length === 0 ? asked : { ...asked, needs, neighbours: [...asked.neighbours, ...moved] };
};
