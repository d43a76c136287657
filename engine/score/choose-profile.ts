import { HARP_NAMES, HARPS, type HarpKind, type HarpName, type HarpProfile } from '../harp/harps.ts';
import { childrenNamed, childText } from '../xml/tree.ts';
import { type Remark, remarkOnAll } from './model/remark.ts';
import type { Score } from './model/score.ts';
import { foldLabel } from './words/labels.ts';
import { tellsOfLevers } from './words/lever-words.ts';

/** The harp that a part is taken to be written for, and what the user should know about the choice. */
export interface ProfileChoice {
  readonly name: HarpName;
  readonly profile: HarpProfile;
  /** Nothing but that it is a tune in ABC tells the harp. */
  readonly isHarpOfTunes: boolean;
  readonly remark: Remark | null;
}

type Chosen = Pick<Score, 'isTune' | 'harp' | 'source' | 'leverWords' | 'markings'>;

/**
 * Tells which harp a part is written for: a lever harp where its name, its sound (`pluck.celtic-harp`, MusicXML
 * standard sounds) or the markings in it say so, or a tune in ABC names no pedal harp, else a pedal harp; of the size that
 * the name states, else the usual one.
 */
export const chooseProfile = (score: Chosen): ProfileChoice => {
  const label = foldLabel(score.harp.name);
  const reason = leverReason(label, score);
  const ofKind = harpsOf(reason === null ? 'pedal' : 'lever');
  const ofSize = ofSizeIn(label, ofKind);
  // Of two with as many strings, the one that the part names in full.
  const sized = ofSize.findLast((each) => label.includes(foldLabel(HARPS[each].name))) ?? ofSize[0];
  const name = sized ?? ofKind[0]!;
  const chosen = { name, profile: HARPS[name], isHarpOfTunes: reason === 'tune' && sized === undefined };
  if (reason === null && sized === undefined) return { ...chosen, remark: null };
  const message = reasonSentence(sized === undefined ? reason! : 'name', chosen.profile);
  return { ...chosen, remark: remarkOnAll('harp-chosen', message) };
};

const harpsOf = (kind: HarpKind): readonly HarpName[] =>
  HARP_NAMES.filter((name) => HARPS[name].kind === kind);

type Reason = 'name' | 'sound' | 'markings' | 'tune';

const reasonSentence = (reason: Reason, { name }: HarpProfile): string => {
  switch (reason) {
    case 'tune':
      return `Tunes in ABC are for the lever harp unless another is named: the ${name}, is assumed.`;
    case 'markings':
      return `Markings in the part tell of levers: the ${name}, is assumed.`;
    case 'name':
    case 'sound':
      return `The ${reason} of the part says that it is for the ${name}.`;
  }
};

/** What says that a part is for a lever harp; null where nothing does. */
const leverReason = (name: string, score: Chosen): Reason | null => {
  if (isLeverHarp(name)) return 'name';
  if (soundsOf(score).includes(LEVER_HARP_SOUND)) return 'sound';
  if (isPedalHarp(name)) return null;
  if (isMarkedForLevers(score)) return 'markings';
  return score.isTune ? 'tune' : null;
};

/** Words for levers do so; a diagram of pedals beside them says otherwise. */
const isMarkedForLevers = ({ leverWords, markings }: Chosen): boolean =>
  leverWords.some(({ text, says }) => tellsOfLevers(text, says)) &&
  markings.every(({ form }) => form === 'words');

const ofSizeIn = (label: string, harps: readonly HarpName[]): readonly HarpName[] => {
  const sizes = [...label.matchAll(/(?<!\d)\d{2}(?!\d)/g)].map(([digits]) => Number(digits));
  return harps.filter((each) => sizes.some((size) => HARPS[each].name.includes(`${size} strings`)));
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

/** A name that only a pedal harp has: a word for it in the same languages (common practice, no source), or its size. */
const isPedalHarp = (name: string): boolean =>
  /pedal|concert|konzert/u.test(name) || ofSizeIn(name, harpsOf('pedal')).length > 0;

/** The sounds that MusicXML states for the instruments of the harp's parts. */
const soundsOf = ({ harp, source }: Chosen): string[] =>
  childrenNamed(source.root, 'part-list')
    .flatMap((list) => childrenNamed(list, 'score-part'))
    .filter(({ attributes }) => harp.partIds.includes(attributes.id ?? ''))
    .flatMap((part) => childrenNamed(part, 'score-instrument'))
    .flatMap((instrument) => childText(instrument, 'instrument-sound') ?? []);
