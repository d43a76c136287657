import type {
  Setting,
  SettingContents,
  SettingSearch,
  SettingWay,
  WantedSound,
} from '../../../../engine/index.ts';

/** What the view asks of its thread: what a setting holds and the way to it, or which settings have a sound. */
export type SettingQuestion = {
  /** From where moves are counted. */
  readonly origin: Setting;
  readonly footRestSeconds: number;
} & (
  | { readonly kind: 'contents'; readonly setting: Setting }
  | { readonly kind: 'search'; readonly text: string }
);

/** What a setting holds, and the way to it. */
export interface ReachedSetting extends SettingContents {
  readonly way: SettingWay;
}

/** A sound that was asked for, how it was understood (on every root where none is named), and the settings; null for a sound that is not known. */
export interface SoundFound {
  readonly text: string;
  readonly found: { readonly sounds: readonly WantedSound[]; readonly search: SettingSearch } | null;
}

export type SettingAnswer =
  | { readonly kind: 'contents'; readonly contents: ReachedSetting }
  | { readonly kind: 'search'; readonly sound: SoundFound };
