import { closeSync, existsSync, fstatSync, mkdirSync, openSync, renameSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';

const MAX_BYTES = 10 * 1024 * 1024;
const KEPT = 5;

/** A log of JSON lines: ten megabytes per file, five files, the newest without a number. */
export interface LogFile {
  write(line: string): void;
  close(): void;
}

export function openLog(file: string, maxBytes: number = MAX_BYTES): LogFile {
  mkdirSync(dirname(file), { recursive: true });
  let handle = openSync(file, 'a', 0o600);
  let size = fstatSync(handle).size;
  let closed = false;
  return {
    write(line) {
      // Last words of a service that has been stopped may still come through its pipe.
      if (closed) return;
      const text = `${line}\n`;
      if (size > 0 && size + text.length > maxBytes) {
        closeSync(handle);
        shift(file);
        handle = openSync(file, 'a', 0o600);
        size = 0;
      }
      size += writeSync(handle, text);
    },
    close() {
      if (!closed) closeSync(handle);
      closed = true;
    },
  };
}

function shift(file: string): void {
  for (let number = KEPT - 1; number >= 1; number--) {
    const from = number === 1 ? file : `${file}.${number - 1}`;
    if (existsSync(from)) renameSync(from, `${file}.${number}`);
  }
}

/** One line of a service as it goes into its log, and the words the terminal shows of it, if any. */
export interface LoggedLine {
  readonly json: string;
  readonly shown?: string;
}

/** pino's level of an error. */
const ERROR = 50;

/**
 * A service that writes JSON is taken as it is, and shown when it is an error; a plain line is wrapped, and shown when
 * it came on standard error.
 */
export function readLine(line: string, { onError, time }: { onError: boolean; time: string }): LoggedLine {
  const parsed = jsonObject(line);
  if (!parsed) {
    const json = JSON.stringify({ time, level: onError ? ERROR : 30, msg: line });
    return onError && line.trim() !== '' ? { json, shown: line } : { json };
  }
  if (!(typeof parsed.level === 'number' && parsed.level >= ERROR)) return { json: line };
  return { json: line, shown: typeof parsed.msg === 'string' ? parsed.msg : line };
}

function jsonObject(line: string): { level?: unknown; msg?: unknown } | undefined {
  if (!line.startsWith('{')) return undefined;
  try {
    const value: unknown = JSON.parse(line);
    return typeof value === 'object' && value !== null ? value : undefined;
  } catch {
    return undefined;
  }
}
