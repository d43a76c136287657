import { EXIT, type Failed } from './exit.ts';

/** The system's errors that a user can fix, by its own codes (errno). */
const SYSTEM_REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EISDIR: 'it is a folder',
  ENOTDIR: 'part of the path is not a folder',
  EEXIST: 'a file stands where a folder should be',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is read-only',
  ENAMETOOLONG: 'the name is too long',
  EADDRINUSE: 'another program is using it',
  EADDRNOTAVAIL: 'this computer has no such address',
  ENOTFOUND: 'there is no such host',
  ERR_FS_FILE_TOO_LARGE: 'the file is too large',
};

/** The ending for an error of the system; an error of another kind is a bug and is thrown on. */
export const resultOfSystemError = (doing: string, error: unknown): Failed => {
  if (!(error instanceof Error) || !('code' in error)) throw error;
  const code = String(error.code);
  const reason = SYSTEM_REASONS[code] ?? ('syscall' in error ? code : null);
  if (reason === null) throw error;
  return { code: EXIT.system, message: `${doing}: ${reason}` };
};
