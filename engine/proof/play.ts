import { type Foot, footOf, type Position } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { Need } from '../plan/needs.ts';
import type { Score } from '../score/model.ts';
import type { BarEvents, OnsetEvents, TimedNeed } from './events.ts';
import type { FootTask } from './foot-schedule.ts';

/** Notes of one pedal that stand wrong for the same reason, one after the other. */
export interface Failure {
  readonly letter: Letter;
  readonly wanted: Position;
  readonly needs: readonly Need[];
  /** Where the pedal stands instead, and the marking (index) that says so. */
  readonly stands: Position;
  readonly marking: number;
  /** Whether a note was served by that marking before. */
  readonly servedBefore: boolean;
  /** The bar to which the music jumped since the pedal was marked; null where it did not. */
  readonly landedIn: number | null;
  /** Passes, counted from 1 for the bar of the first need. */
  readonly passes: readonly number[];
  /** The pedal is marked to move while the note goes on. */
  readonly whileHeld: boolean;
  /** Keys of the faults that it brings together, one for each need and pass. */
  readonly faults: readonly string[];
}

/** One need that was not met on one pass. */
export interface NeedFault {
  readonly need: Need;
  /** The bar to which the music jumped since the pedal was marked; null where it did not. */
  readonly landedIn: number | null;
}

/** A change that one foot makes in performance. */
export interface PedalTask extends FootTask {
  readonly foot: Foot;
  readonly letter: Letter;
  readonly to: Position;
  readonly marking: number;
  /** The note for which it must be done, and its pass. */
  readonly before: Need;
  readonly pass: number;
}

/** What one marking did for one letter, over all passes. */
export interface Effect {
  changed: number;
  needed: number;
}

/** The part as played by its markings alone. */
export interface Performance {
  readonly needsPlayed: number;
  readonly failures: readonly Failure[];
  /** In order of release, both feet. */
  readonly tasks: readonly PedalTask[];
  /** Needs of pedals of which no marking has said yet where they stand. */
  readonly unstated: readonly Need[];
  /** Strings of glissandi that sound otherwise than their notes and the key signature say, with their positions. */
  readonly unlikeKey: ReadonlyMap<Need, Position>;
  /** Every need that was not met, by a key that tells need and pass, in the order they are played. */
  readonly needFaults: ReadonlyMap<string, NeedFault>;
  /** By index of marking and letter. */
  readonly effectOf: (marking: number, letter: Letter) => Effect;
  /** Whether a note was served on some pass. */
  readonly wasServed: (need: Need) => boolean;
}

/**
 * Plays a part by the markings in its file, every pass of the play order.
 *
 * A marking changes only the letters that it states, where it stands. One that is to be prepared ahead takes effect, as
 * a whole, with the first note that asks for one of its changes: until then notes of the old positions are served.
 */
export const playByMarkings = (score: Score, bars: readonly BarEvents[]): Performance => {
  const player = new Player(score);
  for (const [i, bar] of score.playOrder.entries()) {
    player.playBar(bar, bars[bar]!, i > 0 && score.playOrder[i - 1] !== bar - 1);
  }
  return player.finish();
};

/** Where a pedal stands, and what came of it. */
interface Standing {
  readonly position: Position;
  /** The marking that moved it there, and the last one that said so (indices). */
  readonly marking: number;
  lastStated: number;
  /** Jumps of the music until it was last stated, and whether a note was served since. */
  jumps: number;
  served: boolean;
}

/** A change that is to be prepared. */
interface Prepared {
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

interface OpenFailure extends Omit<Failure, 'needs' | 'passes' | 'faults'> {
  readonly needs: Need[];
  readonly passes: number[];
  readonly faults: string[];
}

type ByLetter<T> = Map<Letter, T>;

class Player {
  readonly #score: Score;
  readonly #stands: ByLetter<Standing> = new Map();
  readonly #prepared: ByLetter<Prepared> = new Map();
  readonly #openTasks: ByLetter<OpenTask> = new Map();
  readonly #openFailures: ByLetter<OpenFailure> = new Map();
  readonly #failures = new Map<string, OpenFailure>();
  readonly #tasks: PedalTask[] = [];
  readonly #unstated = new Set<Need>();
  readonly #served = new Set<Need>();
  readonly #unlikeKey = new Map<Need, Position>();
  readonly #needFaults = new Map<string, NeedFault>();
  readonly #effects = new Map<number, Effect>();
  readonly #passes = new Map<number, number>();
  #held: Need[] = [];
  #clock = 0;
  #jumps = 0;
  #landedIn = 0;
  #needsPlayed = 0;

  constructor(score: Score) {
    this.#score = score;
  }

