import { formatChange, formatSetting, type Position } from '../harp/setting.ts';
import { LETTERS, type Letter, pitchName } from '../music/pitch.ts';
import { compare, equals, type Rational } from '../music/rational.ts';
import type { Severity } from '../plan/model.ts';
import { beatAt } from '../plan/moments.ts';
import { type Need, otherStrings } from '../plan/needs.ts';
import type { Score } from '../score/model.ts';
import { describePlace, type Mender } from './mending.ts';
import type { Mend, ProofCode, ProofFinding } from './model.ts';
import type { Failure, PedalTask, Performance } from './play.ts';

/** What the findings of a proof are told from. */
export interface ProofFacts {
  readonly score: Score;
  readonly performance: Performance;
  /** Changes that come too late for their foot. */
  readonly late: readonly { readonly task: PedalTask; readonly lateSeconds: number }[];
  readonly mender: Mender;
}

/** All findings in order of place. */
export const listProofFindings = (facts: ProofFacts): ProofFinding[] =>
  [
    ...unstatedFindings(facts),
    ...facts.performance.failures.map((failure) => failureFinding(failure, facts)),
    ...lateFindings(facts),
    ...contradictions(facts),
    ...needlessFindings(facts),
    ...sweepFindings(facts),
  ].sort((a, b) => a.bar - b.bar || compare(a.beat, b.beat));

