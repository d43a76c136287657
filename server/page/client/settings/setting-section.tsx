import { STRINGS } from '../../strings/strings.ts';
import { OpenedSection } from '../controls/opened-section.tsx';
import type { SettingExplorerProps } from './setting-explorer.tsx';

const loadExplorer = async () => (await import('./setting-explorer.tsx')).SettingExplorer;

/** What settings hold, opened on request. */
export const SettingSection = (from: Omit<SettingExplorerProps, 'onClose'>) => (
  <OpenedSection
    name="settings"
    heading={STRINGS.settings.heading}
    label={STRINGS.settings.open}
    load={loadExplorer}
    view={from}
  />
);
