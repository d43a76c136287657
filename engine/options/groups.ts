/** What options are about, in the order in which they are shown, with the heading of each. */
export const OPTION_GROUPS = {
  part: 'The part and the harp',
  markings: 'Markings',
  settings: 'Where full settings are printed',
  page: 'Page',
  study: 'Study sheets and exercises',
  notes: 'Notes',
  planning: 'Planning',
  feet: 'Feet',
  levers: 'Levers',
  prices: 'Prices and times of the planner',
} as const;

/** A heading of the catalogue, by its name. */
export type OptionGroup = keyof typeof OPTION_GROUPS;
