import { HARPS, type HarpProfile } from '../harp/harps.ts';
import { childrenNamed, childText } from '../xml/tree.ts';
import type { Remark } from './model/remark.ts';
import type { Score } from './model/score.ts';
import { foldLabel } from './words/labels.ts';

/** The harp that a part is taken to be written for, and what the user should know about the choice. */
export interface ProfileChoice {
  readonly profile: HarpProfile;
  readonly remark: Remark | null;
}

/**
 * Tells which harp a part is written for: a lever harp where its name or its sound (`pluck.celtic-harp`, MusicXML
 * standard sounds) says so, else a pedal harp; of the size that the name states, else the usual one.
 */
export const chooseProfile = (score: Pick<Score, 'harp' | 'source'>): ProfileChoice => {
  const name = foldLabel(score.harp.name);
  const sizes = [...name.matchAll(/(?<!\d)\d{2}(?!\d)/g)].map(([digits]) => Number(digits));
  const kind = isLeverHarp(name) || soundsOf(score).includes(LEVER_HARP_SOUND) ? 'lever' : 'pedal';
  const ofKind = Object.values<HarpProfile>(HARPS).filter((profile) => profile.kind === kind);
  const ofSize = ofKind.filter((each) => sizes.some((size) => each.name.includes(`${size} strings`)));
  // Of two with as many strings, the one that the part names in full.
  const profile = ofSize.findLast((each) => name.includes(foldLabel(each.name))) ?? ofSize[0];
  const chosen = profile ?? ofKind[0]!;
  if (kind === 'pedal' && profile === undefined) return { profile: chosen, remark: null };
  const reason = isLeverHarp(name) || profile !== undefined ? 'name' : 'sound';
  return {
    profile: chosen,
    remark: {
      code: 'harp-chosen',
      barNumber: '',
      message: `The ${reason} of the part says that it is for the ${chosen.name}.`,
    },
  };
};

const LEVER_HARP_SOUND = 'pluck.celtic-harp';

/** Names of lever harps in English, French, German, Italian, Spanish, Portuguese and Gaelic (common practice, no source). */
const LEVER_HARP_NAMES: readonly RegExp[] = [
  /(?<!\p{L})(?:lever|celtic|folk|irish|scottish)[ -]?harps?(?!\p{L})/u,
  /(?<!\p{L})harpes? (?:celtiques?|irlandaises?|a leviers|a crochets)(?!\p{L})/u,
  /(?<!\p{L})(?:haken|hebel|klappen)[ -]?harfen?(?!\p{L})/u,
  /(?<!\p{L})(?:keltische|irische)n? harfen?(?!\p{L})/u,
  /(?<!\p{L})h?arp[ae]s? (?:celtic[ahe]+|celtas?|irlandes[aei]|de palancas|a lev[ei]|a levette)(?!\p{L})/u,
  /(?<!\p{L})(?:clarsach|clairseach|cruit cheilteach)(?!\p{L})/u,
];

const isLeverHarp = (name: string): boolean => LEVER_HARP_NAMES.some((pattern) => pattern.test(name));

/** The sounds that MusicXML states for the instruments of the harp's parts. */
const soundsOf = ({ harp, source }: Pick<Score, 'harp' | 'source'>): string[] =>
  childrenNamed(source.root, 'part-list')
    .flatMap((list) => childrenNamed(list, 'score-part'))
    .filter(({ attributes }) => harp.partIds.includes(attributes.id ?? ''))
    .flatMap((part) => childrenNamed(part, 'score-instrument'))
    .flatMap((instrument) => childText(instrument, 'instrument-sound') ?? []);
