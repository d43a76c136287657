import type { HarpKind } from '../harp/harps.ts';
import { type NonEmpty, namesIn } from '../non-empty.ts';
import type { FindingEntry, Remedy } from './catalogue/entry.ts';
import { HAND_FINDINGS } from './catalogue/hands.ts';
import { LEVER_MARKING_FINDINGS } from './catalogue/lever-markings.ts';
import { LEVER_FINDINGS } from './catalogue/levers.ts';
import { MARKING_FINDINGS } from './catalogue/markings.ts';
import { PEDAL_FINDINGS } from './catalogue/pedals.ts';
import { STRING_FINDINGS } from './catalogue/strings.ts';
import type { NoteNames } from './note-names.ts';

/** What a plan can find, by code. */
const PLAN_FINDINGS = { ...PEDAL_FINDINGS, ...LEVER_FINDINGS, ...STRING_FINDINGS, ...HAND_FINDINGS } as const;

/** What proofreading can find, by code. */
const PROOF_FINDINGS = { ...MARKING_FINDINGS, ...LEVER_MARKING_FINDINGS } as const;

const ALL_FINDINGS = { ...PLAN_FINDINGS, ...PROOF_FINDINGS } as const;

type PlanFindings = typeof PLAN_FINDINGS;

type CodeFor<Harp extends HarpKind> = {
  [Code in keyof PlanFindings]: Harp extends PlanFindings[Code]['harps'][number] ? Code : never;
}[keyof PlanFindings];

/** What either planner can find. */
export type PlanFindingCode = keyof PlanFindings;

/** What the pedal planner can find. */
export type PedalFindingCode = CodeFor<'pedal'>;

/** What the lever planner can find. */
export type LeverFindingCode = CodeFor<'lever'>;

/** What the hands cannot do, or hardly, on any harp: both planners find it. */
export type HandFindingCode = keyof typeof HAND_FINDINGS;

export const isHandFinding = (code: FindingCode): code is HandFindingCode =>
  Object.hasOwn(HAND_FINDINGS, code);

/** What proofreading can find. */
export type ProofFindingCode = keyof typeof PROOF_FINDINGS;

/** What proofreading of lever markings can find. */
export type LeverProofCode = keyof typeof LEVER_MARKING_FINDINGS;

/** What the planners tell of several places in a row as one thing. */
export type PassageCode = {
  [Code in keyof PlanFindings]: PlanFindings[Code] extends { readonly passage: unknown } ? Code : never;
}[keyof PlanFindings];

/** The stable code of anything that can be found. */
export type FindingCode = keyof typeof ALL_FINDINGS;

type FactsByCode = {
  readonly [Code in FindingCode]: Parameters<(typeof ALL_FINDINGS)[Code]['sentence']>[0];
};

/** What the sentence of a finding is made of. */
export type FactsOf<Code extends FindingCode> = FactsByCode[Code];

/** What one place of a finding is told from: the facts that the catalogue asks for by its code. */
export type ToldPlace<Code extends FindingCode> = {
  readonly [Each in Code]: {
    readonly kind: 'place';
    readonly code: Each;
    readonly facts: FactsByCode[Each];
    /** Whether the hand that it is about is guessed. */
    readonly guessed: boolean;
  };
}[Code];

/** What several places in a row are told from: how many they are. */
export type ToldPassage<Code extends PassageCode> = {
  readonly [Each in Code]: {
    readonly kind: 'passage';
    readonly code: Each;
    readonly places: number;
    /** Whether a hand is guessed at one of them. */
    readonly guessed: boolean;
  };
}[Code];

/** What the sentence of a finding is made of, to be told in any language. */
export type Told<Code extends FindingCode> = ToldPlace<Code> | ToldPassage<Extract<Code, PassageCode>>;

/** Sentences of findings, of one place each, by code. */
export type SentencesOf<Code extends FindingCode> = {
  readonly [Each in Code]: (facts: FactsByCode[Each], names: NoteNames) => string;
};

/** The one catalogue: what is known of each kind of finding. */
export const FINDINGS: { readonly [Code in FindingCode]: FindingEntry<FactsByCode[Code]> } = ALL_FINDINGS;

/** Whether something beside changed notes may help where pedals fail. */
export const mayHelp = (remedy: Remedy, code: FindingCode): boolean =>
  FINDINGS[code].remedies?.includes(remedy) ?? false;

/** What is said of several places in a row, by the codes of which that is said. */
export type PassageSentences = {
  readonly [Code in PassageCode]: (places: number, guessed: boolean) => string;
};

/** The same in the engine’s own words. */
export const PASSAGE_SENTENCES = Object.fromEntries(
  Object.entries<FindingEntry<never>>(ALL_FINDINGS).flatMap(([code, { passage }]) =>
    passage === undefined ? [] : [[code, passage]],
  ),
) as PassageSentences;

const codesFor = (harp: HarpKind): readonly (keyof PlanFindings)[] =>
  namesIn(PLAN_FINDINGS).filter((code) => FINDINGS[code].harps.includes(harp));

/** The codes of each report, in the order of the catalogue. */
export const PEDAL_FINDING_CODES = codesFor('pedal') as NonEmpty<PedalFindingCode>;
/** Codes of what the lever planner can find, in the order of the catalogue. */
export const LEVER_FINDING_CODES = codesFor('lever') as NonEmpty<LeverFindingCode>;
/** Codes of what proofreading can find, in the order of the catalogue. */
export const PROOF_FINDING_CODES = namesIn(PROOF_FINDINGS);
