import type { Words } from '../worded.ts';
import { DIFFICULTY_WORDS } from './difficulty.ts';
import { EXERCISES_WORDS } from './exercises.ts';
import { FINDINGS_WORDS } from './findings.ts';
import { HANDOUTS_WORDS } from './handouts.ts';
import { LEGEND_WORDS } from './legend.ts';
import { LEVERS_WORDS } from './levers.ts';
import { NAMES_WORDS } from './names.ts';
import { PIECES_WORDS } from './pieces.ts';
import { PROOF_WORDS } from './proof.ts';
import { READING_WORDS } from './reading.ts';
import { SPOKEN_WORDS } from './spoken.ts';
import { STUDY_WORDS } from './study.ts';

/**
 * The words of the sheets in German. From memory: Pedalstellung, Pedalwechsel, Klappe (the lever), Stimmscheibe
 * (the disc), “Be”, “Auflöser” and “Kreuz” for the notches; no method was at hand.
 */
export const GERMAN: Words = {
  ...NAMES_WORDS,
  spoken: SPOKEN_WORDS,
  study: STUDY_WORDS,
  reading: READING_WORDS,
  legend: LEGEND_WORDS,
  ...EXERCISES_WORDS,
  ...PIECES_WORDS,
  levers: LEVERS_WORDS,
  ...DIFFICULTY_WORDS,
  findings: FINDINGS_WORDS,
  proof: PROOF_WORDS,
  handouts: HANDOUTS_WORDS,
};
