/**
 * The engine: reads a harp part, plans its pedals or levers, proofreads its markings, finds settings for glissandi. Pure
 * computation, the same in Node and in a browser: no files, no network, no globals. What input can get wrong is a
 * `Result` with a `Problem`; anything thrown is a bug. Score times are exact fractions of a quarter note (`Rational`),
 * clock times are seconds. Our other floors import this file and nothing deeper; other programs have `library.ts`.
 *
 * @example
 * const opened = openScore(bytes);
 * if (!opened.ok) throw new Error(problemMessage(opened.problem));
 * const plan = planPedals(opened.value);
 * console.log(formatSetting(plan.initial), plan.moves.length);
 */

// Opening a score: bytes to a harp part, or a problem that says why not.
export { MAX_SCORE_BYTES, openScore } from './score/open.ts';
export { type OpenFileOptions, openScoreFile } from './score/open-file.ts';
export { cutTunes } from './score/abc/book/cut-tunes.ts';
export { listTunes } from './score/abc/book/list-tunes.ts';
export { pickTunes } from './score/abc/book/tune-book.ts';
export type { TuneFormat } from './score/abc/convert-tune.ts';
export type { Bar, Jump } from './score/model/bar.ts';
export type { Rest } from './score/model/between-notes.ts';
export type { SourceMarking } from './score/model/markings.ts';
export type { Note } from './score/model/note.ts';
export { notesById } from './score/notes-by-id.ts';
export { REMARK_KINDS, type Remark, type RemarkCode, remarkIn, remarkOnAll } from './score/model/remark.ts';
export type { HarpLabel, HarpPart, Score, Titles } from './score/model/score.ts';
export type { ScoreFormat, TextEncoding } from './score/model/source.ts';
export type { TempoNotice, TempoUnit } from './score/model/tempo.ts';
export type { Landmark, ScoreText } from './score/model/texts.ts';
export { readMusicFont } from './score/texts/music-fonts.ts';
export { encodeText } from './score/file/decode.ts';
export { checkDrawingLimits } from './score/drawing-limits.ts';
export {
  fail,
  ok,
  type PartSummary,
  type Problem,
  problemMessage,
  type Result,
  type TuneSummary,
} from './problem.ts';

// Several harps of one score.
export { type JoinedHarps, joinHarps } from './score/join-harps.ts';

// Planning the pedals, once or again at every change of a decision.
export { planPedals } from './pedals/plan.ts';
export { createReplanner } from './pedals/replan.ts';
export { keepAsPlanned, type PlannedStretch } from './pedals/keep-planned.ts';
export { comesFirst } from './pedals/offers/fix-weights.ts';
export { type FixList, fixLists } from './pedals/offers/fix-lists.ts';
export { NOTHING_HEARD } from './pedals/offers/describe-offer.ts';
export { listFixes } from './pedals/offers/list-fixes.ts';
export {
  FIX_KINDS,
  type FixKind,
  type FreeSpelling,
  type OfferedFix,
  type PartFixes,
  type PassageFix,
  type PassageFixes,
  type PlaceFixes,
  type TempoCourse,
  type TempoLimit,
  type WarningLeft,
} from './pedals/offers/model.ts';
export { isAtAll } from './pedals/offers/passage-fixes.ts';
export {
  DEFAULT_PLAN_OPTIONS,
  decidedOptionsFor,
  pedalOptionsFor,
  type PlanOptions,
} from './pedals/options.ts';
export type {
  Move,
  Plan,
  PlanSummary,
  SpellingSuggestion,
  StringTuning,
  SuggestedRun,
} from './pedals/model.ts';
export { PEDAL_CATALOGUE } from './pedals/catalogue.ts';
export { type PriceName, PRICES } from './pedals/weights.ts';
export {
  memoizeNeeds,
  type PreparedScore,
  prepareScore,
  type SpellingNeeds,
} from './pedals/pedal-problem.ts';
export { otherStrings, writtenString } from './sounding/needs.ts';
export type { Respelling } from './sounding/respelling.ts';
export { NATURAL_RING_SECONDS } from './sounding/string-times.ts';
export { isMadeAt, numberPasses, type OneTime, type PlayedOnce } from './score/bars/one-time.ts';
export { leadSecondsOf, type MoveWindow } from './time/window.ts';
export { drawbacksOf } from './pedals/drawbacks.ts';

