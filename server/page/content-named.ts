/** A name that the build made of a file's content: another content would have another name. */
const CONTENT_NAMED = /-[A-Z0-9]{8}\.\w+$/;

/** Whether what a path names never changes. */
export const isContentNamed = (path: string): boolean => CONTENT_NAMED.test(path);
