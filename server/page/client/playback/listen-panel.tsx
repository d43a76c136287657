import type { ComponentChildren } from 'preact';
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { beatsAt, type Performance, placeAt, secondsAtBeat } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import { HeardChoices } from './heard-choices.tsx';
import { ListenButtons } from './listen-buttons.tsx';
import type { Player } from './listen-player.ts';
import { openSession, type Session } from './listen-session.ts';
import type { Listening } from './listening.ts';
import { Loop } from './loop.tsx';
import { Slider } from './slider.tsx';

const words = STRINGS.listen;

/** What is seen of the harp while it plays. */
export interface HarpPicture {
  /** Equal for pictures that look alike: it is drawn anew only when this changes. */
  readonly key: string;
  readonly picture: ComponentChildren;
  /** How the harp stands, in a sentence. */
  readonly spoken: string;
}

/** The part as it is played. */
export interface PlayedPart {
  readonly part: Pick<ReadPart, 'bars'>;
  readonly performance: Performance;
  /** The harp after so many seconds at the written tempo, with the tempo at which it is played: 1 is the written one. */
  readonly pictureAt: (seconds: number, tempo: number) => HarpPicture;
  /** Says how the harp stands. */
  readonly say: string;
  /** What is set on the harp while it is played, as something to be heard. */
  readonly actions: string;
}

export interface ListenControls {
  /** Index of the bar that is looked at elsewhere; null where none is. */
  readonly selectedBar: number | null;
  readonly onListening: (listening: Listening | null) => void;
  readonly onClose: () => void;
}

type ListenPanelProps = PlayedPart & ListenControls;

/** What the panel shows at one time. */
interface Shown {
  readonly harp: HarpPicture;
  readonly playing: boolean;
  readonly tempo: number;
  /** Beats played, and in all. */
  readonly beats: number;
  readonly allBeats: number;
  readonly place: string;
}

const describePlace = (part: PlayedPart['part'], player: Player): string => {
  const performance = player.performance();
  const { played, quarters } = placeAt(performance, player.seconds());
  const bar = performance.bars[played];
  if (bar === undefined) return '';
  const { name, onsetQuarters, beatQuarters } = part.bars[bar.bar]!;
  const place = words.place(name, Math.floor((quarters - onsetQuarters) / beatQuarters + 1e-6) + 1, bar.pass);
  return player.isCountedIn() ? words.countedIn(place) : place;
};

const showNow = ({ part, pictureAt }: PlayedPart, player: Player): Shown => {
  const performance = player.performance();
  const seconds = player.seconds();
  return {
    harp: pictureAt(seconds, player.tempo()),
    playing: player.isPlaying(),
    tempo: player.tempo(),
    beats: Math.floor(beatsAt(performance, seconds) + 1e-6),
    allBeats: Math.max(1, Math.ceil(beatsAt(performance, performance.seconds) - 1e-6)),
    place: describePlace(part, player),
  };
};

const keyOf = ({ harp, ...rest }: Shown): string => `${JSON.stringify(rest)}${harp.key}`;

/** The session, opened once, with the plan as it stands. */
const useSession = ({ performance, onListening }: ListenPanelProps): Session => {
  const [session] = useState(() => openSession(performance));
  useEffect(() => session.player.setPerformance(performance), [performance]);
  useEffect(() => {
    onListening(session.listening);
    return () => {
      onListening(null);
      session.close();
    };
  }, []);
  return session;
};

/** Drawn anew only when something looks different. */
const useShown = (session: Session, played: PlayedPart): Shown => {
  const { player, listening } = session;
  const look = (): Shown => showNow(played, player);
  const [shown, setShown] = useState(look);
  useEffect(() => {
    let key = '';
    const update = (): void => {
      const now = look();
      const nowKey = keyOf(now);
      if (nowKey !== key) setShown(now);
      key = nowKey;
    };
    update();
    return listening.watch(update);
  }, [played.pictureAt]);
  return shown;
};

const CONTROLS = 'button, input, select, textarea, summary, a, [role="button"]';