// Planning the levers.
export { planLevers } from './levers/plan.ts';
export { DEFAULT_LEVER_OPTIONS, type LeverOptions, leverOptionsFor } from './levers/options.ts';
export { leversAfterBars } from './levers/play-changes.ts';
export type { LeverMove, LeverPlan, LeverSummary, ListedTuning } from './levers/model.ts';
export { LEVER_CATALOGUE } from './levers/catalogue.ts';

// Either harp, and other keys.
export type { HarpFinding, HarpPlan } from './harp-plan.ts';
export { type HarpOptions, planPart } from './plan-part.ts';
export {
  compareHarps,
  comparingHarps,
  DEFAULT_COMPARE_OPTIONS,
  type HarpComparison,
} from './compare/compare.ts';
export type { Comparing, ComparisonStep } from './compare/comparison-steps.ts';
export type { InEitherWay } from './compare/both-ways.ts';
export { comparePedalKeys, comparingPedalKeys, type PedalKey, readMode } from './compare/pedal-keys.ts';
export { type KeyMode, nameKey } from './music/key-names.ts';
export { SHARING_CATALOGUE, type PlayerChoice } from './sharing/catalogue.ts';
export { takeDividedShare, takeShare } from './sharing/take-share.ts';
export {
  describeDivision,
  describeLeast,
  type SecondShare,
  takeShares,
} from './sharing/divided-shares.ts';
export { secondId, withSecondIds, withSecondIdsInPlan } from './sharing/second-ids.ts';
export { dividePart } from './sharing/divide/divide-part.ts';
export type { DividedPart } from './sharing/divide/planned-shares.ts';
export type { DivisionAim } from './sharing/divide/division-weights.ts';
export { COMPARE_CATALOGUE } from './compare/catalogue.ts';

// Tune books and sets of tunes.
export { rateTune, type TuneRating } from './sets/rate-tune.ts';
export {
  MOST_TUNES_IN_SET,
  orderSet,
  type SetOrder,
  tunesTogether,
} from './sets/set-order.ts';
export {
  leversOfTune,
  leversBefore,
  leversToSet,
  type TuneLevers,
} from './sets/tune-levers.ts';
export { nameBreak, nameSetTotal, nameTogether } from './sets/set-words.ts';
export {
  cellsOfTune,
  chooseTunes,
  TUNE_COLUMNS,
  TUNE_SORTS,
  type TuneFilter,
  type TuneLine,
  type TuneSort,
} from './sets/tune-table.ts';

// What can be found, and how to fix it.
export {
  type Finding,
  type FindingPlace,
  firstFixes,
  type NoteFix,
  suggestionsOf,
  type PedalFinding,
} from './findings/model.ts';
export { afterSentence, type OrnamentNote } from './findings/ornament-notes.ts';
export { SEVERITIES, type Severity, SEVERITY_WORDS } from './findings/severity.ts';
export {
  type FactsOf,
  type SentencesOf,
  type ToldPlace,
  type FindingCode,
  type PassageCode,
  type PlanFindingCode,
  type ProofFindingCode,
  FINDINGS,
  LEVER_FINDING_CODES,
  PASSAGE_SENTENCES,
  type PassageSentences,
  PEDAL_FINDING_CODES,
  PROOF_FINDING_CODES,
} from './findings/catalogue.ts';
export type { TextPlace } from './findings/catalogue/entry.ts';
export { FINGERS } from './findings/hands/hand-limits.ts';
export {
  HELP_SENTENCES,
  type Help,
  type HelpFacts,
  type HelpKind,
  type ToldHelp,
} from './findings/help/help.ts';
export { isHigher } from './findings/help/string-help.ts';
export type { ChangedNotes, NoteOfTwo } from './findings/help/note-help.ts';
export { orderForPeople } from './findings/order-findings.ts';
export { type Extent, extentOf, nameExtent } from './findings/extent.ts';
export { type FindingRow, listFindingRows } from './findings/finding-table.ts';

