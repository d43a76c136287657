import type { LastMoved } from '../../findings/catalogue/pedals.ts';
import type { PedalFindingCode } from '../../findings/catalogue.ts';
import { describeFinding, type FindingContext } from '../../findings/describe-finding.ts';
import { draftGuessedGlissandi } from '../../findings/guessed-glissandi.ts';
import type { HandPart, handFindings } from '../../findings/hands/hand-findings.ts';
import { type Help, help } from '../../findings/help/help.ts';
import type { EndedEarlier } from '../../findings/help/playing-help.ts';
import { hurriedPassages } from '../../findings/hurried-passages.ts';
import { joinFindings } from '../../findings/join-findings.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { pedalAt, type SpelledNote } from '../../findings/note-names.ts';
import { orderByPlace } from '../../findings/order-findings.ts';
import { ornamentNotesOf } from '../../findings/ornament-notes.ts';
import { sharedPartFindings } from '../../findings/shared-part.ts';
import { memoize, perObject } from '../../memoize.ts';
import { LETTERS, type Pitch } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import { mapNonEmpty, type NonEmpty } from '../../non-empty.ts';
import type { Score } from '../../score/model/score.ts';
import { type Need, type NeedList, writtenString } from '../../sounding/needs.ts';
import { createRivalSearch } from '../../sounding/rival-needs.ts';
import type { Moments } from '../../time/moments.ts';
import { nameBarIn } from '../../words/bar-names.ts';
import type { SolvedMove } from '../course/foot.ts';
import type { FixedStringTunings } from '../fixed-strings.ts';
import type { agreeOnFixes } from '../fixes/agreeing-fixes.ts';
import type { OpenFinding } from '../fixes/fix-promises.ts';
import type { PlannedPart } from '../fixes/fix-trials.ts';
import { type findNoteFixes, NO_FIXES, needsAroundMove, type TroubledPlace } from '../fixes/note-fixes.ts';
import { aboutMove, changeOf } from './about-moves.ts';
import { bentStrings } from './bent-strings.ts';
import { HURRY_OF_FEET, movesOfFeet } from './hurried-feet.ts';
import { pinFindings } from './pin-findings.ts';
import { scordaturaFindings, withoutRetunedStrings } from './scordatura-findings.ts';
import { stringFindings } from './string-findings.ts';

/** What the planner knows when it tells its findings. */
export interface PlanFacts extends PlannedPart {
  readonly fixed: FixedStringTunings;
  /** How fixes and the findings about the hands are found, and which of the fixes are offered. */
  readonly findNoteFixes: typeof findNoteFixes;
  readonly agreeOnFixes: typeof agreeOnFixes;
  readonly handFindings: typeof handFindings;
}

/** Everything the player, engraver or composer should know, in order of place. */
export const listPlanFindings = (facts: PlanFacts): PedalFinding[] => {
  const told = joinFindings<PedalFindingCode>(
    facts.agreeOnFixes([...clashFindings(facts), ...moveFindings(facts), ...otherFindings(facts)], facts),
  );
  const { prepared, solution } = facts;
  const moves = movesOfFeet(prepared, solution.moves);
  return orderByPlace([...told, ...hurriedPassages(prepared.score, moves, told, HURRY_OF_FEET)]);
};

/** Those whose fixes need no search. */
const otherFindings = (facts: PlanFacts): OpenFinding[] =>
  [
    ...sharedPartFindings(facts.prepared.score),
    ...stringFindings(facts.prepared, facts.problem.listed, facts.fixed),
    ...sweepFindings(facts),
    ...pinFindings(facts.prepared, facts.problem, facts.solution),
    ...facts.handFindings(handPart(facts), timeOf(facts)),
    ...markingFindings(facts),
    ...keyFindings(facts),
    ...scordaturaFindings(facts.prepared, facts.problem.listed),
  ].map((finding) => settled(withoutRetunedStrings(finding, facts.prepared.options.scordatura)));

const settled = (finding: PedalFinding): OpenFinding => ({ finding, place: null, fixes: NO_FIXES });

/** What the hands play: the strings that the plan chose, without the notes left out. */
const handPart = ({ prepared: { score, options }, problem }: PlanFacts): HandPart => ({
  score,
  played: new Map(problem.listed.respellings.map(({ note, to }) => [note, to])),
  omitted: options.omitted,
});

