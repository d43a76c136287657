import { useEffect, useState } from 'preact/hooks';
import type { Performance } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { BarPlace } from '../planner/planned-part.ts';
import type { Player } from './listen-player.ts';
import type { Session } from './listen-session.ts';

const words = STRINGS.listen.loop;

/** Bars that are played again and again: indices. */
export interface LoopedBars {
  readonly first: number;
  readonly last: number;
}

/** How much faster each time, up to the written tempo; and where it begins unless a slower tempo is chosen. */
const FASTER = 0.05;
const SLOW = 0.7;

/** Seconds by which it goes back before the last bar has ended: at the end of the piece the player would stop. */
const NEAR = 0.05;

/** The seconds of some bars as they are played for the first time; null where they are not. */
const secondsOfBars = (
  { bars }: Pick<Performance, 'bars'>,
  { first, last }: LoopedBars,
): { readonly from: number; readonly until: number } | null => {
  const start = bars.findIndex(({ bar }) => bar === first);
  const end = bars.findIndex(({ bar }, i) => i >= start && bar === last);
  if (start === -1 || end === -1) return null;
  return { from: bars[start]!.at, until: bars[end]!.at + bars[end]!.sound.seconds };
};

const playAgain = (player: Player, looped: LoopedBars, faster: boolean): void => {
  const span = secondsOfBars(player.performance(), looped);
  if (span === null || !player.isPlaying()) return;
  const now = player.seconds();
  if (now >= span.from - NEAR && now < span.until - NEAR) return;
  if (now < span.from) {
    player.seek(span.from);
    return;
  }
  if (faster && player.tempo() < 1) player.setTempo(Math.min(1, player.tempo() + FASTER));
  player.seek(span.from);
};

const BarField = ({
  label,
  bars,
  value,
  onBar,
}: {
  readonly label: string;
  readonly bars: readonly BarPlace[];
  readonly value: number;
  readonly onBar: (bar: number) => void;
}) => (
  <label>
    <span>{label}</span>{' '}
    <select value={value} onChange={({ currentTarget }) => onBar(Number(currentTarget.value))}>
      {bars.map(({ id, name }, i) => (
        <option key={id} value={i}>
          {name}
        </option>
      ))}
    </select>
  </label>
);

/** Plays some bars again and again, each time a little faster if that is wished. */
export const Loop = ({
  session,
  bars,
  selectedBar,
}: {
  readonly session: Session;
  readonly bars: readonly BarPlace[];
  /** Index of the bar that is looked at elsewhere; null where none is. */
  readonly selectedBar: number | null;
}) => {
  const [looped, setLooped] = useState<LoopedBars | null>(null);
  const [faster, setFaster] = useState(false);
  useEffect(() => {
    if (looped === null) return;
    return session.listening.watch(() => playAgain(session.player, looped, faster));
  }, [looped, faster]);
  const begin = (): LoopedBars => {
    const first = selectedBar ?? 0;
    return { first, last: Math.min(bars.length - 1, first + 3) };
  };
  return (
    <div class="loop">
      <label class="check">
        <input
          type="checkbox"
          checked={looped !== null}
          onChange={({ currentTarget }) => setLooped(currentTarget.checked ? begin() : null)}
        />
        <span>{words.label}</span>
      </label>
      {looped !== null && (
        <>
          <BarField
            label={words.from}
            bars={bars}
            value={looped.first}
            onBar={(first) => setLooped({ first, last: Math.max(first, looped.last) })}
          />
          <BarField
            label={words.until}
            bars={bars}
            value={looped.last}
            onBar={(last) => setLooped({ first: Math.min(looped.first, last), last })}
          />
          <label class="check">
            <input
              type="checkbox"
              checked={faster}
              onChange={({ currentTarget }) => {
                setFaster(currentTarget.checked);
                if (currentTarget.checked && session.player.tempo() >= 1) session.player.setTempo(SLOW);
              }}
            />
            <span>{words.faster}</span>
          </label>
        </>
      )}
    </div>
  );
};
