import { footOf, type Position } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import { isMadeAt } from '../score/bars/one-time.ts';
import { readOnlyAt } from '../score/model/markings.ts';
import type { Score } from '../score/model/score.ts';
import type { Need } from '../sounding/needs.ts';
import { MOMENTS_IN_PAUSE, PAUSE_STEP_SECONDS, pausesBetween } from '../time/pauses.ts';
import { FailureLog } from './failure-log.ts';
import type { MarkingEffect, MarkingPlayback, PedalTask } from './marking-playback.ts';
import type { BarEvents, OnsetEvents, TimedNeed } from './part-events.ts';

/**
 * Plays a part by the markings in its file, every pass of the play order.
 *
 * A marking changes only the letters that it states, where it stands, at the times of playing that it is for. One
 * that is to be prepared ahead takes effect, as a whole, with the first note that asks for one of its changes: until then
 * notes of the old positions are served.
 *
 * @param marksAt whether the feet move where markings stand, or before them, from the last note of the old position on
 */
export const playByMarkings = (
  score: Score,
  bars: readonly BarEvents[],
  marksAt: MarksAt = 'foot',
): MarkingPlayback => {
  const player = new Player(score, marksAt);
  for (const [i, bar] of score.playOrder.entries()) {
    const before = score.playOrder[i - 1] ?? bar;
    if (pausesBetween(score, before, bar)) player.pause();
    player.playBar(bar, bars[bar]!, i > 0 && before !== bar - 1);
  }
  return player.finish();
};

/** Where a file has its markings: where the foot moves, or at the notes that need them. */
export type MarksAt = 'foot' | 'note';

/** Where a pedal stands, and what came of it. */
interface PedalState {
  readonly position: Position;
  /** The marking that moved it there, and the last one that said so (indices). */
  readonly marking: number;
  lastStated: number;
  /** Jumps of the music until it was last stated. */
  jumps: number;
}

/** A change that is to be prepared. */
interface PreparedChange {
  readonly position: Position;
  readonly marking: number;
  /** Seconds from which the foot is free for it: the marking, or the last note of the old position. */
  release: number;
}

interface OpenTask {
  readonly to: Position;
  readonly marking: number;
  readonly release: number;
}

type ByLetter<T> = Map<Letter, T>;

class Player {
  readonly #score: Score;
  readonly #marksAt: MarksAt;
  /** Seconds of the last note that a pedal was needed for. */
  readonly #lastNeeded: ByLetter<number> = new Map();
  readonly #stands: ByLetter<PedalState> = new Map();
  readonly #prepared: ByLetter<PreparedChange> = new Map();
  readonly #openTasks: ByLetter<OpenTask> = new Map();
  readonly #failures = new FailureLog();
  readonly #tasks: PedalTask[] = [];
  readonly #unstated = new Set<Need>();
  readonly #served = new Set<Need>();
  readonly #unlikeKey = new Map<Need, Position>();
  readonly #effects = new Map<number, MarkingEffect>();
  readonly #passes = new Map<number, number>();
  #held: Need[] = [];
  #clock = 0;
  /** Seconds that the player has paused before the bar that is played. */
  #pausedFor = 0;
  #jumps = 0;
  #landedIn = 0;
  #notesChecked = 0;

  constructor(score: Score, marksAt: MarksAt) {
    this.#score = score;
    this.#marksAt = marksAt;
  }

  playBar(bar: number, events: BarEvents, jumped: boolean): void {
    this.#passes.set(bar, (this.#passes.get(bar) ?? 0) + 1);
    if (jumped) {
      this.#jumps += 1;
      this.#landedIn = bar;
      this.#held = [];
    }
    for (const onset of events.onsets) {
      this.#playOnset(onset, compare(onset.at, this.#score.bars[bar]!.onset) === 0 ? this.#pausedFor : 0);
    }
    this.#pausedFor = 0;
    this.#clock += events.seconds;
  }

  /** The player reads what stands at the beginning of the next bar, and has all the time for it. */
  pause(): void {
    this.#pausedFor = PAUSE_STEP_SECONDS * MOMENTS_IN_PAUSE;
    this.#clock += this.#pausedFor;
  }

