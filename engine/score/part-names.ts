/** The names or ids of parts in a list that a user wrote, which semicolons separate. */
export const readPartNames = (text: string): readonly string[] =>
  text
    .split(';')
    .map((name) => name.trim())
    .filter((name) => name !== '');