interface Told {
  readonly code: ProofCode;
  readonly severity: Severity;
  readonly needs?: readonly Need[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  readonly sentence: string;
  readonly mend: Mend | null;
  readonly also?: string | null;
}

export const tellProof = (score: Score, told: Told): ProofFinding => {
  const { code, severity, needs = [], sentence, mend, also = null } = told;
  const first = needs[0]?.note;
  const bar = score.bars[told.place?.bar ?? first?.bar ?? 0]!;
  const mending = mend === null ? [] : [describeMend(score, mend)];
  return {
    code,
    severity,
    bar: bar.index,
    barNumber: bar.number,
    beat: beatAt(bar, told.place?.at ?? first?.onset ?? bar.onset),
    staff: first?.staff ?? null,
    notes: [...new Set(needs.map((need) => need.note.id))],
    sentence,
    suggestions: also === null ? mending : [...mending, also],
    mend,
  };
};

const describeMend = (score: Score, mend: Mend): string => {
  switch (mend.kind) {
    case 'add':
      return `Add ${formatChange(mend.letter, mend.position)} at ${describePlace(score, mend)}.`;
    case 'add-setting':
      return `Print the full setting ${formatSetting(mend.setting)} at ${describePlace(score, mend)}.`;
    case 'alter':
      return `Print ${formatChange(mend.letter, mend.position)} in the marking at ${placeOfMarking(score, mend.marking)}.`;
    case 'move':
      return `Print the change of the ${mend.letter} pedal at ${describePlace(score, mend)} instead of ${placeOfMarking(score, mend.marking)}.`;
    case 'remove':
      return `Leave the ${mend.letter} out of the marking at ${placeOfMarking(score, mend.marking)}.`;
  }
};

const placeOfMarking = (score: Score, index: number): string => {
  const { bar, at } = score.markings[index]!;
  return describePlace(score, { bar, at, beat: beatAt(score.bars[bar]!, at) });
};

const unstatedFindings = ({ score, performance, mender }: ProofFacts): ProofFinding[] => {
  const { unstated } = performance;
  const [first] = unstated;
  if (first === undefined) return [];
  const letters = LETTERS.filter((letter) => unstated.some((need) => need.letter === letter));
  const pedals = letters.length === 1 ? `${letters[0]} pedal stands` : `pedals ${letters.join(' ')} stand`;
  return [
    tellProof(score, {
      code: 'notes-before-marking',
      severity: 'warn',
      needs: unstated,
      sentence: `No marking before says where the ${pedals} from here on.`,
      mend: mender.mendStart(),
    }),
  ];
};

const failureFinding = (failure: Failure, facts: ProofFacts): ProofFinding => {
  const { score, performance, mender } = facts;
  const { letter, wanted, needs, stands, marking, landedIn, whileHeld } = failure;
  const [need] = needs as readonly [Need, ...Need[]];
  const name = `${pitchName(need.note.pitch)}${need.kind === 'implied' ? ' (its ornament)' : ''}`;
  const stood = `${formatChange(letter, stands)} by the marking at ${placeOfMarking(score, marking)}`;
  const asked = `asks for ${formatChange(letter, wanted)}`;
  const also = adviceFor(need, wanted, mender);
  const mend = mender.mendFailure(failure);
  if (whileHeld) {
    const place = { bar: score.markings[marking]!.bar, at: score.markings[marking]!.at };
    const sentence = `${formatChange(letter, stands)} is marked while ${name}, which ${asked}, still goes on.`;
    return tellProof(score, {
      code: 'note-not-served',
      severity: 'stop',
      needs,
      place,
      sentence,
      mend,
      also,
    });
  }
  const isLanding = landedIn !== null && performance.wasServed(need);
  const landing = landedIn === null ? '' : (score.bars[landedIn]?.number ?? '');
  const sentence = isLanding
    ? `When the music comes back to bar ${landing}, ${name} ${asked}, but the pedal stands at ${stood}.`
    : `${name} ${asked}${passesOf(failure, score)}, but the pedal stands at ${stood}.`;
  const code = isLanding ? 'repeat-lands-wrong' : 'note-not-served';
  return tellProof(score, { code, severity: 'stop', needs, sentence, mend, also });
};

/** Which passes, where the bar is played more than once. */
const passesOf = ({ needs, passes }: Failure, score: Score): string => {
  const { bar } = needs[0]!.note;
  const played = score.playOrder.filter((each) => each === bar).length;
  if (played < 2 || passes.length === played) return '';
  return ` on pass ${passes.join(' and ')}`;
};

const adviceFor = (need: Need, wanted: Position, mender: Mender): string | null => {
  const rival = mender.rivalOf(need);
  if (rival === undefined) return null;
  const other = otherStrings({ letter: need.letter, octave: need.octave, alter: wanted })[0];
  const against = formatChange(rival.letter, rival.position);
  const way = other === undefined ? 'leave it out' : `play it as ${pitchName(other)}`;
  return `No marking can serve it beside ${against} at the same time: ${way}, or give it to a second harp.`;
};

const lateFindings = ({ score, late, mender }: ProofFacts): ProofFinding[] => {
  const seen = new Set<string>();
  return late.flatMap(({ task, lateSeconds }) => {
    const { marking, letter, foot, to, before } = task;
    const key = `${marking} ${letter}`;
    if (seen.has(key)) return [];
    seen.add(key);
    const { bar, at } = score.markings[marking]!;
    return [
      tellProof(score, {
        code: 'change-too-quick',
        severity: 'stop',
        needs: [before],
        place: { bar, at },
        sentence: `The ${foot} foot cannot make ${formatChange(letter, to)} in time for ${pitchName(before.note.pitch)} in bar ${score.bars[before.note.bar]!.number}: it lacks ${lateSeconds.toFixed(2)} s after its other change.`,
        mend: mender.mendLate(marking, letter, before),
        also: 'Or respell one of the notes, or take more time here.',
      }),
    ];
  });
};

/** Two markings at one moment that state one pedal differently; among grace notes both may be meant, one after the other. */
const contradictions = ({ score }: ProofFacts): ProofFinding[] => {
  const graceOnsets = score.notes.filter((note) => note.grace !== null).map((note) => note.onset);
  return score.markings.flatMap((marking, index) =>
    LETTERS.flatMap((letter) => {
      const stated = marking.positions[letter];
      const other = score.markings
        .slice(0, index)
        .findLast((each) => equals(each.at, marking.at) && each.positions[letter] !== undefined);
      const otherwise = other?.positions[letter];
      if (stated === undefined || otherwise === undefined || otherwise === stated) return [];
      if (graceOnsets.some((onset) => equals(onset, marking.at))) return [];
      return [
        tellProof(score, {
          code: 'markings-contradict',
          severity: 'stop',
          place: marking,
          sentence: `Two markings here ask for ${formatChange(letter, otherwise)} and ${formatChange(letter, stated)}.`,
          mend: { kind: 'remove', marking: index, letter },
        }),
      ];
    }),
  );
};

/** Changes that do nothing on any pass. A full setting may well repeat what stands: that is a help to the player. */
const needlessFindings = ({ score, performance }: ProofFacts): ProofFinding[] => {
  const blamed = new Set(performance.failures.map((failure) => `${failure.marking} ${failure.letter}`));
  const played = new Set(score.playOrder);
  return score.markings.flatMap((marking, index) => {
    const letters = LETTERS.filter((letter) => marking.positions[letter] !== undefined);
    if (letters.length === LETTERS.length || !played.has(marking.bar)) return [];
    return letters.flatMap((letter) => {
      const { changed, needed } = performance.effectOf(index, letter);
      if (needed > 0 || blamed.has(`${index} ${letter}`) || isRepeatedHere(score, index, letter)) return [];
      const change = formatChange(letter, marking.positions[letter]!);
      return [
        tellProof(score, {
          code: 'marking-needless',
          severity: 'note',
          place: marking,
          sentence:
            changed === 0
              ? `${change} is marked, but the pedal stands there already.`
              : `${change} is marked, but no note asks for it before the pedal moves again.`,
          mend: { kind: 'remove', marking: index, letter },
        }),
      ];
    });
  });
};

const isRepeatedHere = (score: Score, index: number, letter: Letter): boolean =>
  score.markings.some(
    (other, i) =>
      i !== index &&
      equals(other.at, score.markings[index]!.at) &&
      other.positions[letter] === score.markings[index]!.positions[letter],
  );

const sweepFindings = ({ score, performance }: ProofFacts): ProofFinding[] => {
  const bySweep = new Map<string, (readonly [Need, Position])[]>();
  for (const entry of performance.unlikeKey) {
    const { id } = entry[0].note;
    bySweep.set(id, [...(bySweep.get(id) ?? []), entry]);
  }
  return [...bySweep.values()].map((strings) => {
    const sounding = strings.map(([{ letter }, stands]) => formatChange(letter, stands)).join(' ');
    const expected = strings.map(([{ letter, position }]) => formatChange(letter, position)).join(' ');
    return tellProof(score, {
      code: 'glissando-unlike-key',
      severity: 'note',
      needs: strings.map(([need]) => need),
      sentence: `The glissando sounds ${sounding} by the markings; its notes and the key signature say ${expected}.`,
      mend: null,
    });
  });
};
