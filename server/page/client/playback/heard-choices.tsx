import { useEffect, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import type { Session } from './listen-session.ts';
import { HEARD_KINDS, type HeardKind } from './sound/due-sounds.ts';

const words = STRINGS.listen.heard;

/** Chooses what is heard: the strings, the pedals or levers as they are set, the beats; any of them together. */
export const HeardChoices = ({
  session,
  actions,
  countedIn,
  onCountedIn,
}: {
  readonly session: Session;
  /** What a knock stands for on this harp. */
  readonly actions: string;
  readonly countedIn: boolean;
  readonly onCountedIn: (countedIn: boolean) => void;
}) => {
  const [heard, setHeard] = useState<ReadonlySet<HeardKind>>(new Set(['strings']));
  useEffect(() => session.player.setHeard(heard), [heard]);
  const label: Readonly<Record<HeardKind, string>> = {
    strings: words.strings,
    actions,
    beats: words.beats,
  };
  return (
    <fieldset class="heard">
      <legend>{words.legend}</legend>
      {HEARD_KINDS.map((kind) => (
        <label key={kind} class="check">
          <input
            type="checkbox"
            checked={heard.has(kind)}
            onChange={({ currentTarget }) => {
              const others = [...heard].filter((each) => each !== kind);
              setHeard(new Set(currentTarget.checked ? [...others, kind] : others));
            }}
          />
          <span>{label[kind]}</span>
        </label>
      ))}
      <label class="check">
        <input
          type="checkbox"
          checked={countedIn}
          onChange={({ currentTarget }) => onCountedIn(currentTarget.checked)}
        />
        <span>{words.countIn}</span>
      </label>
    </fieldset>
  );
};