  playBar(bar: number, events: BarEvents, jumped: boolean): void {
    this.#passes.set(bar, (this.#passes.get(bar) ?? 0) + 1);
    if (jumped) {
      this.#jumps += 1;
      this.#landedIn = bar;
      this.#held = [];
    }
    for (const onset of events.onsets) this.#playOnset(onset);
    this.#clock += events.seconds;
  }

  finish(): Performance {
    return {
      needsPlayed: this.#needsPlayed,
      failures: [...this.#failures.values()],
      tasks: this.#tasks.toSorted((a, b) => a.release - b.release),
      unstated: [...this.#unstated],
      unlikeKey: this.#unlikeKey,
      needFaults: this.#needFaults,
      effectOf: (marking, letter) => this.#effectOf(marking, letter),
      wasServed: (need) => this.#served.has(need),
    };
  }

  #playOnset({ at, seconds, markings, graces, notes }: OnsetEvents): void {
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
      this.#read(marking, this.#clock + seconds);
      this.#takePrepared([...graces, ...notes]);
      playGraces(markings.slice(i + 1));
    }
    for (const need of this.#held) this.#checkHeld(need, before);
    for (const note of notes) this.#play(note);
  }

  #read(index: number, now: number): void {
    const { positions, ahead } = this.#score.markings[index]!;
    for (const letter of LETTERS) {
      const position = positions[letter];
      if (position === undefined) continue;
      const stands = this.#stands.get(letter);
      this.#prepared.delete(letter);
      if (stands === undefined) this.#stand(letter, position, index);
      else if (stands.position === position)
        Object.assign(stands, { lastStated: index, jumps: this.#jumps, served: false });
      else if (ahead) this.#prepared.set(letter, { position, marking: index, release: now });
      else {
        this.#openTasks.set(letter, { to: position, marking: index, release: now });
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
      served: false,
    });
    this.#openFailures.delete(letter);
  }

  #play({ need, seconds }: TimedNeed): void {
    const { letter, position } = need;
    const now = this.#clock + seconds;
    this.#needsPlayed += 1;
    const stands = this.#stands.get(letter);
    if (stands === undefined) {
      this.#unstated.add(need);
      this.#note(need, false, null);
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
      this.#note(need, false, this.#landingSince(stands));
    }
    if (isServed && compare(need.onset, need.heldUntil) < 0) this.#held.push(need);
    stands.served = true;
    this.#openFailures.delete(letter);
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
  #checkHeld(need: Need, before: ReadonlyMap<Letter, Standing>): void {
    const stands = this.#stands.get(need.letter);
    const stood = before.get(need.letter)?.position;
    if (stands === undefined || stands.position === need.position || stood !== need.position) return;
    this.#fail(need, stands, true);
  }

  #fail(need: Need, stands: Standing, whileHeld: boolean): void {
    const { letter, position } = need;
    const pass = this.#passOf(need);
    const landedIn = this.#landingSince(stands);
    const fault = this.#note(need, whileHeld, landedIn);
    const open = this.#openFailures.get(letter);
    if (open !== undefined && open.wanted === position && open.whileHeld === whileHeld) {
      if (!open.needs.includes(need)) open.needs.push(need);
      open.faults.push(fault);
      return;
    }
    const key = [letter, position, need.note.id, whileHeld, stands.lastStated, landedIn].join(' ');
    const failure = this.#failures.get(key) ?? {
      letter,
      wanted: position,
      needs: [need],
      stands: stands.position,
      marking: stands.lastStated,
      servedBefore: stands.served,
      landedIn,
      passes: [],
      whileHeld,
      faults: [],
    };
    failure.passes.push(pass);
    failure.faults.push(fault);
    this.#failures.set(key, failure);
    this.#openFailures.set(letter, failure);
  }

  #passOf(need: Need): number {
    return this.#passes.get(need.note.bar)!;
  }

  #landingSince({ jumps }: Standing): number | null {
    return jumps < this.#jumps ? this.#landedIn : null;
  }

  /** @returns the key of the fault */
  #note(need: Need, whileHeld: boolean, landedIn: number | null): string {
    const { note, letter, octave, position, kind } = need;
    const key = `${note.id} ${letter}${octave} ${position} ${kind} ${this.#passOf(need)}${whileHeld ? ' held' : ''}`;
    if (!this.#needFaults.has(key)) this.#needFaults.set(key, { need, landedIn });
    return key;
  }

  #effectOf(marking: number, letter: Letter): Effect {
    const key = marking * LETTERS.length + LETTERS.indexOf(letter);
    const known = this.#effects.get(key);
    if (known !== undefined) return known;
    const effect = { changed: 0, needed: 0 };
    this.#effects.set(key, effect);
    return effect;
  }
}
