import { fail, ok, type PartSummary, type Result } from '../problem.ts';
import { listNames } from '../words/lists.ts';
import type { HarpLabel } from './model/score.ts';
import { findCalled } from './part-names.ts';
import { handInLabel } from './words/hand-words.ts';
import { foldLabel, LONGEST_LABEL, squeezeLabel } from './words/labels.ts';

/** What is known of a part before it is read. */
export interface PartCandidate {
  readonly id: string;
  readonly name: string;
  readonly abbreviation: string;
  readonly staves: number;
  readonly notes: number;
  /** Names of its instruments' sounds, such as `pluck.harp` (MusicXML) or `Orchestral_Harp` (MEI). */
  readonly sounds: readonly string[];
  /** From 1; the orchestral harp is 47. */
  readonly midiProgram: number | null;
  /** The words at its staves; asked for only where no part is named as a harp. */
  readonly words: () => readonly string[];
  /** Whether a pedal diagram stands at its staves; asked for only where no part is named as a harp. */
  readonly hasDiagram: () => boolean;
}

/** The part, or the two one-staff parts (upper first), that are the harp. */
export interface HarpChoice {
  readonly parts: readonly string[];
  readonly name: string;
  /** What the user should know about the choice; null where nothing was left open. */
  readonly remark: string | null;
}

/** One harp: a part, or the parts of its two hands. */
interface Harp {
  readonly parts: readonly PartCandidate[];
  readonly name: string;
}

/**
 * Finds the harp among the parts of a score.
 *
 * @param candidates parts in score order
 * @param wanted id or name of a part, or what only one name has in it; names are compared without regard to case and white space
 * @returns `unknown-part` where `wanted` names no part or several, `harp-not-found` where no part looks like a harp
 */
export const chooseHarp = (
  candidates: readonly PartCandidate[],
  wanted: string | undefined,
): Result<HarpChoice> => {
  const harps = joinHands(candidates);
  if (wanted !== undefined) return chooseWanted(candidates, harps, wanted);
  const { sounding, silent } = findLikeliest(harps);
  if (sounding.length > 0) return ok(choiceAmong(sounding, silent));
  if (silent.length > 0) return ok(choiceAmong(silent, []));
  const marked = harps.filter(({ parts }) => parts.some(({ hasDiagram }) => hasDiagram()));
  if (marked.length > 0)
    return ok(choiceFor(marked, (name) => `${name} has pedal diagrams, so it is read as the harp.`));
  const called = harps.filter(({ parts }) => parts.some(({ words }) => words().some(callsForHarp)));
  if (called.length > 0)
    return ok(
      choiceFor(called, (name) => `Words in ${name} call for a harp, so the whole part is read as the harp.`),
    );
  const [only] = candidates;
  if (candidates.length === 1 && only !== undefined && only.staves === 2) {
    return ok(
      choiceOf(harps[0]!, `${titleOf(only)} is read as the harp: it is the only part and has two staves.`),
    );
  }
  return fail({ code: 'harp-not-found', parts: candidates.map(summarizePart) });
};

/** The harps of a score that have notes, in its order; the first is the one that is taken where none is named. */
export const listHarps = (candidates: readonly PartCandidate[]): readonly HarpLabel[] =>
  findLikeliest(joinHands(candidates)).sounding.map(({ parts, name }) => ({ id: parts[0]!.id, name }));

/** Those that are most surely harps, with notes and without; none where nothing looks like one. */
const findLikeliest = (
  harps: readonly Harp[],
): { readonly sounding: readonly Harp[]; readonly silent: readonly Harp[] } => {
  const ranked = harps.map((harp) => ({ harp, rank: Math.max(...harp.parts.map(rankOf)) }));
  const best = ranked.reduce((most, each) => Math.max(most, each.rank), 0);
  const likeliest = best === 0 ? [] : ranked.filter((each) => each.rank === best).map((each) => each.harp);
  const sounds = ({ parts }: Harp): boolean => parts.some(({ notes }) => notes > 0);
  return { sounding: likeliest.filter(sounds), silent: likeliest.filter((harp) => !sounds(harp)) };
};

const chooseWanted = (
  candidates: readonly PartCandidate[],
  harps: readonly Harp[],
  wanted: string,
): Result<HarpChoice> => {
  const harp = findCalled(harps, wanted, ({ name, parts }) => ({
    ids: parts.map(({ id }) => id),
    names: [name, ...parts.map((part) => part.name)],
  }));
  if (harp === undefined)
    return fail({ code: 'unknown-part', option: 'part', wanted, parts: candidates.map(summarizePart) });
  return ok(choiceOf(harp, harp.parts.length > 1 ? handsRemark(harp) : null));
};

/** @param silent harps of the same rank that have no notes */
const choiceAmong = (harps: readonly Harp[], silent: readonly Harp[]): HarpChoice => {
  const [first, ...others] = harps;
  const remarks = first!.parts.length > 1 ? [handsRemark(first!)] : [];
  const rest = [
    ...others.map((harp) => `${harp.name} (${idsOf(harp)})`),
    ...silent.map((harp) => `${harp.name} (${idsOf(harp)}, no notes)`),
  ];
  if (rest.length > 0)
    remarks.push(`${first!.name} is the harp used here. The score also has ${rest.join(', ')}.`);
  return choiceOf(first!, remarks.length > 0 ? remarks.join(' ') : null);
};

