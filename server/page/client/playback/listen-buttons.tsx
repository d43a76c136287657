import { placeAt } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { Player } from './listen-player.ts';
import type { Session } from './listen-session.ts';

const words = STRINGS.listen;

/** Start of the bar before, or of the bar itself where it has gone on for a while; and of the bar after. */
const stepBar = (player: Player, by: 'back' | 'on'): void => {
  const { bars } = player.performance();
  const { played } = placeAt(player.performance(), player.seconds());
  const here = bars[played];
  if (here === undefined) return;
  const goneOn = player.seconds() - here.at > 0.6 * player.tempo();
  const target = by === 'on' ? played + 1 : goneOn ? played : played - 1;
  player.seek(bars[target]?.at ?? (by === 'on' ? here.at : 0));
};

/** Starts the player at a bar. @param bar its index */
const playFrom = (
  { player, listening }: Session,
  { bars }: Pick<ReadPart, 'bars'>,
  bar: number,
  toggle: () => void,
): void => {
  player.seek(0);
  listening.seekPlace(bar, bars[bar]!.onsetQuarters);
  if (!player.isPlaying()) toggle();
};

/** Play, stop, and from bar to bar. */
export const ListenButtons = ({
  session,
  isPlaying,
  part,
  selectedBar,
  toggle,
}: {
  readonly session: Session;
  readonly isPlaying: boolean;
  readonly part: Pick<ReadPart, 'bars'>;
  /** Index of the bar that is looked at elsewhere; null where none is. */
  readonly selectedBar: number | null;
  readonly toggle: () => void;
}) => {
  const { player } = session;
  const stop = (): void => {
    player.pause();
    player.seek(0);
  };
  return (
    <div class="buttons">
      <button type="button" class="main" onClick={toggle}>
        {isPlaying ? words.pause : words.play}
      </button>
      <button type="button" onClick={stop}>
        {words.stop}
      </button>
      <button type="button" aria-label={words.barBack} onClick={() => stepBar(player, 'back')}>
        ‹
      </button>
      <button type="button" aria-label={words.barOn} onClick={() => stepBar(player, 'on')}>
        ›
      </button>
      <button
        type="button"
        disabled={selectedBar === null}
        onClick={() => {
          if (selectedBar !== null) playFrom(session, part, selectedBar, toggle);
        }}
      >
        {words.fromSelection}
      </button>
    </div>
  );
};
