import { uncapitalize, VERDICT_WORDS, VERDICTS, type Verdict } from '../../../engine/index.ts';

export const EXERCISES_WORDS = {
  exercise: {
    title: 'Exercise',
    solution: 'Solution',
    task: {
      pedal: {
        boxes:
          'Write the markings into the boxes: into a wide one how all pedals stand there, into a small one the pedal that moves there. The solution is on the last pages.',
        none: 'Write in how the pedals stand before the first note, and every change where the foot moves. The solution is on the last pages.',
      },
      lever: {
        boxes:
          'Write the markings into the boxes: into a large one which levers are up there, into a small one the lever that changes there. The solution is on the last pages.',
        none: 'Write in which levers are up before the first note, and every change where a hand is free. The solution is on the last pages.',
      },
    },
    /** In place of these where nothing changes after the start. */
    taskAtStart: {
      pedal:
        'Write into each box how all pedals stand there: none moves after the first note. The solution is on the last pages.',
      lever:
        'Write into each box which levers are up: none changes after the first note. The solution is on the last pages.',
    },
  },
  /** A pupil’s attempt, marked. */
  marked: {
    title: 'Marked',
    points: (given: number, most: number) => `${given} of ${most} points`,
    counts: (counts: Readonly<Record<Verdict, number>>) =>
      VERDICTS.map((verdict) => `${counts[verdict]} ${VERDICT_WORDS[verdict]}`).join(', '),
    verdicts: {
      right: 'Right',
      'better-place': 'Right, but there is a better place',
      wrong: 'Wrong',
      missing: 'Missing',
      needless: 'Not needed',
    },
    /** What each sign means, at the end of the pages. */
    meanings: {
      right: 'Right: the notes sound as they are written.',
      'better-place': 'Right, but there is a better place, which is told below by its number.',
      wrong: 'Wrong: a note sounds otherwise, or there is no time; what belongs there is blue.',
      missing: 'Missing: what belongs there is blue.',
      needless:
        'Not needed: all sounds the same without it, for the reason that is told below by its number; it costs no points.',
    },
    /** Over what is told of each change that is not simply right. */
    faults: 'Bar by bar',
    opening: 'opening setting',
    /** @param place such as “Bar 7, beat 3”, what such as “F♯” */
    comment: (place: string, what: string, verdict: string) => `${place}, ${what}: ${verdict}.`,
    sounds: (place: string, note: string, instead: string) => `${place}: ${note} sounds as ${instead}.`,
    /** @param until the number of the bar of the last of them; null where that is the bar of the first */
    more: (notes: number, until: string | null) =>
      `The same goes for ${notes === 1 ? '1 more note' : `${notes} more notes`} ${until === null ? 'in that bar' : `until bar ${until}`}.`,
    unstated: (place: string, note: string) => `${place}: nothing says how the pedal of ${note} stands.`,
    write: (names: string) => `Write ${names}.`,
    /** After `write`, where the pupil has written another name of the same sound. */
    sameSound: (written: string, letter: string, note: string) =>
      `${written} is for the ${letter} strings, and the note is ${note}.`,
    move: (place: string) => `It belongs here: ${place}.`,
    /** Before `strike`. */
    contradicts: (names: string) => `Another marking here says ${names}.`,
    strike: 'Strike it out.',
    tooQuick: 'The foot has no time there.',
    better: (place: string, why: string) => `Better here: ${place}. ${why}`,
    why: {
      bends: 'A string of this pedal is still ringing where it stands.',
      late: 'It comes hard upon its note, though the foot is free before.',
      early: 'It comes so long before its note that it must be kept in mind.',
    },
    needless: {
      /** @param since such as “Bar 3, beat 1”; null where it cannot be told */
      stands: (since: string | null) =>
        since === null
          ? 'The pedal stands so already.'
          : `The pedal has stood so since ${uncapitalize(since)}.`,
      /** @param before the place of the next change of the same pedal or lever; null for none */
      unasked: (before: string | null) =>
        before === null
          ? 'No note asks for it.'
          : `No note asks for it before the next change at ${uncapitalize(before)}.`,
      twice: 'It is written here already.',
      undoes: 'It only takes back another change that does not belong there.',
    },
    allRight: 'Every note finds its pedal, and every change stands well.',
    unread: (place: string, text: string) => `${place}: “${text}” could not be read as a marking.`,
    /** What is said otherwise of levers. */
    lever: {
      opening: 'levers before the start',
      tooQuick: 'No hand is free there.',
      why: {
        bends: 'The string is still ringing where it stands.',
        late: 'It comes hard upon its note, though a hand is free before.',
        busy: 'Both hands are playing where it stands.',
      },
      stands: (since: string | null) =>
        since === null
          ? 'The lever stands so already.'
          : `The lever has stood so since ${uncapitalize(since)}.`,
      allRight: 'Every note finds its lever, and every change stands well.',
    },
  },
} as const;