/** @param tellWhy why they are taken for harps though none is named as one */
const choiceFor = (harps: readonly Harp[], tellWhy: (name: string) => string): HarpChoice => {
  const { parts, name, remark } = choiceAmong(harps, []);
  return { parts, name, remark: remark === null ? tellWhy(name) : `${tellWhy(name)} ${remark}` };
};

const idsOf = ({ parts }: Harp): string => parts.map((part) => part.id).join(', ');

const choiceOf = (harp: Harp, remark: string | null): HarpChoice => ({
  parts: harp.parts.map((part) => part.id),
  name: harp.name,
  remark,
});

const handsRemark = (harp: Harp): string =>
  `${listNames(harp.parts.map((part) => titleOf(part)))} are read as the two hands of one harp.`;

/** A part as told to the user who has to choose. */
export const summarizePart = ({ id, name, staves, notes }: PartCandidate): PartSummary => ({
  id,
  name: squeezeLabel(name),
  staves,
  notes,
});

const titleOf = (part: PartCandidate): string =>
  squeezeLabel(part.name) || squeezeLabel(part.abbreviation) || part.id;

/** The word for the harp in English, German, French, Italian, Spanish and Portuguese. */
const HARP_WORD =
  /(?<!\p{L})(?:harps?|(?:doppel|haken|hebel|konzert|pedal|volks)?harfen?|harpes?|clarsach(?:s|an)?|arp[ae]|arpas|harpas?)(?!\p{L})/u;

/** Words that bid the player change to another instrument. */
const CHANGE_TO = /^(?:to|change to|muta in|nimmt|prend(?:re)?|prende|cambia a|mudar para) /u;

/**
 * Whether words hand a part to the harp: its name and nothing else, or after a bidding to change. “Quasi arpa” and the
 * like are for other instruments (common practice, no source).
 */
const callsForHarp = (words: string): boolean => {
  if (words.length > LONGEST_LABEL) return false;
  const name = foldLabel(words)
    .replace(CHANGE_TO, '')
    .replace(/^\(|[).:]+$/gu, '')
    .trim();
  return HARP_WORD.exec(name)?.[0] === name && name !== '';
};

/** Abbreviations, as the whole of a label but for a number. */
const HARP_ABBREVIATION = /^(?:[ivx\d]+\.? ?)?(?:hp|hps|hrp|hrf|hfe?|harp|arp|hpe)\.?(?: ?[ivx\d]+\.?)?$/u;

/** Other instruments that have the harp in their name: by a word beside it, or by a longer word that holds it. */
const OTHER_HARP =
  /(?:jaws?|jew'?s|jew’s|mouth|aeolian|eolian|wind|blues|glass|laser|tap|auto|juice)[ -]harps?|harp[ -](?:guitar|lute|zither|ukulele)|guitar[ -]harp|harpe? (?:eolienne|juive|de verre)|arpa (?:eolia|eolica|giudea|de boca|de cristal|di vetro)/u;

/** A label that offers the harp beside another instrument, such as “Piano (or Harp)”. */
const ALTERNATIVE =
  /(?<!\p{L})(?:or|ou|oder|piano|pianoforte|pf|klavier|clavier|cembalo|guitar|guitare|gitarre|chitarra|guitarra|celesta|lute|laute)(?!\p{L})|\/.*\p{L}/u;

const LONGER_WORD = /\p{L}har[pf]|harp(?!e?s?(?!\p{L})|as?(?!\p{L}))/u;

const HARP_SOUNDS: readonly string[] = ['pluck.harp', 'pluck.celtic-harp', 'orchestral harp', 'harp'];

const HARP_PROGRAM = 47;

/** How surely a part is a harp: 3 by its name or sound, 2 by its MIDI program, 1 as an alternative, 0 not at all. */
const rankOf = (part: PartCandidate): 0 | 1 | 2 | 3 => {
  const name = foldLabel(part.name);
  const abbreviation = foldLabel(part.abbreviation);
  if (OTHER_HARP.test(name)) return 0;
  if (part.sounds.some((sound) => HARP_SOUNDS.includes(foldLabel(sound).replaceAll('_', ' ')))) return 3;
  if (HARP_WORD.test(name)) return ALTERNATIVE.test(name) ? 1 : 3;
  if (LONGER_WORD.test(name)) return 0;
  if (HARP_ABBREVIATION.test(name)) return 3;
  if (name === '' && (HARP_ABBREVIATION.test(abbreviation) || HARP_WORD.test(abbreviation))) return 3;
  return part.midiProgram === HARP_PROGRAM ? 2 : 0;
};

/** Joins neighbouring one-staff parts that are named as the two hands of one harp. */
const joinHands = (candidates: readonly PartCandidate[]): readonly Harp[] => {
  const harps: Harp[] = [];
  for (let index = 0; index < candidates.length; index += 1) {
    const part = candidates[index]!;
    const next = candidates[index + 1];
    const pair = next === undefined ? null : pairOf(part, next);
    harps.push(pair ?? { parts: [part], name: titleOf(part) });
    if (pair !== null) index += 1;
  }
  return harps;
};

const pairOf = (part: PartCandidate, next: PartCandidate): Harp | null => {
  const here = handInLabel(part.name);
  const there = handInLabel(next.name);
  if (here === null || there === null || here.hand === there.hand || here.rest !== there.rest) return null;
  if (part.staves !== 1 || next.staves !== 1) return null;
  if (Math.max(rankOf(part), rankOf(next)) < 2) return null;
  const name = titleOf(part).slice(0, here.rest.length);
  return {
    parts: here.hand === 'right' ? [part, next] : [next, part],
    name: foldLabel(name) === here.rest && name !== '' ? name : 'Harp',
  };
};
