/**
 * What other programs import as `tringle/engine`: a score is opened, planned for pedals or levers, planned again while it
 * is written, proofread, looked through for fixes, divided between two players; settings are searched for a sound. What
 * our own floors need beside it stands in `index.ts` and may change from one version to the next.
 *
 * What input can get wrong is a `Result` with a `Problem`; anything thrown is a bug. Score times are exact fractions of a
 * quarter note (`Rational`), clock times are seconds.
 *
 * @example
 * const opened = openScore(bytes);
 * if (!opened.ok) throw new Error(problemMessage(opened.problem));
 * const plan = planPedals(opened.value);
 * console.log(formatSetting(plan.initial), plan.moves.length);
 */

export {
  // Opening a score, in MusicXML, MEI or ABC.
  listTunes,
  MAX_SCORE_BYTES,
  openScore,
  type Bar,
  type HarpPart,
  type Note,
  type PartSummary,
  type Problem,
  problemMessage,
  type Remark,
  type RemarkCode,
  type Rest,
  type Result,
  type Score,
  type TuneSummary,
  // Planning, once or at every change.
  createReplanner,
  DEFAULT_LEVER_OPTIONS,
  DEFAULT_PLAN_OPTIONS,
  type HarpOptions,
  type HarpPlan,
  keepAsPlanned,
  type LeverMove,
  type LeverOptions,
  type LeverPlan,
  type LeverSummary,
  type Move,
  type Plan,
  type PlannedStretch,
  type PlanOptions,
  type PlanSummary,
  planLevers,
  planPart,
  planPedals,
  // What is found, and what would mend it.
  type Difficulty,
  type Finding,
  type FindingCode,
  type FindingPlace,
  GRADES,
  type Grade,
  listFixes,
  type NoteFix,
  type OfferedFix,
  type PartFixes,
  type PlaceFixes,
  SEVERITIES,
  type Severity,
  type TempoCourse,
  // Proofreading the markings of a file.
  type LeverProof,
  type Proof,
  type ProofFinding,
  proofreadLevers,
  proofreadScore,
  // Two players, and other keys.
  compareHarps,
  DEFAULT_COMPARE_OPTIONS,
  type DividedPart,
  dividePart,
  type HarpComparison,
  // Settings, and what they hold.
  describeSetting,
  findGlissandi,
  findShortestWay,
  type GlissandoSettings,
  listHeldSounds,
  readWantedSound,
  searchSettings,
  type SettingContents,
  type SettingSearch,
  type SettingWay,
  // Harps, pedals and strings.
  CONCERT_HARP,
  type Foot,
  footOf,
  formatChange,
  formatSetting,
  type HarpName,
  type HarpProfile,
  type HarpString,
  HARPS,
  LEVER_HARP,
  nameLever,
  nameString,
  type OpenTuning,
  parseSetting,
  type Position,
  type Setting,
  // Pitches, exact fractions, beats and clock time.
  add,
  beatAt,
  buildClock,
  compare,
  formatBeat,
  LETTERS,
  type Letter,
  type Pitch,
  pitchName,
  type Rational,
  rational,
  subtract,
  toNumber,
} from './index.ts';
