import { useState } from 'preact/hooks';
import { type FoundSetting, formatSetting, type Setting } from '../../../../engine/index.ts';
import { SETTING_STRINGS } from '../../strings/setting-strings.ts';
import type { SoundFound } from './setting-messages.ts';

const words = SETTING_STRINGS.search;

const MOST_SHOWN = 8;

interface FoundProps {
  readonly title: string;
  readonly found: readonly FoundSetting[];
  /** Whether the settings are for several sounds. */
  readonly named: boolean;
  readonly onTake: (setting: Setting) => void;
}

const Found = ({ title, found, named, onTake }: FoundProps) =>
  found.length === 0 ? null : (
    <>
      <h4>{title}</h4>
      <ul class="found-settings">
        {found.slice(0, MOST_SHOWN).map(({ sound, setting, moves, seconds }) => {
          const names = formatSetting(setting);
          return (
            <li key={`${sound.name} ${names}`}>
              <button type="button" onClick={() => onTake(setting)}>
                <span class="names">{names}</span>
              </button>{' '}
              {named ? words.forSound(sound.name, words.about(moves, seconds)) : words.about(moves, seconds)}
            </li>
          );
        })}
      </ul>
      {found.length > MOST_SHOWN && <p>{words.more(found.length - MOST_SHOWN)}</p>}
    </>
  );

export interface SoundSearchProps {
  readonly sound: SoundFound | null;
  readonly onAsk: (text: string) => void;
  readonly onTake: (setting: Setting) => void;
}

/** The settings for a sound, the nearest first. */
export const SoundSearch = ({ sound, onAsk, onTake }: SoundSearchProps) => {
  const [typed, setTyped] = useState('');
  const found = sound?.found ?? null;
  const isSeveral = found !== null && found.sounds.length > 1;
  return (
    <form
      class="sound-search"
      onSubmit={(event) => {
        event.preventDefault();
        onAsk(typed.trim());
      }}
    >
      <h3>{words.heading}</h3>
      <label>
        {words.label}{' '}
        <input
          type="text"
          name="sound"
          maxLength={200}
          placeholder={words.example}
          value={typed}
          onInput={({ currentTarget }) => setTyped(currentTarget.value)}
        />
      </label>
      <button type="submit">{words.ask}</button>
      <p role="status">
        {sound === null ? '' : found === null ? words.unknown(sound.text) : words.understood(found.sounds)}
      </p>
      {found !== null && (
        <>
          <Found
            title={words.whole(found.search.whole.length)}
            found={found.search.whole}
            named={isSeveral}
            onTake={onTake}
          />
          <Found
            title={words.holding(found.search.holding.length)}
            found={found.search.holding}
            named={isSeveral}
            onTake={onTake}
          />
          <Found title={words.nearest} found={found.search.nearest} named={isSeveral} onTake={onTake} />
        </>
      )}
    </form>
  );
};
