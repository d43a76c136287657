/** The C and F strings as on the instrument: a red that stands out on white paper, and a blue that does beside black. */
export const STRING_COLOURS = { c: '#c8102e', f: '#1f4e9e' } as const;
