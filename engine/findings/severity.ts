/** How grave a finding is, the gravest first. */
export const SEVERITIES = ['stop', 'warn', 'note'] as const;

/** `stop`: not playable as printed; `warn`: risky or awkward; `note`: worth knowing. */
export type Severity = (typeof SEVERITIES)[number];

/** A severity in words: as a heading, and what it means. */
export const SEVERITY_WORDS: Readonly<Record<Severity, { readonly name: string; readonly meaning: string }>> =
  {
    stop: { name: 'Not playable', meaning: 'not playable as printed' },
    warn: { name: 'Warning', meaning: 'risky or awkward' },
    note: { name: 'Note', meaning: 'worth knowing' },
  };
