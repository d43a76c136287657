import {
  capitalize,
  describeGains,
  formatAmount,
  formatBeatText,
  listBars,
  nameBars,
  nameCount,
  nameNotesIn,
  namePlaceInBar,
  type Unit,
} from '../../../engine/index.ts';
import { tellChangedRows } from './shared-strings.ts';

/** So many places are named that have become playable. */
const MOST_PLACES = 3;

/** What the user decides and chooses. */
export const DECISION_STRINGS = {
  decisions: {
    undo: 'Undo',
    redo: 'Redo',
    announce: {
      do: (name: string) => `${name}.`,
      undo: (name: string) => `Undone: ${name}.`,
      redo: (name: string) => `Redone: ${name}.`,
    },
    trouble: {
      refused: (bar: string, sentence: string) => `Not followed in bar ${bar}: ${sentence}`,
      unplayable: (bar: string, sentence: string) => `Now not playable, bar ${bar}: ${sentence}`,
    },
    /** @param bars their names @param places in other bars @param left places of the part @param when since a decision, or once it is taken */
    solved: (
      {
        bars,
        places,
        left,
      }: {
        readonly bars: readonly string[];
        readonly places: readonly { readonly bar: string; readonly beat: string }[];
        readonly left: number;
      },
      when: 'now' | 'then',
    ) => {
      const verb = (count: number): string => (count === 1 ? 'is' : 'are');
      if (bars.length + places.length === 0)
        return `${nameCount(left, 'place')} ${verb(left)} still not playable ${when}.`;
      const rest = left === 0 ? 'nothing is left' : `${nameCount(left, 'place')} ${verb(left)} left`;
      const named = places.slice(0, MOST_PLACES).map(({ bar, beat }) => namePlaceInBar(bar, beat));
      const further = places.length - named.length;
      const names = [
        ...(bars.length === 0 ? [] : [listBars(bars)]),
        ...named,
        ...(further === 0 ? [] : [nameCount(further, 'more place')]),
      ].join('; ');
      return `${capitalize(names)} ${verb(bars.length + places.length)} playable ${when}; ${rest} that ${left > 1 ? 'are' : 'is'} not.`;
    },
    moreTrouble: (count: number) => `${nameCount(count, 'more place')}: see the findings.`,
    notKept: 'This browser cannot store your decisions. To keep them, download your file with markings.',
    restored: {
      own: (count: number) =>
        count === 1
          ? 'This browser has restored your decision from last time.'
          : `This browser has restored your ${count} decisions from last time.`,
      given: (count: number) =>
        `The plan follows the ${count === 1 ? 'decision' : `${count} decisions`} that tringle watch was given.`,
      saved: (count: number) =>
        `The plan again follows ${count === 1 ? 'the decision' : `the ${count} decisions`} saved in your file.`,
    },
    startOver: 'Start over',
    allDropped: 'All decisions removed',
    understood: 'OK',
    heading: 'Your decisions',
    none: 'None yet. Drag a move in the chart, select a marking or a finding, or add a decision below.',
    goTo: (what: string) => `Go to: ${what}`,
    remove: 'Remove',
    removeWhat: (what: string) => `Remove: ${what}`,
    removed: (what: string) => `Removed: ${what}`,
    place: (bar: string, beat: string) => namePlaceInBar(bar, beat),
    end: 'the end',
    move: (change: string, place: string) => `${change} in ${place}`,
    position: (change: string, from: string, until: string) => `${change} from ${from} until ${until}`,
    forbid: (from: string, until: string) => `No moves from ${from} until ${until}`,
    // In the words of the fixes that bring these decisions.
    respell: (note: string, place: string, to: string) => `Write ${to} for the ${note} in ${place}`,
    omit: (note: string, place: string) => `Leave out the ${note} in ${place}`,
    delay: (note: string, place: string, beat: string) =>
      `Play the ${note} in ${place} later, on beat ${formatBeatText(beat)}`,
    onStaff: (note: string, staff: number) => `${note} on the ${staff === 1 ? 'upper' : 'lower'} staff`,
    print: (place: string) => `A full setting is printed at ${place}`,
    doNotPrint: (place: string) => `No full setting is printed at ${place}`,
    tempo: (tempo: string, from: string, until: string) =>
      `Play no faster than ${tempo} from ${from} until ${until}`,
    cue: (part: string | null, at: string) =>
      part === null ? `No cue before ${at}` : `Cue of ${part} before ${at}`,
    pinned: 'You pinned this move here.',
    keepHere: 'Pin it here',
    unpin: 'Unpin',
    earlier: 'Earlier',
    later: 'Later',
    keepPosition: (change: string) => `Keep ${change} from here`,
    untilNext: 'to its next move',
    untilEnd: 'to the end',
    playAs: (pitch: string, to: string) => `Play ${pitch} as ${to}`,
    printHere: 'Print a full setting here',
    doNotPrintHere: 'Do not print this setting',
    preview: 'Preview',
    previewWhat: (what: string) => `Preview: ${what}`,
    previewing: 'Planning with it …',
    /** @param rows what is told of both plans: before and with the fix */
    outcome: (rows: readonly (readonly [what: string, before: string, after: string])[]) =>
      rows.length === 0
        ? 'With it nothing else changes.'
        : `With it: ${tellChangedRows(rows)}. Dashed names and hollow points are the moves that it would make.`,
    apply: 'Apply',
    /** @param apply what stands on the button */
    applyWhat: (what: string, apply = 'Apply') => `${apply}: ${what}`,
    /** @param bar its bar as people name it, its movement with it; null where the sentence says at how many places */
    fixed: (sentence: string, bar: string | null) => {
      const what = sentence.replace(/\.$/, '');
      return bar === null || bar === '' || /\bbar\b/i.test(what) ? what : `Bar ${bar}: ${what}`;
    },
    suggested: 'Spellings that would help',
    readAs: (
      { from, to, notes, octaves }: { from: string; to: string; notes: number; octaves: readonly number[] },
      [first, last]: readonly [string, string],
    ) => {
      const where = first === last ? `bar ${first}` : `bars ${first}–${last}`;
      return `${from} as ${to} (${notes === 1 ? where : `${nameNotesIn(notes, octaves)}, ${where}`})`;
    },
    suggestion: (runs: readonly string[]) => `Play ${runs.join(', ')}`,
    saves: describeGains,
    forms: {
      heading: 'Add a decision',
      forbid: 'No moves',
      setting: 'Full setting',
      position: 'Hold a pedal in place',
      tempo: 'Play no faster than',
      perMinute: 'Quarter notes a minute',
      bar: 'bar',
      beat: 'beat',
      from: 'From',
      until: 'Until',
      at: 'At',
      toTheEnd: 'to the end',
      pedal: 'Pedal',
      stays: 'stays',
      barOf: (end: string) => `${end} bar`,
      beatOf: (end: string) => `${end} beat`,
      add: 'Add',
      print: 'Print',
      drop: 'Do not print',
      wrongOrder: 'The end must come after the start.',
      cue: 'Cue after a rest',
      entry: 'Entry',
      entryAt: (bar: string, rest: number) =>
        `bar ${bar}, after ${rest === 1 ? 'a bar' : `${rest} bars`} of rest`,
      cuedPart: 'Part to cue',
      showCue: 'Show this part',
      noCue: 'No cue here',
    },
    bars: (from: string, to: string) => capitalize(nameBars(from, to)),
    forbidBars: 'No moves here',
    printAtBar: (bar: string) => `Full setting at bar ${bar}`,
    close: 'Close',
  },
  choices: {
    heading: 'Options',
    kept: (ofPiece: readonly string[]) =>
      `Your options are kept in this browser for every piece that you open. Kept for this piece only: ${ofPiece.join('; ')}.`,
    inFile: {
      label: 'Markings in the file',
      values: {
        replaced: 'replaced by tringle’s',
        beside: 'kept beside tringle’s',
        pins: 'followed by the plan',
      },
    },
    textWrong: (expected: string) => `Not understood. Enter ${expected}.`,
    amountWrong: (least: number, most: number, unit: Unit) =>
      `Enter a number from ${least} to ${formatAmount(most, unit)}.`,
    reset: 'Reset to defaults',
    preview: 'Preview of these options',
    previewFailed: 'The preview could not be drawn.',
  },
} as const;
