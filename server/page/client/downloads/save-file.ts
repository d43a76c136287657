/** Puts a file into the user's downloads. */
export const saveFile = (blob: Blob, name: string): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  // The download has its own hold on the bytes by then.
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
};

/** A name for a file from the title of a piece: without signs that file systems refuse. */
export const fileNameOf = (title: string, ending: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
  `${title.replace(/[\\/:*?"<>|\u0000-\u001f]+/g, ' ').trim() || 'harp part'}.${ending}`;