// How hard a part is.
export { hardestFirst } from './difficulty/hardest-first.ts';
export { recountChanges } from './difficulty/recount.ts';
export {
  type Cause,
  type GradedMeasure,
  type Difficulty,
  type FailingBars,
  type Grade,
  GRADES,
  type Measures,
  type PassageDifficulty,
} from './difficulty/model.ts';
export {
  closestChanges,
  describeEasy,
  frequencyOf,
  describeShare,
  describeUnplayable,
  describeVerdict,
  GRADE_WORDS,
  listVerdict,
  REASONS,
  type VerdictClause,
} from './difficulty/words.ts';

// What a user decides about a part.
export { parsePitch } from './decisions/pitch-text.ts';
export {
  BEAT_TEXT,
  DECISION_LIMITS,
  DECISION_LISTS,
  type DecisionList,
  type DecisionPin,
  type Decisions,
  harpOfPin,
  hasNoDecisions,
  type LeverDecisionPin,
  NO_DECISIONS,
  type NotesAt,
  type PedalDecisionPin,
  type Place,
  type DelayDecision,
  type TempoDecision,
} from './decisions/model.ts';
export { type FollowedBars, followBars } from './decisions/follow-bars.ts';
export {
  type FollowedDecisions,
  describeFollowed,
  followDecisions,
} from './decisions/follow-decisions.ts';
export { checkDecisions } from './decisions/check-decisions.ts';
export { type ChosenDecisions, chooseDecisions, decisionsOnShare } from './decisions/choose-decisions.ts';
export { placeDecisions, type PlacedCue, type PlacedFullSetting } from './decisions/place-decisions.ts';
export {
  type DecisionAddress,
  type UnplacedDecision,
  withoutUnplaced,
} from './decisions/unplaced-decisions.ts';
export { namePlace, readFraction } from './decisions/places.ts';
export { callNotes, nameNotes } from './decisions/notes-at.ts';
export { decisionsOfFix } from './pedals/offers/fix-decisions.ts';
export { readSavedDecisions } from './decisions/read-saved-decisions.ts';
export { decisionsInstruction } from './decisions/save-decisions.ts';

// Proofreading the markings of a file.
export { proofreadScore } from './proof/proof.ts';
export { proofreadLevers } from './proof/levers/proofread-levers.ts';
export type {
  LeverEdit,
  LeverFix,
  LeverProof,
  LeverProofFinding,
  WrittenLeverFix,
} from './proof/levers/model.ts';
export {
  describeLeverFixes,
  ENGLISH_LEVER_FIXES,
  type LeverFixSentences,
} from './proof/levers/describe-lever-fixes.ts';
export { type LeverAt, nameLever } from './harp/lever-name.ts';
export { ADVICE_SENTENCES, type Advice, type AdviceFacts, type AdviceKind } from './proof/advice.ts';
export type { FixPlace, MarkingEdit, MarkingFix, Proof, ProofFinding, Repair } from './proof/model.ts';
export type { RingingFacts } from './findings/catalogue/strings.ts';
export { countPlaces, stopPlaces } from './findings/count-places.ts';
export {
  nameHeardString,
  type NoteNames,
  type PedalAt,
  type SpelledNote,
  type WrittenName,
} from './findings/note-names.ts';
export { fixesOf, withDependencies } from './proof/choose-edits.ts';
export { judgeAttempt } from './attempt/judge-attempt.ts';
export { judgeLeverAttempt } from './attempt/judge-lever-attempt.ts';
export { countVerdicts } from './attempt/points.ts';
export {
  type Correction,
  type JudgedAttempt,
  type JudgedChange,
  type Needless,
  type Points,
  type Stated,
  type StatedPedal,
  type UnreadMarking,
  VERDICT_WORDS,
  VERDICTS,
  type Verdict,
  type WrongSound,
} from './attempt/model.ts';
export {
  describeFixes,
  ENGLISH_FIXES,
  type FixNames,
  type FixSentences,
  type FixWords,
} from './proof/describe-fixes.ts';

// Settings for a glissando.
export { findGlissandi, type GlissandoSetting, type GlissandoSettings } from './glissando/settings.ts';
export {
  chromaOfNote,
  readWantedSound,
  readWantedSounds,
  ROOTS,
  splitRoot,
  type WantedSound,
  type WantedSounds,
} from './glissando/wanted-sound.ts';
export { SOUND_NAMES } from './glissando/sound-names.ts';

