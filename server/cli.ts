#!/usr/bin/env node
import { compileLater } from './command/compile-later.ts';
import { runCommand } from './command/run-command.ts';

compileLater();
// Set, not called: what is still being written to a pipe is written to its end.
process.exitCode = await runCommand(process.argv.slice(2));
