import { type Catalogue, entry, oneOf, type Values } from '../options/describe-option.ts';

/** What a user may choose about a part that is written for several players. */
export const SHARING_CATALOGUE = {
  player: entry(
    'both',
    'part',
    oneOf({
      label: 'Player, in a part for several',
      description:
        'Whose notes are planned in a part for several players (“2 Harps”, “div.”). 1 or 2: the notes of that player, by words such as “I”, “II” or “a 2”, and by the stems of two voices where the players divide; the notes of others are grey. What cannot be told apart is planned for both.',
      values: { all: 'all players', 1: 'the first player', 2: 'the second player' },
      default: 'all',
    }),
  ),
  divide: entry(
    'pedal',
    'part',
    oneOf({
      label: null,
      description:
        'Divides a part between two players; player says whose notes are planned, and without it both get a part, with a score of both. balanced: both have about as much to play; least: the second has only what one harp cannot play. Both parts are to be playable, with few moves, whole voices and changes of player at bar lines. What words and stems tell stays with its player.',
      values: {
        no: 'not divided',
        balanced: 'two players alike',
        least: 'as little as can be for the second',
      },
      default: 'no',
    }),
  ),
} as const satisfies Catalogue;

/** Whose notes of a shared part are planned. */
export type PlayerChoice = Values<typeof SHARING_CATALOGUE>['player'];

/** Whether the part is divided, and by what aim. */
export type DivideChoice = Values<typeof SHARING_CATALOGUE>['divide'];