// From settings to music: what a setting holds, what one move makes of it, and the way to another.
export {
  describeSetting,
  type NeighbourSetting,
  type SettingContents,
} from './settings/describe-setting.ts';
export { type HeldSound, listHeldSounds } from './settings/held-sounds.ts';
export {
  findShortestWay,
  measureWay,
  type SettingWay,
  type WayLength,
  type WayMove,
  type WayStep,
} from './settings/shortest-way.ts';
export { type FoundSetting, type SettingSearch, searchSettings } from './settings/search-settings.ts';
export { type PedalCourse, settingAtQuarters } from './settings/setting-at.ts';

// Harps, strings, pedals and settings.
export { ALL_SETTINGS, isCrossed, pitchClassOf, type SettingSound } from './harp/setting-sound.ts';
export {
  HARP_NAMES,
  type HarpKind,
  harpLabel,
  type HarpName,
  type HarpProfile,
  HARPS,
} from './harp/harps.ts';
export { type HarpString, isFixedString, type PedalHarpProfile } from './harp/profile.ts';
export { CONCERT_HARP } from './harp/profiles/concert-harp.ts';
export type { LeverPin, LeverPosition } from './harp/lever-pin.ts';
export type { LeverHarpProfile } from './harp/lever-profile.ts';
export { LEVER_HARP } from './harp/profiles/lever-harp-34.ts';
export { type KeyLevers, leversForKey } from './levers/tuning/key-table.ts';
export { type KeyPedals, pedalsForKey } from './harp/key-pedals.ts';
export { listStrings, stringsWithLevers } from './harp/levered-strings.ts';
export { listRetunedStrings, type RetunedLetter } from './harp/retuned-strings.ts';
export { checkProfile } from './harp/check-profile.ts';
export { readLeverSigns } from './score/lever-signs.ts';
export { chooseProfile, type ProfileChoice } from './score/choose-profile.ts';
export {
  FEET,
  type Foot,
  footOf,
  formatChange,
  formatSetting,
  isSetting,
  nameOfPosition,
  parseSetting,
  isPosition,
  type Position,
  POSITION_NAMES,
  type PositionName,
  positionNamed,
  POSITIONS,
  type Setting,
} from './harp/setting.ts';
export {
  E_FLAT_TUNING,
  openAlter,
  type OpenTuning,
  tuningName,
} from './harp/open-tuning.ts';
export {
  describeStringRetuning,
  nameString,
  parseScordatura,
  type RetunedString,
  readString,
  stringsOutOfRange,
} from './harp/scordatura.ts';

// Options as plain data.
export {
  amount,
  type Amount,
  amountOrNever,
  type AmountOrNever,
  type Catalogue,
  type Choice,
  type Concerned,
  entry,
  type GivenOf,
  group,
  type Group,
  type Member,
  namedOrOwn,
  type NamedOrOwn,
  oneOf,
  text,
  type Option,
  type Text,
  type Values,
  yesOrNo,
} from './options/describe-option.ts';
export { OPTION_GROUPS, type OptionGroup } from './options/groups.ts';
export { formatAmount, type Unit, unitName } from './options/units.ts';
export { type ListedOption, listOptions } from './options/list-options.ts';
export { completeChoice, concerns, defaultOf, pickChoice } from './options/choose.ts';

// What sounds when, for hearing and watching.
export { buildPlayback } from './performance/build-playback.ts';
export type { Playback } from './performance/playback.ts';
export {
  type LeverCourse,
  type LeverPerformance,
  lastPlayedChange,
  leversUpAt,
  type PlayedChange,
  performLevers,
} from './performance/perform-levers.ts';
export {
  beatsAt,
  lastMoveAt,
  noteheadsSoundingAt,
  type PartPerformance,
  type Performance,
  performPart,
  placeAt,
  type PlayedMove,
  type PlayedPluck,
  secondsAtBeat,
  secondsAtPosition,
  settingAt,
  soundsOf,
} from './performance/perform-part.ts';
export { countIn, type PulseStroke, pulseOf } from './performance/pulse.ts';

