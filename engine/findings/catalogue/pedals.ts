import { tellBySides } from '../../harp/by-sides.ts';
import type { Foot } from '../../harp/setting.ts';
import { nameStretch } from '../../words/seconds.ts';
import { ENGLISH_NAMES, type NoteNames, type PedalAt } from '../note-names.ts';
import { type OrnamentNote, sayOrnamentNotes } from '../ornament-notes.ts';
import type { HurriedFacts, PedalEntries } from './entry.ts';

/** What a foot that has no time moved last: before, or another pedal at the same moment. */
export type LastMoved = 'the same' | 'another' | 'together';

/** What concerns the pedals and the feet that move them. */
export const PEDAL_FINDINGS = {
  'foot-too-busy': {
    severity: 'stop',
    harps: ['pedal'],
    failsBy: 'feet',
    ofFastChange: 'no-time',
    remedies: ['slower-tempo', 'later-note', 'second-harp'],
    title: 'No time for the foot',
    when: 'A foot has to move again before it has rested (option `footRestSeconds`).',
    sentence: (
      { foot, change, last }: { foot: Foot; change: PedalAt; last: LastMoved },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      last === 'together'
        ? `The ${foot} foot has no time for ${names.change(change)}: it moves another pedal at the same moment.`
        : `The ${foot} foot has no time for ${names.change(change)}: it has only just moved ${last} pedal.`,
    passage: (places: number) =>
      `The feet have no time for ${places} changes: each comes together with another move of its foot, or too soon after it.`,
  },
  'pedal-in-two-positions': {
    severity: 'stop',
    harps: ['pedal'],
    failsBy: 'strings',
    ofFastChange: null,
    remedies: ['later-note', 'second-harp'],
    title: 'One pedal, two positions',
    when: 'Notes that sound together need one pedal in two positions, in different octaves.',
    sentence: (
      {
        change,
        rival,
        ofOrnaments,
      }: { change: PedalAt; rival: PedalAt | null; ofOrnaments: readonly OrnamentNote[] },
      names: NoteNames = ENGLISH_NAMES,
    ) => {
      const { letter } = change;
      const clash =
        rival === null
          ? `The ${names.letter(letter)} pedal cannot stand at ${names.change(change)} here.`
          : `The ${names.letter(letter)} pedal would have to stand at ${names.change(change)} and ${names.change(rival)} at the same time: it moves every ${names.letter(letter)} string.`;
      return `${clash}${sayOrnamentNotes(ofOrnaments, names)}`;
    },
    passage: (places: number) =>
      `One pedal would have to stand in two positions at the same time, in ${places} places.`,
  },
  'pedals-together': {
    severity: 'warn',
    harps: ['pedal'],
    ofFastChange: 'two-at-once',
    refusesDecision: false,
    title: 'Two pedals at once',
    when: 'As a last resort one foot moves two neighbouring pedals at once (option `pedalsTogether`).',
    sentence: ({ foot, change }: { foot: Foot; change: PedalAt }, names: NoteNames = ENGLISH_NAMES) =>
      `The ${foot} foot has to move ${names.change(change)} and the pedal beside it at the same time.`,
    passage: (places: number) =>
      `One foot has to take two neighbouring pedals in one movement, ${places} times.`,
  },
  'foot-crossed': {
    severity: 'warn',
    harps: ['pedal'],
    ofFastChange: 'other-side',
    refusesDecision: false,
    title: 'Foot crosses over',
    when: 'As a last resort a foot takes the nearest pedal of the other side (option `crossFeet`).',
    sentence: ({ foot, change }: { foot: Foot; change: PedalAt }, names: NoteNames = ENGLISH_NAMES) =>
      `The ${foot} foot has to cross over for ${names.change(change)}, because the other foot has no time.`,
    passage: (places: number) =>
      `A foot has to cross over for ${places} changes, because the other foot has no time.`,
  },
  'feet-hurried-passage': {
    severity: 'warn',
    harps: ['pedal'],
    ofFastChange: null,
    refusesDecision: false,
    title: 'Feet hurried',
    when: 'A passage has more moves than feet comfortably make: in five seconds more than seven, or more than five of one foot.',
    sentence: ({ moves, seconds, left, right }: HurriedFacts) =>
      `The feet have to hurry: ${moves} moves ${nameStretch(seconds)}, ${tellBySides({ left, right }, { both: `${left} of the left foot and ${right} of the right`, allOf: (side) => `all of the ${side} foot` })}.`,
  },
  'repeat-restored': {
    severity: 'note',
    harps: ['pedal'],
    title: 'Set for the repeat',
    when: 'A pedal is set only because the music returns to this bar with the pedal elsewhere.',
    sentence: (
      { change, elsewhere }: { change: PedalAt; elsewhere: PedalAt },
      names: NoteNames = ENGLISH_NAMES,
    ) => `${names.change(change)} is for the repeat: the pedal then stands at ${names.change(elsewhere)}.`,
  },
  'pin-not-honoured': {
    severity: 'warn',
    harps: ['pedal'],
    ofFastChange: null,
    refusesDecision: true,
    title: 'Decision not followed',
    when: 'A pedal change or position that was pinned, or a passage without moves, cannot be kept.',
    sentence: (facts: PinFacts, names: NoteNames = ENGLISH_NAMES) => {
      const change = names.change(facts.change);
      switch (facts.why) {
        case 'no-moves-here':
          return `${change} has to be set here, where you allow no moves.`;
        case 'needed-earlier':
          return `${change} has to be set here, earlier than where it is pinned: a note needs it sooner.`;
        case 'foot-busy':
          return `${change} has to be set here, earlier than where it is pinned: the ${facts.foot} foot is busy with another pedal there.`;
        case 'note':
          return `${change} cannot be pinned here: a note in bar ${facts.bar} needs ${names.change(facts.needed)}.`;
        case 'fixed-already':
          return `${change} cannot be pinned here: ${names.change(facts.fixed)} is already pinned there.`;
        case 'no-moment':
          return `${change} cannot be pinned here: there is no note or beat at this place.`;
      }
    },
  },
  'marking-contradicts-notes': {
    severity: 'warn',
    harps: ['pedal'],
    ofFastChange: null,
    refusesDecision: false,
    title: 'Printed marking does not fit the notes',
    when: 'The file has a pedal marking that the next note of its letter contradicts.',
    sentence: (
      { marked, needed, bar }: { marked: PedalAt; needed: PedalAt; bar: string },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `By the file’s own marking, ${names.change(marked)}, the next ${names.letter(needed.letter)} would sound wrong: in bar ${bar} it is ${names.change(needed)}. This plan follows the note.`,
  },
} as const satisfies PedalEntries;

/** A change that was decided, and what it runs into. */
export type PinFacts = { readonly change: PedalAt } & (
  | { readonly why: 'no-moves-here' | 'needed-earlier' | 'no-moment' }
  | { readonly why: 'foot-busy'; readonly foot: Foot }
  | { readonly why: 'note'; readonly needed: PedalAt; readonly bar: string }
  | { readonly why: 'fixed-already'; readonly fixed: PedalAt }
);
