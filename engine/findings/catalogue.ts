import type { HarpKind } from '../harp/harps.ts';
import type { FindingEntry } from './catalogue/entry.ts';
import { HAND_FINDINGS } from './catalogue/hands.ts';
import { LEVER_MARKING_FINDINGS } from './catalogue/lever-markings.ts';
import { LEVER_FINDINGS } from './catalogue/levers.ts';
import { MARKING_FINDINGS } from './catalogue/markings.ts';
import { PEDAL_FINDINGS } from './catalogue/pedals.ts';
import { STRING_FINDINGS } from './catalogue/strings.ts';
import type { Finding } from './model.ts';

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

/** One thing that the pedal planner found. */
export type PedalFinding = Finding<PedalFindingCode>;
export type LeverFinding = Finding<LeverFindingCode>;

/** What the sentence of a finding is made of. */
export type FactsOf<Code extends FindingCode> = {
  [Each in FindingCode]: Parameters<(typeof ALL_FINDINGS)[Each]['sentence']>[0];
}[Code];

/** The one catalogue: what is known of each kind of finding. */
export const FINDINGS: { readonly [Code in FindingCode]: FindingEntry<FactsOf<Code>> } = ALL_FINDINGS;

type Codes<Code> = readonly [Code, ...Code[]];

const codesFor = (harp: HarpKind): readonly (keyof PlanFindings)[] =>
  (Object.keys(PLAN_FINDINGS) as (keyof PlanFindings)[]).filter((code) =>
    FINDINGS[code].harps.includes(harp),
  );

/** The codes of each report, in the order of the catalogue. */
export const PEDAL_FINDING_CODES = codesFor('pedal') as Codes<PedalFindingCode>;
/** Codes of what the lever planner can find, in the order of the catalogue. */
export const LEVER_FINDING_CODES = codesFor('lever') as Codes<LeverFindingCode>;
/** Codes of what proofreading can find, in the order of the catalogue. */
export const PROOF_FINDING_CODES = Object.keys(PROOF_FINDINGS) as unknown as Codes<ProofFindingCode>;