// Pitches, exact fractions, beats and clock time.
export {
  isLetter,
  type Letter,
  letterAtStep,
  LETTERS,
  LETTERS_FROM_C,
  midiOf,
  type Pitch,
  pitchName,
  spelledName,
  STEP_OF_LETTER,
  stepOf,
} from './music/pitch.ts';
export { accidentalSign } from './music/accidental.ts';
export { type Mode, MODES, notesOfKey } from './music/keys.ts';
export {
  add,
  compare,
  equals,
  divide,
  multiply,
  type Rational,
  rational,
  rationalKey,
  subtract,
  toNumber,
  ZERO,
} from './music/rational.ts';
export { formatBeat, formatBeatText, tellBeat } from './words/format-beat.ts';
export { type BySide, type Side, SIDES } from './harp/side.ts';
export type { NoteChange, Omitted, Respelled } from './sounding/changed-needs.ts';
export { nameOrdinal } from './words/ordinal.ts';
export { joinTitles, namePiece } from './words/piece-name.ts';
export {
  nameBarIn,
  nameBarOrCount,
  namedMovements,
  nameEndsIn,
  listRunsIn,
  nameSpanIn,
  openingNumerals,
  writeNumeral,
} from './words/bar-names.ts';
export { listBars, nameBars, namePlaceInBar } from './words/bars.ts';
export { tellBySides } from './harp/by-sides.ts';
export { capitalize, nameCount, openWithCount, uncapitalize } from './words/counts.ts';
export { isNoTime, nameMovesInTime } from './words/seconds.ts';
export { listChoices, listFirst, listNames } from './words/lists.ts';
export {
  describeGains,
  describePlayable,
  nameLeversUp,
  BOTH_HARPS_HEADING,
  NO_BETTER_KEY,
  nameKeyTried,
  PEDAL_KEYS_HEADING,
  PEDAL_KEYS_ORDER,
  nameNotesIn,
  nameRun,
  OWN_SCALE,
  SEARCH_ENDED,
  tabulateTunings,
  forSomePlaces,
  tellCosts,
  tellFixedBefore,
  tellFreeSpelling,
  tellHeard,
  tellMended,
  tellPlayableUpTo,
  tellWarningsLeft,
  warningsBeside,
  TUNINGS_UNTRIED,
} from './words/plan-words.ts';
export { buildClock } from './score/bars/clock.ts';
export { isOwnElement, OWN_PREFIX } from './score/own-marks.ts';
export { DELAYED, type Delays, type DelayWords, delayNotes, tellDelays } from './score/delay-notes.ts';
export { NO_FASTER, type SlowPassage, slowDown, tempoFigure } from './score/slow-down.ts';
export { isPlace, listMoments } from './time/moments.ts';
export { isInPause, pausesBefore } from './time/pauses.ts';
export { beatAt, beatLength, beatOffset } from './score/bars/beats.ts';
export {
  continuedBars,
  countBars,
  type CountedBar,
  countFinder,
  isShortBar,
  tempoUnit,
  tempoUnitFinder,
} from './score/bars/counts.ts';
export { headsOfTies } from './sounding/ties.ts';
export { buildTimeline } from './time/part-timeline.ts';
export { hasRested } from './time/rested.ts';
export { barsOfRest, placeAsTold, toldAtIn } from './time/told-at.ts';

// The source text: documents as elements that know their place, and archives.
export { unpackScore } from './score/file/container.ts';
export { lazy } from './memoize.ts';
export { type NonEmpty, namesIn } from './non-empty.ts';
export { decodeEntities, escapeText } from './xml/entities.ts';
export { parseXml, XML_LIMITS } from './xml/parse-xml.ts';
export {
  childrenNamed,
  childText,
  descendantsNamed,
  firstChild,
  type Span,
  type XmlElement,
} from './xml/tree.ts';
export {
  type ArchiveEntry,
  crc32,
  findEndRecord,
  isZip,
  isZip64,
  listEntries,
  unpackEntry,
} from './score/file/unzip.ts';
export { listParts, type Part } from './score/musicxml/parts.ts';
export { walkBar } from './score/musicxml/walk-bar.ts';
export { parseFifths } from './score/mei/notes/keys.ts';
export { wordsOf } from './score/mei/text.ts';
export { type BarAccidentals, startBar } from './score/bars/bar-accidentals.ts';
export { readPart } from './score/read-part.ts';
export { findCalled, readPartNames } from './score/part-names.ts';
export { asksToPrepare, quoteWords } from './score/words/pedal-words.ts';
export { type LeverName, readLeverWords } from './score/words/lever-words.ts';
export { findMarkingNames, nameChangeIn } from './score/words/marking-names.ts';