  finish(): MarkingPlayback {
    return {
      notesChecked: this.#notesChecked,
      failures: this.#failures.failures,
      tasks: this.#tasks.toSorted((a, b) => a.release - b.release),
      unstated: [...this.#unstated],
      againstKey: this.#unlikeKey,
      needFaults: this.#failures.needFaults,
      effectOf: (marking, letter) => this.#effectOf(marking, letter),
      wasMet: (need) => this.#served.has(need),
    };
  }

  #playOnset({ at, seconds, markings, graces, notes }: OnsetEvents, pausedFor: number): void {
    if (this.#held.length > 0) this.#held = this.#held.filter((need) => compare(at, need.heldUntil) < 0);
    if (markings.length === 0 && graces.length === 0 && this.#prepared.size === 0) {
      for (const note of notes) this.#play(note);
      return;
    }
    const before = new Map(this.#stands);
    const waiting = new Set(graces);
    const playGraces = (unread: readonly number[]): void => {
      for (const grace of waiting) {
        const { letter, position } = grace.need;
        const stands = this.#stands.get(letter)?.position === position;
        if (
          !stands &&
          unread.some((marking) => this.#score.markings[marking]!.positions[letter] === position)
        )
          continue;
        waiting.delete(grace);
        this.#play(grace);
      }
    };
    this.#takePrepared([...graces, ...notes]);
    playGraces(markings);
    for (const [i, marking] of markings.entries()) {
      this.#read(marking, this.#clock + seconds - pausedFor);
      this.#takePrepared([...graces, ...notes]);
      playGraces(markings.slice(i + 1));
    }
    for (const need of this.#held) this.#checkHeld(need, before);
    for (const note of notes) this.#play(note);
  }

  #read(index: number, now: number): void {
    const { positions, ahead, bar } = this.#score.markings[index]!;
    if (!isMadeAt(readOnlyAt(this.#score.markings[index]!), this.#passes.get(bar)!)) return;
    for (const letter of LETTERS) {
      const position = positions[letter];
      if (position === undefined) continue;
      const stands = this.#stands.get(letter);
      this.#prepared.delete(letter);
      if (stands === undefined) this.#stand(letter, position, index);
      else if (stands.position === position) Object.assign(stands, { lastStated: index, jumps: this.#jumps });
      else if (ahead) this.#prepared.set(letter, { position, marking: index, release: now });
      else {
        const release = this.#marksAt === 'foot' ? now : (this.#lastNeeded.get(letter) ?? 0);
        this.#openTasks.set(letter, { to: position, marking: index, release });
        this.#stand(letter, position, index);
      }
    }
  }

  #stand(letter: Letter, position: Position, marking: number): void {
    this.#effectOf(marking, letter).changed += 1;
    this.#stands.set(letter, {
      position,
      marking,
      lastStated: marking,
      jumps: this.#jumps,
    });
    this.#failures.close(letter);
  }

  #play({ need, seconds }: TimedNeed): void {
    const { letter, position } = need;
    const now = this.#clock + seconds;
    this.#notesChecked += 1;
    this.#lastNeeded.set(letter, now);
    const stands = this.#stands.get(letter);
    if (stands === undefined) {
      this.#unstated.add(need);
      this.#failures.note(need, this.#passOf(need), { stands: null, landedIn: null, whileHeld: false });
      return;
    }
    const isServed = stands.position === position;
    if (!isServed && need.kind !== 'swept') {
      this.#fail(need, stands, false);
      return;
    }
    if (isServed) this.#served.add(need);
    else {
      this.#unlikeKey.set(need, stands.position);
      const landedIn = this.#landingSince(stands);
      this.#failures.note(
        need,
        this.#passOf(need),
        { stands: stands.position, landedIn, whileHeld: false },
        false,
      );
    }
    if (isServed && compare(need.onset, need.heldUntil) < 0) this.#held.push(need);
    this.#failures.close(letter);
    this.#effectOf(stands.marking, letter).needed += 1;
    const prepared = this.#prepared.get(letter);
    if (prepared !== undefined) prepared.release = Math.max(prepared.release, now);
    const task = this.#openTasks.get(letter);
    if (task === undefined) return;
    this.#openTasks.delete(letter);
    this.#tasks.push({
      ...task,
      letter,
      foot: footOf(letter),
      deadline: now,
      before: need,
      pass: this.#passOf(need),
    });
  }

  #takePrepared(coming: readonly TimedNeed[]): void {
    if (this.#prepared.size === 0) return;
    for (const { need } of coming) {
      const asked = this.#prepared.get(need.letter);
      if (asked?.position !== need.position) continue;
      for (const [letter, { position, marking, release }] of this.#prepared) {
        if (marking !== asked.marking) continue;
        this.#prepared.delete(letter);
        this.#openTasks.set(letter, { to: position, marking, release });
        this.#stand(letter, position, marking);
      }
    }
  }

  /** A trill, tremolo or glissando that a marking disturbs. */
  #checkHeld(need: Need, before: ReadonlyMap<Letter, PedalState>): void {
    const stands = this.#stands.get(need.letter);
    const stood = before.get(need.letter)?.position;
    if (stands === undefined || stands.position === need.position || stood !== need.position) return;
    this.#fail(need, stands, true);
  }

  #fail(need: Need, stands: PedalState, whileHeld: boolean): void {
    const { position, lastStated } = stands;
    this.#failures.fail(need, this.#passOf(need), {
      stands: position,
      marking: lastStated,
      landedIn: this.#landingSince(stands),
      whileHeld,
    });
  }

  #passOf(need: Need): number {
    return this.#passes.get(need.note.bar)!;
  }

  #landingSince({ jumps }: PedalState): number | null {
    return jumps < this.#jumps ? this.#landedIn : null;
  }

  #effectOf(marking: number, letter: Letter): MarkingEffect {
    const key = marking * LETTERS.length + LETTERS.indexOf(letter);
    const known = this.#effects.get(key);
    if (known !== undefined) return known;
    const effect = { changed: 0, needed: 0 };
    this.#effects.set(key, effect);
    return effect;
  }
}
