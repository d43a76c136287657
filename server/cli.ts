#!/usr/bin/env node
import { runCommand } from './command/run-command.ts';

// Set, not called: what is still being written to a pipe is written to its end.
process.exitCode = await runCommand(process.argv.slice(2));
