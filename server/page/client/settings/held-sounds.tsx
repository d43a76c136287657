import type { HeldSound } from '../../../../engine/index.ts';
import { SETTING_STRINGS } from '../../strings/setting-strings.ts';

const words = SETTING_STRINGS.sounds;

export interface HeldSoundsProps {
  readonly sounds: readonly HeldSound[];
  /** The sound whose strings the picture points out; null for none. */
  readonly shown: string | null;
  readonly onShow: (key: string | null) => void;
}

const SoundButtons = ({ sounds, shown, onShow }: HeldSoundsProps) => (
  <ul class="sounds">
    {sounds.map(({ key, name }) => (
      <li key={key}>
        <button type="button" aria-pressed={key === shown} onClick={() => onShow(key === shown ? null : key)}>
          {name}
        </button>
      </li>
    ))}
  </ul>
);

/** What the strings give: each sound shows its strings in the picture. */
export const HeldSounds = ({ sounds, ...showing }: HeldSoundsProps) => {
  const whole = sounds.filter((sound) => sound.whole);
  const parts = sounds.filter((sound) => !sound.whole);
  const chords = parts.filter(({ kind }) => kind === 'chord');
  const scales = parts.filter(({ kind }) => kind === 'scale');
  return (
    <>
      <h3>{words.whole}</h3>
      {whole.length === 0 ? <p>{words.noName}</p> : <SoundButtons sounds={whole} {...showing} />}
      {chords.length > 0 && (
        <details>
          <summary>{words.chords(chords.length)}</summary>
          <SoundButtons sounds={chords} {...showing} />
        </details>
      )}
      {scales.length > 0 && (
        <details>
          <summary>{words.scales(scales.length)}</summary>
          <SoundButtons sounds={scales} {...showing} />
        </details>
      )}
    </>
  );
};