const isOnControl = (event: Event): boolean =>
  event.composedPath().some((each) => each instanceof Element && each.matches(CONTROLS));

/** The space bar starts and stops while no control has the focus. */
const useSpaceBar = (toggle: () => void): void =>
  useEffect(() => {
    const take = (event: KeyboardEvent): void => {
      if (event.key !== ' ' || event.ctrlKey || event.metaKey || event.altKey || isOnControl(event)) return;
      event.preventDefault();
      if (!event.repeat) toggle();
    };
    document.addEventListener('keydown', take);
    return () => document.removeEventListener('keydown', take);
  }, [toggle]);

/** Speaks when the music stops, or when asked to. */
const Spoken = ({ shown, label }: { readonly shown: Shown; readonly label: string }) => {
  const [said, setSaid] = useState('');
  const before = useRef(false);
  const say = (sentence: (place: string, harp: string) => string): void =>
    setSaid(sentence(shown.place, shown.harp.spoken));
  useEffect(() => {
    if (before.current && !shown.playing) say(words.stoppedAt);
    if (!before.current && shown.playing) setSaid('');
    before.current = shown.playing;
  }, [shown.playing]);
  return (
    <>
      <button type="button" onClick={() => say(words.standsAt)}>
        {label}
      </button>
      <p class="said" role="status">
        {said}
      </p>
    </>
  );
};

/** Where the music is, and how fast. */
const Sliders = ({ player, shown }: { readonly player: Player; readonly shown: Shown }) => (
  <>
    <Slider
      label={words.position}
      shown={shown.place}
      min={0}
      max={shown.allBeats}
      step={1}
      value={shown.beats}
      onValue={(beats) => player.seek(secondsAtBeat(player.performance(), beats))}
    />
    <Slider
      label={words.tempo}
      shown={words.percent(Math.round(shown.tempo * 100))}
      min={25}
      max={150}
      step={5}
      value={Math.round(shown.tempo * 100)}
      onValue={(percent) => player.setTempo(percent / 100)}
    />
  </>
);

/** How loud, which bars again and again, and what else is heard. */
const More = ({
  session,
  shown,
  props,
  countedIn,
  onCountedIn,
}: {
  readonly session: Session;
  readonly shown: Shown;
  readonly props: ListenPanelProps;
  readonly countedIn: boolean;
  readonly onCountedIn: (countedIn: boolean) => void;
}) => {
  const [volume, setVolume] = useState(80);
  // On a small screen the score keeps its room until more is asked for.
  const [isWide] = useState(() => matchMedia('(min-width: 1000px)').matches);
  useEffect(() => session.setVolume(volume / 100), [volume]);
  return (
    <details class="more" open={isWide}>
      <summary>{words.more}</summary>
      <Slider
        label={words.volume}
        shown={words.percent(volume)}
        min={0}
        max={100}
        step={5}
        value={volume}
        onValue={setVolume}
      />
      <Loop session={session} bars={props.part.bars} selectedBar={props.selectedBar} />
      <HeardChoices {...{ session, countedIn, onCountedIn }} actions={props.actions} />
      <div class="buttons">
        <Spoken shown={shown} label={props.say} />
      </div>
      <p class="aside">{words.keys}</p>
    </details>
  );
};

/** The open player: the harp as the music goes, and the ways to move it. */
export const ListenPanel = (props: ListenPanelProps) => {
  const session = useSession(props);
  const shown = useShown(session, props);
  const [countedIn, setCountedIn] = useState(false);
  const toggle = useCallback(() => session.toggle(countedIn), [countedIn]);
  useSpaceBar(toggle);
  return (
    <div class="player">
      <div class="watch">{shown.harp.picture}</div>
      <div class="controls">
        <ListenButtons
          {...{ session, toggle }}
          isPlaying={shown.playing}
          part={props.part}
          selectedBar={props.selectedBar}
        />
        <Sliders player={session.player} shown={shown} />
        <More {...{ session, shown, props, countedIn }} onCountedIn={setCountedIn} />
        <div class="buttons">
          <button type="button" onClick={props.onClose}>
            {words.close}
          </button>
        </div>
      </div>
    </div>
  );
};
