/** Puts a file into the user's downloads. */
export const saveFile = (blob: Blob, name: string): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  // The download has its own hold on the bytes by then.
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
};
