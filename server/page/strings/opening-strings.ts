import { nameCount } from '../../../engine/index.ts';

const timeOf = (when: Date): string => when.toLocaleTimeString('en-GB');

let dayFormat: Intl.DateTimeFormat | null = null;

/** With one format for all: to make one holds a browser up for tens of milliseconds, for each piece and each time it is shown. */
const dayOf = (when: Date): string => {
  dayFormat ??= new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium' });
  return dayFormat.format(when);
};

/** Opening a piece. */
export const OPENING_STRINGS = {
  open: {
    heading: 'Open a harp part',
    intro:
      'MusicXML, compressed MusicXML, MEI or ABC. Your browser works out the pedals or levers; this server draws the pages and keeps nothing.',
    choose: 'Choose a file',
    another: 'Open another file',
    demo: 'Show the demo piece',
    drop: 'or drop a file anywhere on this page',
    demoTitle: 'Lanterns at the Lock',
    keptOffline:
      'This browser has kept the page: it opens, plans and plays parts without a connection too. Pages are drawn when there is one.',
    before: 'A harp part as it is written',
    after: 'and as a harpist reads it',
    beforePicture: 'Three bars of music for two hands in E flat major.',
    afterPicture:
      'The same three bars with a diagram of the pedal setting before the first note, and the changes F sharp and B natural under the notes that need them.',
  },
  /** The file that the command follows. */
  followed: {
    waiting: 'Waiting for the file that tringle watch follows …',
    shown: (savedAt: Date, changes: number | null) =>
      `The file is followed. Shown is the save of ${timeOf(savedAt)}${changes === null ? '' : changes === 0 ? ': the plan is the same' : `: ${nameCount(changes, 'change')} in the plan or your decisions`}.`,
    changes: 'What changed',
    unusable: (sentence: string) => `The last save cannot be used: ${sentence}`,
    gone: (sentence: string) => `The file cannot be had: ${sentence}.`,
    stands: (savedAt: Date) => `Shown is the save of ${timeOf(savedAt)} until the next one.`,
    noHarp: 'no part of it is the harp that is shown, or that part has no notes.',
    noTune: 'the tune that is shown is no longer in it.',
    silent: 'tringle watch does not answer; the page goes on asking.',
    ended: 'tringle watch has ended: the page is told of no more saves.',
  },
  recent: {
    heading: 'Recent pieces',
    where: 'Kept only in this browser, with your decisions.',
    /** The name of the file is told only where it is not the title. */
    about: (title: string, file: string, bytes: number, opened: Date) =>
      `${file === title ? '' : `${file}, `}${bytes < 1000 ? '1 kB' : `${Math.round(bytes / 1000)} kB`}, ${dayOf(opened)}`,
    forget: 'Remove',
    forgetWhat: (title: string) => `Remove: ${title}`,
  },
  progress: {
    reading: (name: string) => `Reading ${name} …`,
    planning: (name: string) => `Planning the pedals of ${name} …`,
    drawing: 'Laying out the pages …',
    planIsThere: 'The plan is complete: pedals, findings and playback can be used meanwhile.',
    redrawing: 'Redrawing the pages …',
    pagesReady: (ready: number, of: number) => `${ready} of ${of} pages are drawn`,
    drawn: (pages: number) => (pages === 1 ? 'The page is ready.' : `${pages} pages are ready.`),
  },
  movements: {
    label: 'Movement',
    option: (number: number, title: string) =>
      ['', `${number}`].includes(title) ? `${number}` : `${number}. ${title}`,
    all: 'all, the first is shown',
    printed: 'The PDF has the movement that is chosen, or all of them.',
  },
  parts: {
    heading: 'Which part is the harp?',
    intro: 'The score does not say. Choose a part:',
    silentHarp: (name: string) => `The part ${name} has no notes in this file. Choose another part:`,
    option: (name: string, staves: number, notes: number) =>
      `${name} (${nameCount(staves, 'staff', 'staves')}, ${nameCount(notes, 'note')})`,
    unnamed: 'Unnamed part',
    label: 'Part',
    /** One of several that have the same name. */
    numbered: (name: string, nth: number) => `${name}, no. ${nth}`,
  },
  tunes: {
    heading: 'Which tune?',
    intro: (file: string, count: number) => `${file} has ${count} tunes.`,
    option: (number: string, title: string) => (title === '' ? `Tune ${number}` : `${number} ${title}`),
    find: 'Find',
    shown: (shown: number, all: number) => `${shown} of ${all}`,
    book: 'Tune book',
    all: 'All tunes',
    previous: 'Previous tune',
    next: 'Next tune',
    place: (nth: number, of: number) => `Tune ${nth} of ${of}`,
  },
  refused: {
    heading: (name: string) => `${name} cannot be used`,
    crashed:
      'Something went wrong while planning this part. Reload the page; if it happens again, please send us the file.',
    unreadable: 'The browser could not read the file. Choose it again.',
    demoMissing: 'The server did not send the demo piece. Try again, or choose a file of your own.',
  },
  key: {
    heading: 'This server needs a key',
    why: 'It draws pages and tables of tune books only for people who have a key; ask whoever runs it for one. A plan needs no key.',
    wrong: 'That key was not accepted. Check that it is complete.',
    label: 'Key',
    send: 'Continue with this key',
    without: 'Continue without pages',
  },
} as const;