/** Nothing but what the hands go by, so that other choices leave it alike. */
const timeOf = ({ prepared: { moments, secondsAt } }: PlanFacts) => ({ moments, secondsAt });

const clashFindings = (facts: PlanFacts): OpenFinding[] => {
  const { prepared, problem, solution } = facts;
  const clashOf = clashesOf(problem.listed)(prepared.score, prepared.moments);
  return solution.unmet.map((need) => {
    const { finding, place } = clashOf(need);
    return { finding, place, fixes: facts.findNoteFixes(facts, place) };
  });
};

/** How needs are told that are not met; the same need is told by the same objects again. */
const clashesOf = perObject(({ needs }: NeedList) =>
  memoize(
    (score: Score, moments: Moments) => {
      const rivalOf = createRivalSearch(needs, moments);
      const told = new Map<Need, ReturnType<typeof tellClash>>();
      return (need: Need) => {
        const known = told.get(need) ?? tellClash(score, moments, need, rivalOf(need));
        told.set(need, known);
        return known;
      };
    },
    ([scoreA, momentsA], [scoreB, momentsB]) => scoreA === scoreB && momentsA === momentsB,
  ),
);

const tellClash = (
  score: Score,
  moments: Moments,
  need: Need,
  rival: Need | undefined,
): Pick<OpenFinding, 'finding'> & { readonly place: TroubledPlace } => {
  const about: NonEmpty<Need> = rival === undefined ? [need] : [need, rival];
  const place: TroubledPlace = {
    trouble: { kind: 'unmet', notes: about.map(({ note }) => note.id) },
    about,
    moment: moments.ofNote(need.startNote),
  };
  const context: FindingContext = {
    notes: mapNonEmpty(about, ({ note }) => note),
    help: [...endEarlier(need, rival), help('second-harp', {})],
  };
  const ofOrnaments = ornamentNotesOf(about.map((each) => ({ ...each, pitch: pitchOf(each) })));
  const finding =
    rival?.octave === need.octave
      ? describeFinding(
          score,
          'string-in-two-pitches',
          { string: { letter: need.letter, octave: need.octave }, rivals: about.map(pedalAt), ofOrnaments },
          context,
        )
      : describeFinding(
          score,
          'pedal-in-two-positions',
          { change: pedalAt(need), rival: rival === undefined ? null : pedalAt(rival), ofOrnaments },
          context,
        );
  return { finding, place };
};

/** What a need asks a string for. */
const pitchOf = ({ letter, octave, position }: Need): Pitch => ({ letter, octave, alter: position });

/** What is plucked again and again from earlier on, and still is when the other note comes, may end before it. */
const endEarlier = (need: Need, rival: Need | undefined): readonly Help[] => {
  if (rival === undefined || compare(need.onset, rival.onset) === 0) return [];
  const [earlier, later] = compare(need.onset, rival.onset) < 0 ? [need, rival] : [rival, need];
  const what = nameRepeated(earlier);
  if (what === null || compare(earlier.heldUntil, later.onset) <= 0) return [];
  return [help('end-earlier', { what, on: writtenString(earlier.note), before: writtenString(later.note) })];
};

const nameRepeated = ({ note: { tremolo, ornament }, kind }: Need): EndedEarlier | null => {
  if (tremolo !== null) return 'tremolo';
  if (kind === 'swept') return 'glissando';
  if (ornament === null) return null;
  return ornament.kind === 'trill' ? 'trill' : 'ornament';
};

const moveFindings = (facts: PlanFacts): OpenFinding[] =>
  facts.solution.moves.flatMap((move) => [
    ...footFindings(facts, move),
    ...bendingFindings(facts, move),
    ...restoringFindings(facts, move).map(settled),
  ]);

const bendingFindings = (facts: PlanFacts, move: SolvedMove): OpenFinding[] =>
  bentStrings(facts, move).map(({ finding, place }) => ({
    finding,
    place,
    fixes: place === null ? NO_FIXES : facts.findNoteFixes(facts, place),
  }));

const footFindings = (facts: PlanFacts, move: SolvedMove): OpenFinding[] => {
  const { score } = facts.prepared;
  const { foot, manner } = move;
  if (manner === 'alone') return [];
  const change = changeOf(move);
  const place: TroubledPlace | null =
    move.before === null
      ? null
      : {
          trouble: { kind: 'no-time', note: move.before.note.id },
          about: needsAroundMove(facts.solution, move, facts.problem.context),
          moment: move.moment,
        };
  const fixes = place === null ? NO_FIXES : facts.findNoteFixes(facts, place);
  const contextWith = (advice: Help): FindingContext => ({ ...aboutMove(facts, move), help: [advice] });
  const open = (finding: PedalFinding): OpenFinding[] => [{ finding, place, fixes }];
  switch (manner) {
    case 'too-soon': {
      const advice = help('more-time-or-second-harp', {});
      const last = pedalBefore(facts, move);
      return open(describeFinding(score, 'foot-too-busy', { foot, change, last }, contextWith(advice)));
    }
    case 'together':
      return open(
        describeFinding(score, 'pedals-together', { foot, change }, contextWith(help('more-time', {}))),
      );
    case 'crossed':
      return open(
        describeFinding(score, 'foot-crossed', { foot, change }, contextWith(help('more-time', {}))),
      );
  }
};

/** What the foot moved last, in printed order. */
const pedalBefore = ({ solution }: PlanFacts, move: SolvedMove): LastMoved => {
  const ofFoot = solution.moves.filter(({ foot }) => foot === move.foot);
  if (ofFoot.some((other) => other !== move && other.moment === move.moment)) return 'together';
  const last = ofFoot.findLast(({ moment }) => moment < move.moment);
  return last?.letter === move.letter ? 'the same' : 'another';
};

const restoringFindings = (facts: PlanFacts, move: SolvedMove): PedalFinding[] =>
  move.restores
    ? [
        describeFinding(
          facts.prepared.score,
          'repeat-restored',
          { change: changeOf(move), elsewhere: { letter: move.letter, position: move.from } },
          aboutMove(facts, move),
        ),
      ]
    : [];

const sweepFindings = ({ prepared: { score, sweeps, options } }: PlanFacts): PedalFinding[] =>
  draftGuessedGlissandi(score, sweeps, options.omitted, 'setting');

/** The tonic of the major key in flats that sounds as the key signature of so many sharps. */
const FLAT_TWIN: Readonly<Record<number, SpelledNote>> = {
  5: { letter: 'C', alter: -1 },
  6: { letter: 'G', alter: -1 },
  7: { letter: 'D', alter: -1 },
};

/** Pedals up leave the strings longest: flat keys ring fuller (H. Berlioz, *Traité d'instrumentation*, La Harpe: B major as C flat major). */
const keyFindings = ({ prepared: { score } }: PlanFacts): PedalFinding[] =>
  score.bars.flatMap((bar, i) => {
    const twin = FLAT_TWIN[bar.keyFifths];
    if (twin === undefined || (i > 0 && score.bars[i - 1]!.keyFifths === bar.keyFifths)) return [];
    return [
      describeFinding(
        score,
        'flat-key-rings-fuller',
        { sharps: bar.keyFifths, twin },
        {
          place: { bar: bar.index, at: bar.onset },
          help: [help('write-in-key', { tonic: twin })],
        },
      ),
    ];
  });

/** Markings in the file that the next note of their letter contradicts. */
const markingFindings = ({ prepared: { score }, problem }: PlanFacts): PedalFinding[] =>
  score.markings.flatMap((marking, i) =>
    LETTERS.flatMap((letter) => {
      const stated = marking.positions[letter];
      if (stated === undefined) return [];
      const following = score.markings.slice(i + 1).find((each) => each.positions[letter] !== undefined);
      const next = problem.needs.get(letter)!.find(({ need }) => compare(need.onset, marking.at) >= 0)?.need;
      if (next === undefined || next.position === stated) return [];
      if (following !== undefined && compare(following.at, next.onset) <= 0) return [];
      return [
        describeFinding(
          score,
          'marking-contradicts-notes',
          {
            marked: { letter, position: stated },
            needed: pedalAt(next),
            bar: nameBarIn(score)(next.note.bar),
          },
          {
            notes: [next.note],
            place: { bar: marking.bar, at: marking.at },
            help: [help('change-marking', { needed: pedalAt(next) })],
          },
        ),
      ];
    }),
  );
